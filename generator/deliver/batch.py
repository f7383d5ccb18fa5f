"""Many guides in one process: one bad file does not stop the others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.deliver.building import BuildFailed, build_site
from generator.guides import make_guide
from generator.inputs.fault import BadInput
from generator.inputs.site import builder_slugs, misnamed


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of each builder asked for: the file to open, or not."""

    built: tuple[Path, ...]
    bad_input: tuple[str, ...]
    failed: tuple[str, ...]


def build_all(data: Path, out: Path, builders: Sequence[str], *, tell: Callable[[object], None]) -> Outcome:
    """Build the guides of `builders` (of all there are, if none is named) into `out`.

    `tell` gets each message once, even when the same file stops several guides.

    Raises:
        BadInput: the data folder itself can't be read.
    """
    built: list[Path] = []
    failed: list[str] = []
    odd = [] if builders else misnamed(data)
    bad = [fault.place for fault in odd]
    for fault in odd:
        tell(fault)
    told: set[str] = set()
    for slug in dict.fromkeys(builders or builder_slugs(data)):
        try:
            built.append(build_site(make_guide(data, slug), out=out / slug).start)
        except BadInput as stop:
            bad.append(slug)
            for fault in stop.faults:
                if str(fault) not in told:
                    tell(fault)
                told.add(str(fault))
            tell(f"{slug}: no guide was written; a guide that was there stays as it was.")
        except BuildFailed as stop:
            failed.append(slug)
            tell(f"{slug}: the guide could not be made, an older one stays as it was:\n{stop}")
    if built:
        tell("Open in a browser:")
        for start in built:
            tell(f"  {start}")
    return Outcome(tuple(built), tuple(bad), tuple(failed))
