"""The one error type for what a person typed: where it stands, what was found, what is allowed, the way out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

SHOWN_CHARS = 60


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong in a file.

    `place` is "boards/heron.yaml:7" (file alone if no line is to blame), `field` the field in plain words, `found`
    what stands there, `allowed` what may stand there, `nearest` the nearest good value or name ("" if there is none).
    """

    place: str
    field: str
    found: str
    allowed: str
    nearest: str

    def __str__(self) -> str:
        way_out = f"; try {self.nearest}" if self.nearest else ""
        return f"{self.place}: {self.field} is {self.found}; allowed: {self.allowed}{way_out}"

    def seen_from(self, folder: str) -> str:
        """The same words with the path of the data folder before the place, as one would open the file from here."""
        return f"{folder}/{self}"

    @property
    def order(self) -> tuple[str, int]:
        """File, then line, for sorting."""
        file, _, line = self.place.rpartition(":")
        return (file, int(line)) if file and line.isdigit() else (self.place, 0)


class BadInput(Exception):
    """All that is wrong in what a person typed, in file order."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(sorted(dict.fromkeys(faults), key=lambda fault: fault.order))
        super().__init__("\n".join(map(str, self.faults)))


def shown(text: object) -> str:
    """`text` on one line, short enough for a message, and without characters that a terminal would act on."""
    line = " ".join("".join(c if c.isprintable() or c.isspace() else "�" for c in str(text)[:2000]).split())
    return line if len(line) <= SHOWN_CHARS else line[: SHOWN_CHARS - 1].rstrip() + "…"
