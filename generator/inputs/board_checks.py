"""What must fit together inside a board's file. Each check runs when the fields that it reads are sound."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from generator.inputs.blame import SLACK, Blame, run_checks
from generator.inputs.board import Board
from generator.inputs.fault import Fault
from generator.inputs.fit import Fitted
from generator.inputs.fitting_checks import fitting_faults
from generator.inputs.stations import at_both_ends, in_order, near_both_ends, rocker_sense
from generator.inputs.tables import Species
from generator.inputs.words import Loc

LEAST_SPINE_MM = 10.0
LEAST_STEP_MM = 5.0
LEAST_RIB_STEP_MM = 30.0
RIB_TO_TIP_MM = 20.0
SLOT_PLAY_MM = 2.0
MIDDLE_FROM, MIDDLE_APART = 0.15, 0.2
LEAST_HALF_WIDTH_MM = 10.0
NOSE_TO_TAIL = "the board is so long"


def board_faults(fitted: Fitted[Board], timbers: Sequence[Species] | None) -> list[Fault]:
    """All faults between the fields of one board; `timbers` is None if the table could not be read."""
    board, blame = fitted.sound, Blame(fitted.document)
    checks: list[Callable[..., Iterator[Fault]]] = [
        _length_beside_rail, _half_widths_along, _thickness_along, _ribs_along, _ribs_for_supports, _bottom_along,
        _rocker_along, _rocker_makes_sense, _tips, _width, _one_widest_place, _spine_depth, _rim_depth,
        _strip_heights, _slots, _margins,
        *(partial(_spread, part=part) for part in ("spine", "edge_strip", "panel")),
        partial(_timber, timbers=timbers),
    ]  # fmt: skip
    return run_checks(partial(check, board, blame) for check in checks) + fitting_faults(board, blame)


def _places(name: str, entries: Sequence[Any]) -> tuple[list[Loc], list[float]]:
    return [(name, at, "from_tail") for at in range(len(entries))], [entry.from_tail_mm for entry in entries]


def _length_beside_rail(board: Any, blame: Blame) -> Iterator[Fault]:
    data = blame.document.data
    if board.sizes_of == "finished" and "rail" not in data and board.rail_mm == 0:
        allowed = "0 mm to 80 mm (finished sizes need it: the frame is smaller by the rail on each side)"
        yield blame.fault(("rail",), "missing", allowed, "adding the line `rail: …`")


def _half_widths_along(board: Any, blame: Blame) -> Iterator[Fault]:
    locs, places = _places("half_widths", board.half_widths)
    length = board.length_mm
    yield from in_order(blame, locs, places, high_mm=length, least_step_mm=LEAST_STEP_MM, why=NOSE_TO_TAIL)
    yield from near_both_ends(blame, locs, places, length_mm=length)


def _thickness_along(board: Any, blame: Blame) -> Iterator[Fault]:
    locs, places = _places("thickness", board.thickness)
    length = board.length_mm
    yield from in_order(blame, locs, places, high_mm=length, least_step_mm=LEAST_STEP_MM, why=NOSE_TO_TAIL)
    yield from near_both_ends(blame, locs, places, length_mm=length)


def _ribs_along(board: Any, blame: Blame) -> Iterator[Fault]:
    places = board.ribs.from_tail_mm
    locs: list[Loc] = [("ribs", "from_tail", at) for at in range(len(places))]
    yield from blame.within(locs[0], "length", places[0], low=RIB_TO_TIP_MM, why="a rib needs spine on both sides")
    high = board.length_mm - RIB_TO_TIP_MM
    why = "a rib needs spine on both sides"
    yield from in_order(blame, locs, places, high_mm=high, least_step_mm=LEAST_RIB_STEP_MM, why=why)


def _ribs_for_supports(board: Any, blame: Blame) -> Iterator[Fault]:
    """The bench's two middle supports stand at ribs."""
    length = board.length_mm
    low, high, apart = MIDDLE_FROM * length, (1 - MIDDLE_FROM) * length, MIDDLE_APART * length
    places = [place for place in board.ribs.from_tail_mm if low <= place <= high]
    if not places or places[-1] - places[0] < apart:
        found = "no two ribs where the bench's middle supports could stand"
        allowed = f"two ribs between {low:.0f} mm and {high:.0f} mm from the tail, {apart:.0f} mm or more apart"
        yield blame.fault(("ribs", "from_tail"), found, allowed, f"ribs at {0.35 * length:.0f} and {0.65 * length:.0f}")


def _bottom_along(board: Any, blame: Blame) -> Iterator[Fault]:
    if not isinstance(board.frame_bottom, str):
        yield from _full_length("frame_bottom", board.frame_bottom, board.length_mm, blame)


def _rocker_along(board: Any, blame: Blame) -> Iterator[Fault]:
    yield from _full_length("rocker", board.rocker, board.length_mm, blame)


def _rocker_makes_sense(board: Any, blame: Blame) -> Iterator[Fault]:
    _, places = _places("rocker", board.rocker)
    yield from rocker_sense(blame, ("rocker",), places, [entry.height_mm for entry in board.rocker])


def _full_length(name: str, entries: Sequence[Any], length_mm: float, blame: Blame) -> Iterator[Fault]:
    locs, places = _places(name, entries)
    yield from in_order(blame, locs, places, high_mm=length_mm, least_step_mm=LEAST_STEP_MM, why=NOSE_TO_TAIL)
    yield from at_both_ends(blame, locs, places, length_mm=length_mm)


def _tips(board: Any, blame: Blame) -> Iterator[Fault]:
    """A square tip needs its half-width; any other tip has none."""
    ends = (("tail", board.tail, 0, 0.0), ("nose", board.nose, -1, board.length_mm))
    for name, shape, at, end_mm in ends:
        last = board.half_widths[at]
        given = abs(last.from_tail_mm - end_mm) <= SLACK
        loc: Loc = ("half_widths", at % len(board.half_widths))
        if shape == "square" and not (given and last.half_width_mm > 0):
            here = f"a half-width above 0 at {end_mm:g} mm from the tail"
            yield blame.fault((name,), "square without its half-width", f"{here}, or round or pointed", "round")
        elif shape != "square" and given:
            why = f"the {name} is {shape}"
            yield from blame.within((*loc, "half_width"), "length", last.half_width_mm, low=0, high=0, why=why)


def _width(board: Any, blame: Blame) -> Iterator[Fault]:
    widest = max(range(len(board.half_widths)), key=lambda at: board.half_widths[at].half_width_mm)
    half_width = board.half_widths[widest].half_width_mm
    loc = ("half_widths", widest, "half_width")
    why = "the widest place; at most a fifth of the length"
    yield from blame.within(loc, "length", half_width, low=100, high=board.length_mm / 5, why=why)


def _one_widest_place(board: Any, blame: Blame) -> Iterator[Fault]:
    """From the widest place the outline only narrows towards both tips, and between them it is never nothing."""
    widths = [entry.half_width_mm for entry in board.half_widths]
    widest = max(range(len(widths)), key=widths.__getitem__)
    for at, width in enumerate(widths):
        inner = at + (at < widest) - (at > widest)
        at_tip = board.half_widths[at].from_tail_mm in (0.0, board.length_mm)
        low, high = (0.0 if at_tip else LEAST_HALF_WIDTH_MM), widths[inner]
        why = "an outline narrows from its widest place to its tips"
        yield from blame.within(("half_widths", at, "half_width"), "length", width, low=low, high=high, why=why)


def _panels_mm(board: Any) -> float:
    """What the two panels take of the thickness: nothing if the frame's own thickness is given."""
    return 2.0 * float(board.panel.thickness_mm) if board.sizes_of == "finished" else 0.0


def _spine_depth(board: Any, blame: Blame) -> Iterator[Fault]:
    panels = _panels_mm(board)
    for at, place in enumerate(board.thickness):
        why = f"both panels and {LEAST_SPINE_MM:g} mm of spine" if panels else "the spine's least depth"
        loc = ("thickness", at, "thickness")
        yield from blame.within(loc, "length", place.thickness_mm, low=panels + LEAST_SPINE_MM, why=why)


def _rim_depth(board: Any, blame: Blame) -> Iterator[Fault]:
    """Under the crown, the rim must still hold the edge strip as high as it is at the tips."""
    panels, strip = _panels_mm(board), board.edge_strip.height_at_tips_mm
    for at, place in enumerate(board.thickness):
        room = place.thickness_mm - panels - strip
        if place.thickness_mm >= panels + LEAST_SPINE_MM:
            why = "the rim must hold the edge strip" + (" between the panels" if panels else "")
            loc = ("thickness", at, "crown")
            if room >= 0:
                yield from blame.within(loc, "length", place.crown_mm, high=room, why=why)
            else:
                least = panels + strip + place.crown_mm
                loc = ("thickness", at, "thickness")
                yield from blame.within(loc, "length", place.thickness_mm, low=least, why=why)


def _strip_heights(board: Any, blame: Blame) -> Iterator[Fault]:
    strip = board.edge_strip
    loc = ("edge_strip", "height_at_tips")
    yield from blame.within(loc, "length", strip.height_at_tips_mm, high=strip.height_mm, why="the strip's full height")
    panels = _panels_mm(board)
    deepest = max(place.thickness_mm - place.crown_mm - panels for place in board.thickness)
    if deepest > 0:
        why = "the depth of the rim where it is deepest"
        yield from blame.within(("edge_strip", "height"), "length", strip.height_mm, high=deepest, why=why)


def _slots(board: Any, blame: Blame) -> Iterator[Fault]:
    rib, width = board.ribs.thickness_mm, board.slots.width_mm
    why = "the rib goes in, with little play"
    yield from blame.within(("slots", "width"), "length", width, low=rib, high=rib + SLOT_PLAY_MM, why=why)


def _margins(board: Any, blame: Blame) -> Iterator[Fault]:
    margin = board.trace_margin
    if margin is not None:
        yield from margin_faults(margin, blame, ("trace_margin",))


def margin_faults(margin: Any, blame: Blame, loc: Loc) -> Iterator[Fault]:
    """The tips need at least the margin of the sides: frame and panel slide along each other there."""
    why = "no less than at the sides"
    yield from blame.within((*loc, "tips"), "length", margin.tips_mm, low=margin.sides_mm, why=why)


def _spread(board: Any, blame: Blame, *, part: str) -> Iterator[Fault]:
    stiffness = getattr(board, part).stiffness_mpa
    for name, limits in (("low", {"high": stiffness.value}), ("high", {"low": stiffness.value})):
        loc = (part, "stiffness", name)
        yield from blame.within(loc, "stiffness", getattr(stiffness, name), **limits, why="the value lies in its range")


def _timber(board: Any, blame: Blame, *, timbers: Sequence[Species] | None) -> Iterator[Fault]:
    if timbers is not None:
        names = [timber.name for timber in timbers]
        yield from blame.known(("panel", "timber"), board.panel.timber, names, "timber.csv")
