"""What must fit together inside a builder's file, and with the maker's and the board's. Unsound fields are left out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.board_checks import LEAST_STEP_MM, NOSE_TO_TAIL
from generator.inputs.builder import Builder
from generator.inputs.fault import Fault
from generator.inputs.fit import Fitted, Partial
from generator.inputs.label_checks import label_faults
from generator.inputs.rocker_rules import SURF_FACTORS, RockerRules
from generator.inputs.stages import BUILD_STAGES, NOTED_STAGES
from generator.inputs.stations import at_both_ends, in_order, near_both_ends, rocker_sense
from generator.inputs.tables import Tool
from generator.inputs.words import Loc

PANEL_OFF_MM = 2.0
THIN_MM, THICK_MM = 3.0, 12.0  # as the field allows
BEAD_GAP_MM = 1.0
HEIGHTS_MM = {"tin": (40, 600), "block": (10, 400), "sheet": (1, 60), "shim": (0.1, 6), "crossbar": (8, 150)}


def builder_faults(
    fitted: Fitted[Builder],
    board: Any,
    *,
    board_slugs: Sequence[str],
    tools: Sequence[Tool] | None,
    rules: RockerRules | None,
) -> list[Fault]:
    """All faults between the fields of one builder and of what they refer to.

    `board` is the model or what is sound of it; None, like `tools` and `rules`, if the file could not be read.
    """
    builder, blame = fitted.sound, Blame(fitted.document)
    board = board or Partial({})
    checks: list[Callable[..., Iterator[Fault]]] = [
        partial(_board_there, slugs=board_slugs),
        *(partial(_surf, factor=factor, rules=rules) for factor in SURF_FACTORS),
        partial(_rocker_along, board=board), _rocker_makes_sense,
        *(partial(_names_once, group=group) for group in ("things", "clamps", "weights")),
        _thing_heights, partial(_clamp_openings, board=board), partial(_tools_known, tools=tools), _tools_once,
        partial(_table_length, board=board), partial(_readings, board=board), _night, _days_once, _stage, _notes,
        _glue_method, _glue_class, _glue_times, partial(_panel_thickness, board=board),
        *(partial(_sag, part=part, board=board) for part in ("frame_sag", "panel_sag")),
        *(partial(_heights_along, name=name, board=board) for name in ("on_bench", "cured", "with_top")),
    ]  # fmt: skip
    return run_checks(partial(check, builder, blame) for check in checks) + label_faults(builder, blame)


def _board_there(builder: Any, blame: Blame, *, slugs: Sequence[str]) -> Iterator[Fault]:
    yield from blame.known(("board",), builder.board, slugs, "the folder `boards`")


def _surf(builder: Any, blame: Blame, *, factor: str, rules: RockerRules | None) -> Iterator[Fault]:
    if rules is not None:
        place = f"rocker_rules.csv under `{factor}`"
        yield from blame.known(("surf", factor), getattr(builder.surf, factor), rules.names(factor), place)


def _rocker_along(builder: Any, blame: Blame, *, board: Any) -> Iterator[Fault]:
    if not isinstance(builder.rocker, str):
        locs: list[Loc] = [("rocker", at, "from_tail") for at in range(len(builder.rocker))]
        places = [entry.from_tail_mm for entry in builder.rocker]
        length = board.length_mm
        yield from in_order(blame, locs, places, high_mm=length, least_step_mm=LEAST_STEP_MM, why=NOSE_TO_TAIL)
        yield from at_both_ends(blame, locs, places, length_mm=length)


def _rocker_makes_sense(builder: Any, blame: Blame) -> Iterator[Fault]:
    if not isinstance(builder.rocker, str):
        places = [entry.from_tail_mm for entry in builder.rocker]
        yield from rocker_sense(blame, ("rocker",), places, [entry.height_mm for entry in builder.rocker])


def _names_once(builder: Any, blame: Blame, *, group: str) -> Iterator[Fault]:
    entries = getattr(builder, group)
    locs: list[Loc] = [(group, at, "name") for at in range(len(entries))]
    yield from blame.once(locs, [entry.name for entry in entries], "another name, or one entry with both counts")


def _thing_heights(builder: Any, blame: Blame) -> Iterator[Fault]:
    for at, thing in enumerate(builder.things):
        low, high = HEIGHTS_MM[thing.kind]
        why = f"usual for a {thing.kind}"
        yield from blame.within(("things", at, "height"), "length", thing.height_mm, low=low, high=high, why=why)


def _clamp_openings(builder: Any, blame: Blame, *, board: Any) -> Iterator[Fault]:
    joint = board.panel.thickness_mm + board.edge_strip.height_mm
    for at, clamp in enumerate(builder.clamps):
        why = "the panel and the edge strip must go in; leave smaller clamps out"
        yield from blame.within(("clamps", at, "opening"), "length", clamp.opening_mm, low=joint, why=why)


def _tools_known(builder: Any, blame: Blame, *, tools: Sequence[Tool] | None) -> Iterator[Fault]:
    if tools is not None:
        names = [tool.name for tool in tools]
        for at, tool in enumerate(builder.tools):
            yield from blame.known(("tools", at), tool, names, "household.csv")


def _tools_once(builder: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("tools", at) for at in range(len(builder.tools))]
    yield from blame.once(locs, builder.tools, "taking out one of the two")


def _table_length(builder: Any, blame: Blame, *, board: Any) -> Iterator[Fault]:
    why = "the supports at both tips stand on it; two tables end to end count as one"
    yield from blame.within(("table", "length"), "length", builder.table.length_mm, low=board.length_mm, why=why)


def _readings(builder: Any, blame: Blame, *, board: Any) -> Iterator[Fault]:
    readings = builder.table.readings
    locs: list[Loc] = [("table", "readings", at, "from_tail") for at in range(len(readings))]
    places = [reading.from_tail_mm for reading in readings]
    why = "the table ends there"
    yield from in_order(blame, locs, places, high_mm=builder.table.length_mm, least_step_mm=LEAST_STEP_MM, why=why)
    yield from near_both_ends(blame, locs, places, length_mm=board.length_mm)


def _night(builder: Any, blame: Blame) -> Iterator[Fault]:
    shed = builder.shed
    why = "no warmer than by day"
    yield from blame.within(("shed", "night_low"), "temperature", shed.night_low_c, high=shed.temperature_c, why=why)


def _days_once(builder: Any, blame: Blame) -> Iterator[Fault]:
    days = builder.evenings.days
    locs: list[Loc] = [("evenings", "days", at) for at in range(len(days))]
    yield from blame.once(locs, days, "taking out one of the two")


def _stage(builder: Any, blame: Blame) -> Iterator[Fault]:
    yield from blame.known(("stage",), builder.stage, BUILD_STAGES, "the list of stages")


def _notes(builder: Any, blame: Blame) -> Iterator[Fault]:
    for slug in builder.notes:
        yield from blame.known(("notes", slug), slug, NOTED_STAGES, "the list of written stages")


def _glue_method(builder: Any, blame: Blame) -> Iterator[Fault]:
    """A bead that is run after clamping is not pressed into a film, so it must fill the gap that it finds."""
    glue = builder.glue
    if glue.method != "bead":
        return
    loc = ("glue", "method")
    if glue.type == "pva":
        found = "bead with PVA (it holds only as a thin, pressed film and fills no gap)"
        allowed = "bead with polyurethane or thickened epoxy; PVA when the joint is opened, spread and closed again"
        yield blame.fault(loc, found, allowed, "spread")
    elif glue.gap_mm < BEAD_GAP_MM:
        found = f"bead with a glue that fills gaps to {glue.gap_mm:g} mm only"
        allowed = f"bead with a glue that fills gaps to {BEAD_GAP_MM:g} mm or more, or spread"
        yield blame.fault(loc, found, allowed, "spread")


def _glue_class(builder: Any, blame: Blame) -> Iterator[Fault]:
    glue = builder.glue
    if glue.water_class in {"D1", "D2"} or (glue.type == "pva" and glue.water_class == "none stated"):
        allowed = "D3 or D4 (the board lives in water)" if glue.type == "pva" else "D3, D4 or none stated"
        yield blame.fault(("glue", "water_class"), glue.water_class, allowed, "D3")


def _glue_times(builder: Any, blame: Blame) -> Iterator[Fault]:
    glue = builder.glue
    why = "the joint is clamped before it is cured"
    yield from blame.within(("glue", "clamp_time"), "time", glue.clamp_min, high=glue.full_cure_min, why=why)
    if glue.method == "spread":
        why = "the label's clamp time begins when the joint is closed"
        yield from blame.within(("glue", "open_time"), "time", glue.open_min, high=glue.clamp_min, why=why)


def _panel_thickness(builder: Any, blame: Blame, *, board: Any) -> Iterator[Fault]:
    measured, planned = builder.measured.panel_thickness_mm, board.panel.thickness_mm
    if measured is not None:
        low, high = max(planned - PANEL_OFF_MM, THIN_MM), min(planned + PANEL_OFF_MM, THICK_MM)
        loc = ("measured", "panel_thickness")
        yield from blame.within(loc, "length", measured, low=low, high=high, why="near the board's own")


def _sag(builder: Any, blame: Blame, *, part: str, board: Any) -> Iterator[Fault]:
    test = getattr(builder.measured, part)
    if test is not None:
        loc, why = ("measured", part, "apart"), "the part lies on both supports"
        yield from blame.within(loc, "length", test.apart_mm, high=board.length_mm, why=why)


def _heights_along(builder: Any, blame: Blame, *, name: str, board: Any) -> Iterator[Fault]:
    readings = getattr(builder.measured, name)
    if readings is not None:
        locs: list[Loc] = [("measured", name, at, "from_tail") for at in range(len(readings))]
        places = [reading.from_tail_mm for reading in readings]
        length = board.length_mm
        yield from in_order(blame, locs, places, high_mm=length, least_step_mm=LEAST_STEP_MM, why=NOSE_TO_TAIL)
