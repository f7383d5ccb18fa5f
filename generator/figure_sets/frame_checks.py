"""Figures of the frame's checks: square, twist, straight; its joints, and how many go into one go."""

from __future__ import annotations

import math

from generator.board.body import Body
from generator.build.cure import label_times
from generator.build.frame_checks import (
    RibEnds,
    bow_deg,
    count_joints,
    diagonal_check,
    end_off_mm,
    goes_for,
    ribs_in_one_go,
    rim_height_mm,
    twist_deg,
)
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind

STICK_PAST_MM = 100.0
STICK_STEP_MM = 50.0
MAKER, PRACTICE = Kind.MAKER, Kind.COMMON_PRACTICE
PYTHAGORAS = "geometry of a rectangle"


def add_frame_checks(book: FigureBook, facts: Facts) -> None:
    """Limits for tape, sticks and string; joints counted; ribs in one go."""
    _add_square(book, facts)
    _add_twist(book, facts)
    _add_joints(book, facts)
    _add_goes(book, facts)


def rib_ends(body: Body) -> tuple[RibEnds, ...]:
    """The upper corners of all ribs as the frame lies free: its bottom as cut, and the ends' depth on top."""
    bottom = body.frame_bottom.height_mm([rib.from_tail_mm for rib in body.ribs])
    return tuple(
        RibEnds(rib.from_tail_mm, rib.half_width_mm, float(low) + rib.end_depth_mm)
        for rib, low in zip(body.ribs, bottom, strict=True)
    )


def _add_square(book: FigureBook, facts: Facts) -> None:
    body, allowed = facts.body, facts.usual("practice.square")
    check = diagonal_check(rib_ends(body), allowed_deg=allowed)
    book.add(
        "frame.diagonal",
        check.length_mm,
        "mm",
        "both diagonals between the two ribs to measure",
        how="From the upper corner of one rib's end to the opposite corner of the other rib. Both are alike if the "
        "frame is square.",
        kind=MAKER,
        source=PYTHAGORAS,
        step=0.5,
    )
    book.add(
        "frame.diagonal_limit",
        check.limit_mm,
        "mm",
        "how much the two diagonals may differ",
        how="What one of the two ribs makes when it is turned by the angle that a square still shows. Half that angle "
        "makes as much if both are turned alike.",
        kind=[MAKER, PRACTICE],
        source=PYTHAGORAS,
        step=0.5,
    )
    book.add(
        "frame.diagonal_per_mm",
        check.per_mm,
        "mm",
        "how much the diagonals differ for each mm that a rib's end stands ahead",
        how="One end comes forward and the other goes back, so nearly twice as much.",
        kind=MAKER,
        source=PYTHAGORAS,
        step=0.1,
    )
    book.add(
        "frame.square_end",
        end_off_mm(half_width_mm=max(rib.half_width_mm for rib in body.ribs), turned_deg=allowed),
        "mm",
        "how far the end of the longest rib may stand ahead or behind",
        how="Half of its length times the sine of the angle that a square still shows.",
        kind=[MAKER, PRACTICE],
        source=PYTHAGORAS,
        step=0.5,
    )
    numbers = [rib.number for rib in body.ribs]
    book.said |= {"diagonal_first": numbers[check.first], "diagonal_second": numbers[check.second]}


def _add_twist(book: FigureBook, facts: Facts) -> None:
    body, seen, aside = facts.body, facts.usual("practice.twist"), facts.usual("practice.frame_straight")
    widest = 2 * max(rib.half_width_mm for rib in body.ribs)
    stick = STICK_STEP_MM * math.ceil((widest + 2 * STICK_PAST_MM) / STICK_STEP_MM)
    book.add(
        "frame.twist_stick",
        stick,
        "mm",
        "length of a winding stick",
        how="The frame's width and a hand's width past it on both sides. A longer stick shows more.",
        kind=[MAKER, PRACTICE],
        step=10,
    )
    book.add(
        "frame.twist_angle",
        twist_deg(seen_mm=seen, stick_mm=stick),
        "°",
        "twist between the two sticks that still passes",
        how="The difference that passes at the stick's end, by the stick's length, as an angle.",
        kind=[MAKER, PRACTICE],
        source="sine of an angle",
        step=0.05,
    )
    last = body.ribs[-1]
    book.add(
        "frame.twist_rim",
        rim_height_mm(seen_mm=seen, stick_mm=stick, width_mm=2 * last.half_width_mm),
        "mm",
        "how much higher one end of the last rib then stands than the other",
        how="Stick and rib are turned by the same angle: what the stick shows, times the rib's width over the stick's.",
        kind=[MAKER, PRACTICE],
        source="similar triangles",
        step=0.1,
    )
    book.add(
        "frame.straight_angle",
        bow_deg(aside_mm=aside, length_mm=body.length_mm),
        "°",
        "how far the tips then point aside",
        how="Of an even arc whose middle lies beside the string by as much as passes.",
        kind=[MAKER, PRACTICE],
        source="rise of an arc over its chord",
        step=0.05,
    )
    book.said |= {"rib_first": body.ribs[0].number, "rib_last": last.number}


def _add_joints(book: FigureBook, facts: Facts) -> None:
    body, board = facts.body, facts.inputs.board
    joints = count_joints(len(body.ribs))
    for key, value, label, how in (
        ("frame.joints_spine", joints.spine, "joints of ribs and spine", "One at each rib."),
        ("frame.joints_strips", joints.strips, "joints of ribs and edge strips", "Both ends of each rib."),
        ("frame.joints_tips", joints.tips, "ends of edge strips at the tips", "Two strips, each with two ends."),
        ("frame.joints_all", joints.total, "glue joints of the whole frame", "All of them, with whole strips."),
    ):
        book.add(key, value, "", label, how=how, kind=MAKER)
    book.add(
        "frame.strip_length",
        body.frame_perimeter_mm / 2,
        "mm",
        "length of one edge strip",
        how="Half of the way round the frame. A shorter strip needs a splice.",
        kind=MAKER,
        step=10,
    )
    book.add(
        "frame.splice",
        facts.usual("practice.scarf") * board.edge_strip.thickness_mm,
        "mm",
        "length of the slope of a splice in an edge strip",
        how="So many times the strip's thickness as is common practice.",
        kind=[MAKER, PRACTICE],
    )


def _add_goes(book: FigureBook, facts: Facts) -> None:
    glue, shed = facts.inputs.builder.glue, facts.inputs.builder.shed
    ribs = len(facts.body.ribs)
    in_one = ribs_in_one_go(
        open_min=label_times(glue, temperature_c=shed.temperature_c).open_min,
        a_rib_min=facts.usual("practice.rib_minutes"),
        setting_min=facts.usual("practice.setting_minutes"),
    )
    book.add(
        "frame.ribs_a_go",
        min(in_one, ribs),
        "",
        "ribs to glue in at a time",
        how="Your glue's open time in your shed, less the time to set all straight, by the time that a rib takes.",
        kind=[Kind.LABEL, Kind.MEASURED, PRACTICE],
    )
    book.add(
        "frame.rib_goes",
        goes_for(ribs, in_one),
        "",
        "goes for all the ribs",
        how="Ribs by how many go in at a time, rounded up.",
        kind=[Kind.LABEL, Kind.MEASURED, PRACTICE],
    )
    book.add(
        "frame.wait_touch",
        30 * math.ceil(label_times(glue, temperature_c=shed.night_low_c).clamp_min / 30),
        "min",
        "time before a joint without stress may be touched",
        how="The label's clamp time at your lowest night, rounded up to half an hour.",
        kind=[Kind.LABEL, Kind.MEASURED],
        step=5,
    )
