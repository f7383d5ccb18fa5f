"""Figures of the board itself: size, volume, rocker, outline."""

from __future__ import annotations

import numpy as np

from generator.board.advice import traits_of
from generator.board.rocker import MEASURED_IN_MM
from generator.board.shape import FLATTER, FULLER, volume_litres
from generator.figure_sets.facts import TYPED_BOARD, Facts
from generator.figure_sets.rocker_advice import CURVE_STATIONS, add_flat
from generator.figures import FigureBook, Kind
from generator.quantities import Floats

MAKER = Kind.MAKER
FAIR = "Read off the smooth line through the maker's numbers."
OUTLINE_STATIONS = 241


def crowded_at_the_ends(first_mm: float, last_mm: float) -> Floats:
    """(OUTLINE_STATIONS,) places that crowd where an outline turns sharply: at the tips."""
    share = (1 - np.cos(np.linspace(0, np.pi, OUTLINE_STATIONS))) / 2
    return np.asarray(first_mm + (last_mm - first_mm) * share)


def add_board(book: FigureBook, facts: Facts) -> None:
    """Length, width, thickness, volume and the lines of the outline."""
    body, board = facts.body, facts.inputs.board
    length = body.length_mm
    along = np.linspace(0, length, 1201)
    half, thick = body.finished.half_width_mm(along), body.finished_thickness_mm(along)
    book.add("board.length", length, "mm", "length of the board", how=TYPED_BOARD, kind=MAKER)
    book.add("board.width", 2 * float(half.max()), "mm", "greatest width of the board", how=FAIR, kind=MAKER)
    thickness_kinds = [MAKER, facts.panel_thickness_kind]
    book.add(
        "board.thickness",
        float(thick.max()),
        "mm",
        "greatest thickness of the board",
        how="Frame and both panels on the centre line, where that is most.",
        kind=thickness_kinds,
        step=0.5,
    )
    tips_in = MEASURED_IN_MM
    book.add(
        "board.tips_in",
        tips_in,
        "mm",
        "how far from the tips the trade measures",
        how="Where outline, thickness and rocker near the tips are measured.",
        kind=Kind.COMMON_PRACTICE,
        source="common practice",
    )
    for end, at in (("tail", tips_in), ("nose", length - tips_in)):
        where = f"near the {end}, where the trade measures"
        half_mm, thick_mm = float(body.finished.half_width_mm(at)), float(body.finished_thickness_mm(at))
        book.add(f"board.half_width_300_{end}", half_mm, "mm", f"half width {where}", how=FAIR, kind=MAKER)
        book.add(
            f"board.thickness_300_{end}", thick_mm, "mm", f"thickness {where}", how=FAIR, kind=thickness_kinds, step=0.5
        )
    book.add("board.rail", board.rail_mm, "mm", "rail built up on each side", how=TYPED_BOARD, kind=MAKER)
    book.add(
        "board.crown_max", float(body.crown_mm(along).max()), "mm", "greatest crown of the deck", how=FAIR, kind=MAKER
    )
    _add_volume(book, facts)
    x = crowded_at_the_ends(0.0, length)
    book.draw("outline.finished", x, body.finished.half_width_mm(x), "mm", "finished outline, half width")
    book.draw("outline.frame", x, body.frame.half_width_mm(x), "mm", "frame's outline, half width")
    book.draw("spine.depth", x, body.spine_depth_mm(x), "mm", "depth of the spine")
    book.said |= {
        "board.name": board.name,
        "tail_shape": board.tail,
        "nose_shape": board.nose,
        "sizes": board.sizes_of,
    }


def _add_volume(book: FigureBook, facts: Facts) -> None:
    body = facts.body
    book.add(
        "board.volume",
        body.volume_l,
        "L",
        "volume of the finished board",
        how="Areas of the cross sections, added up along the board. Rails are taken as half ellipses; the range is for "
        "flatter and for fuller ones.",
        kind=[MAKER, facts.panel_thickness_kind, Kind.ASSUMED],
        low=volume_litres(body.shape, rail_fill=FLATTER),
        high=volume_litres(body.shape, rail_fill=FULLER),
        step=1,
    )
    book.add(
        "board.volume_per_rider",
        body.volume_l / facts.inputs.builder.body_mass_kg,
        "L/kg",
        "volume for each kilogram of your body",
        how="Volume of the board by your body mass.",
        kind=[MAKER, Kind.MEASURED, Kind.ASSUMED],
        step=0.01,
    )


def add_rocker(book: FigureBook, facts: Facts) -> None:
    """The wanted bottom line: rises, flat part, angles at the tips, low point, misses."""
    body, rises = facts.body, facts.body.rises
    how = "Read off the fair curve through the wanted heights, from its lowest point."
    for key, value, label in (
        ("rocker.tail", rises.tail_mm, "rocker at the tail tip"),
        ("rocker.nose", rises.nose_mm, "rocker at the nose tip"),
        ("rocker.tail_300", rises.tail_in_mm, "rocker near the tail, where the trade measures"),
        ("rocker.nose_300", rises.nose_in_mm, "rocker near the nose, where the trade measures"),
    ):
        book.add(key, value, "mm", label, how=how, kind=facts.rocker_kind)
    book.add("rocker.low_point", rises.low_point_mm, "mm", "lowest point, from the tail tip", how=how, kind=MAKER)
    book.add(
        "rocker.miss_worst",
        float(np.abs(body.rocker_fit.misses_mm).max()),
        "mm",
        "greatest distance of the fair curve from a given height",
        how="The curve is kept fair and hollow nowhere; this is what that costs at the worst given height.",
        kind=MAKER,
        step=0.1,
    )
    add_flat(book, "rocker", traits_of(body.rocker, length_mm=body.length_mm), "your rocker")
    x = np.linspace(0, body.length_mm, CURVE_STATIONS)
    book.draw("rocker.wanted", x, body.rocker.height_mm(x), "mm", "wanted bottom line")
