"""Whether a glue-up is closed before its glue's open time is over, and what to do if it is not."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from generator.build.amount import Amount

# All common practice of first-time builders, none of it measured.
FILM_MIN_PER_M = Amount(0.6, 0.4, 1.0)  # one person, both faces of a metre of joint
BEAD_MIN_PER_M = Amount(1.5, 1.0, 2.5)  # one person, a metre of bead run and pressed into its corner
LINE_MIN_PER_M = Amount(0.4, 0.25, 0.7)  # one person, a metre of bead along an open edge
CLOSE_MIN = Amount(0.6, 0.4, 1.0)  # two people, one pair of clamps
LOWER_MIN = Amount(1.5, 1.0, 3.0)  # turning the part, lowering it on its marks
MOST_PEOPLE = 4  # two along each side; more stand in each other's way
MOST_GOES = 5

Verdict = Literal["fits", "tight", "no"]


@dataclass(frozen=True, slots=True)
class GlueUp:
    """One job that must be closed within the open time: how much joint gets glue, how many pairs of clamps go on."""

    joint_mm: float
    pairs: int
    pace_min_m: Amount = FILM_MIN_PER_M

    def minutes(self, *, people: int) -> Amount:
        """From the first glue to the last clamp, shared evenly by `people`, of whom no more than four count.

        Raises:
            ValueError: nobody is there.
        """
        hands = _hands(people)
        spreading = self.pace_min_m.times(self.joint_mm / 1000 / hands)
        return spreading + LOWER_MIN + CLOSE_MIN.times(2 * self.pairs / hands)

    def part(self, goes: int) -> GlueUp:
        """The greatest part if the job is cut into `goes` alike, by whole pairs of clamps."""
        return GlueUp(self.joint_mm / goes, math.ceil(self.pairs / goes), self.pace_min_m)


def verdict(taken: Amount, *, open_min: float) -> Verdict:
    """Whether a job fits an open time: "fits" if even a slow one does, "tight" if only an ordinary one does."""
    if taken.high <= open_min:
        return "fits"
    return "tight" if taken.value <= open_min else "no"


def people_needed(job: GlueUp, *, open_min: float) -> int | None:
    """The fewest people with whom even a slow job fits, or None if four are too few."""
    return next((n for n in range(1, MOST_PEOPLE + 1) if job.minutes(people=n).high <= open_min), None)


def goes_needed(job: GlueUp, *, people: int, open_min: float) -> int | None:
    """In how many goes even a slow job fits, or None if that takes more than `MOST_GOES`.

    A go is a stretch between two ribs, from the middle outwards, with everything clamped dry and a full cure between
    the goes; so the whole must be clamped each time, but only the stretch has to be closed against the clock.
    """
    return next(
        (n for n in range(1, MOST_GOES + 1) if job.part(n).minutes(people=people).high <= open_min),
        None,
    )


def bead_minutes(*, bead_mm: float, people: int) -> Amount:
    """Running beads of this length and pressing them into their corners, shared by `people`.

    Raises:
        ValueError: nobody is there.
    """
    return BEAD_MIN_PER_M.times(bead_mm / 1000 / _hands(people))


def bead_reach_mm(*, open_min: float) -> float:
    """How far one person may run a bead before going back to press it: what takes half the open time at a slow pace.

    The other half is for pressing it in. Common practice: nothing stiffens under the stick.
    """
    return 1000 * open_min / 2 / BEAD_MIN_PER_M.high


def _hands(people: int) -> int:
    if people < 1:
        raise ValueError("somebody must be there")
    return min(people, MOST_PEOPLE)
