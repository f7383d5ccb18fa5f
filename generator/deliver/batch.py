"""Many guides in one process: one bad file does not stop the others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.deliver.building import BuildFailed, build_site
from generator.guides import make_guide
from generator.inputs.fault import BadInput, Fault
from generator.inputs.site import builder_slugs, misnamed, read_site


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
    told: set[str] = set()
    _tell_new(odd, data, told, tell)
    slugs = dict.fromkeys(builders or builder_slugs(data))
    if not slugs:
        read_site(data)
        raise BadInput(
            [Fault("builders", "the folder of builders", "empty", "one file a builder", "a copy of a demo builder")]
        )
    for slug in slugs:
        try:
            built.append(build_site(make_guide(data, slug), out=out / slug).start)
        except BadInput as stop:
            bad.append(slug)
            _tell_new(stop.faults, data, told, tell)
            tell(f"{slug}: no guide was written; a guide that was there stays as it was.")
        except BuildFailed as stop:
            failed.append(slug)
            tell(f"{slug}: the guide could not be made, an older one stays as it was:\n{stop}")
    if built:
        tell("Open in a browser:")
        for start in built:
            tell(f"  {start}")
    return Outcome(tuple(built), tuple(bad), tuple(failed))


def _tell_new(faults: Sequence[Fault], data: Path, told: set[str], tell: Callable[[object], None]) -> None:
    """Tell the faults that were not told yet."""
    for words in (fault.seen_from(data.as_posix()) for fault in faults):
        if words not in told:
            tell(words)
        told.add(words)
