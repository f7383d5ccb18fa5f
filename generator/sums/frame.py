"""Sums of the frame's checks: square, twist, straight."""

from __future__ import annotations

from generator.build.frame_checks import RibEnds, bow_deg, diagonals_mm, difference_mm, rim_height_mm, twist_deg
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed

APART = Takes("apart_mm", "distance between the two ribs, along the spine", unit="mm", low=100, high=4000)
FIRST = Takes("first_half_mm", "half width of the first rib", unit="mm", low=20, high=450)
SECOND = Takes("second_half_mm", "half width of the second rib", unit="mm", low=20, high=450)
RISE = Takes("rise_mm", "how much higher the second rib's corners lie", unit="mm", low=-300, high=300, usual=0)
TURNED = Takes("first_turned_deg", "angle that the first rib is out of square", unit="°", low=-20, high=20)
ALSO = Takes("second_turned_deg", "the same of the second rib", unit="°", low=-20, high=20, usual=0)
STICK = Takes("stick_mm", "length of a winding stick", unit="mm", low=100, high=2000)
SEEN = Takes("seen_mm", "what the far stick shows more at one end than at the other", unit="mm", low=0, high=500)
WIDTH = Takes("width_mm", "width over which the rims are compared", unit="mm", low=50, high=1000)
ASIDE = Takes("aside_mm", "how far the middle lies beside the string", unit="mm", low=0, high=100)
LENGTH = Takes("length_mm", "length of the spine", unit="mm", low=500, high=4000)
RIBS = "straight ribs, each turned about the spine at its middle; tape pulled straight"
STICKS = "straight sticks of even height, sighted edge to edge"


def _ends(typed: Typed) -> tuple[RibEnds, RibEnds]:
    n = typed.numbers
    return RibEnds(0.0, n["first_half_mm"], 0.0), RibEnds(n["apart_mm"], n["second_half_mm"], n["rise_mm"])


def _difference(typed: Typed) -> Answer:
    first, second = _ends(typed)
    n = typed.numbers
    got = difference_mm(first, second, first_turned_deg=n["first_turned_deg"], second_turned_deg=n["second_turned_deg"])
    return Answer.exact(got)


def _twist(typed: Typed) -> tuple[float, float]:
    seen, stick = typed.numbers["seen_mm"], typed.numbers["stick_mm"]
    if seen > stick:
        raise OutOfRange("seen_mm", "no more than the stick is long", f"{stick:g}")
    return seen, stick


def _twist_height(typed: Typed) -> Answer:
    seen, stick = _twist(typed)
    return Answer.exact(rim_height_mm(seen_mm=seen, stick_mm=stick, width_mm=typed.numbers["width_mm"]))


def _twist_angle(typed: Typed) -> Answer:
    seen, stick = _twist(typed)
    return Answer.exact(twist_deg(seen_mm=seen, stick_mm=stick))


SUMS: tuple[Sum, ...] = (
    Sum(
        "diagonal-length",
        "length of both diagonals between the ends of two ribs of a square frame",
        (APART, FIRST, SECOND, RISE),
        "mm",
        Kind.MEASURED,
        "Pythagoras in space",
        RIBS,
        lambda typed: Answer.exact(diagonals_mm(*_ends(typed))[0]),
    ),
    Sum(
        "diagonal-difference",
        "how much the two diagonals differ when ribs are out of square",
        (APART, FIRST, SECOND, TURNED, ALSO, RISE),
        "mm",
        Kind.MEASURED,
        "Pythagoras in space",
        RIBS,
        _difference,
    ),
    Sum(
        "twist-height",
        "how much higher one rim stands than the other, from what winding sticks show",
        (STICK, SEEN, WIDTH),
        "mm",
        Kind.MEASURED,
        "similar triangles",
        STICKS,
        _twist_height,
    ),
    Sum(
        "twist-angle",
        "angle of twist between two winding sticks",
        (STICK, SEEN),
        "°",
        Kind.MEASURED,
        "sine of an angle",
        STICKS,
        _twist_angle,
    ),
    Sum(
        "bow-angle",
        "how far the tips of a spine point aside that is bent sideways to an even arc",
        (LENGTH, ASIDE),
        "°",
        Kind.MEASURED,
        "rise of an arc over its chord: s = c/2 tan(φ/2)",
        "an even arc",
        lambda typed: Answer.exact(bow_deg(aside_mm=typed.numbers["aside_mm"], length_mm=typed.numbers["length_mm"])),
    ),
)
