"""One line of the table that `python3 run.py speed` prints."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """What was measured, what came out, and the goal; `met` is None where there is no goal."""

    what: str
    took: str
    goal: str = ""
    met: bool | None = None

    def __str__(self) -> str:
        met = {None: "", True: "met", False: "NOT met"}[self.met]
        return f"{self.what:<52}{self.took:>34}   {self.goal:<12} {met}".rstrip()
