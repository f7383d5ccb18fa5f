"""Figures of the frame: spine, slots, ribs, edge strips."""

from __future__ import annotations

import numpy as np

from generator.build.joints import drawn_in_mm
from generator.figure_sets.facts import TYPED_BOARD, Facts, stiffness_kind
from generator.figures import FigureBook, Kind

MAKER = Kind.MAKER
SPINE = "The board's length, and what a straight frame is drawn in by when it is bent."


def add_frame(book: FigureBook, facts: Facts) -> None:
    """The frame's parts as measured by the maker, and what follows from them."""
    body, board = facts.body, facts.inputs.board
    along = np.linspace(0, body.length_mm, 1201)
    depth = body.spine_depth_mm(along)
    rib_mm = np.array(board.ribs.from_tail_mm)
    at_ribs = body.spine_depth_mm(rib_mm)
    read = "Read off the frame's depth, a smooth line through the maker's numbers."
    for key, value, label, how, step in (
        ("frame.length", body.length_mm + drawn_in_mm(body), "length of the spine", SPINE, 1.0),
        ("frame.rib_pitch", float(np.diff(rib_mm).mean()), "ribs apart, on average", "Mean of the rib stations.", 1.0),
        ("frame.rib_thickness", board.ribs.thickness_mm, "thickness of a rib", TYPED_BOARD, 0.1),
        ("frame.spine_thickness", board.spine.thickness_mm, "thickness of the spine", TYPED_BOARD, 0.1),
        ("frame.spine_depth_max", float(depth.max()), "depth of the spine at its deepest", read, 0.5),
        ("frame.spine_depth_tail", float(depth[0]), "depth of the spine at the tail", read, 0.5),
        ("frame.spine_depth_nose", float(depth[-1]), "depth of the spine at the nose", read, 0.5),
        ("frame.slot_width", board.slots.width_mm, "width of the slots", TYPED_BOARD, 0.1),
        (
            "frame.slot_depth_max",
            float(at_ribs.max()) * board.slots.share_of_depth,
            "depth of the deepest slot",
            "Its share of the spine's depth there.",
            0.5,
        ),
        ("frame.strip_height", board.edge_strip.height_mm, "height of the edge strip", TYPED_BOARD, 1.0),
        (
            "frame.strip_height_tips",
            board.edge_strip.height_at_tips_mm,
            "height of the edge strip at the tips",
            TYPED_BOARD,
            1.0,
        ),
        ("frame.strip_thickness", board.edge_strip.thickness_mm, "thickness of the edge strip", TYPED_BOARD, 0.1),
    ):
        book.add(key, value, "mm", label, how=how, kind=MAKER, step=step)
    ribs = len(body.ribs)
    book.add("frame.ribs", ribs, "", "ribs", how=TYPED_BOARD, kind=MAKER)
    book.add(
        "frame.joints",
        3 * ribs,
        "",
        "joints to glue in the frame",
        how="At each rib one with the spine and one with each edge strip.",
        kind=MAKER,
    )
    book.add(
        "frame.slot_share",
        100 * board.slots.share_of_depth,
        "%",
        "share of the spine's depth that a slot takes",
        how=TYPED_BOARD,
        kind=MAKER,
    )
    book.add(
        "frame.mass",
        body.masses.frame_kg,
        "kg",
        "mass of the frame",
        how="Weighed." if body.masses.frame_weighed else "Sizes and densities of spine, ribs and edge strips.",
        kind=facts.frame_mass_kind,
        step=0.05,
    )
    _add_stiffness(book, facts)
    _add_ribs(book, facts)
    bottom = board.frame_bottom
    book.said |= {
        "frame_bottom": bottom if isinstance(bottom, str) else "own line",
        "slots_open_to": board.slots.open_to,
        "spine.material": board.spine.material,
        "ribs.material": board.ribs.material,
    }


def _add_stiffness(book: FigureBook, facts: Facts) -> None:
    board = facts.inputs.board
    for key, spread, label in (
        ("frame.spine_stiffness", board.spine.stiffness_mpa, "stiffness of the spine along it"),
        ("frame.strip_stiffness", board.edge_strip.stiffness_mpa, "stiffness of the edge strips along them"),
    ):
        book.add(
            key,
            spread.value,
            "MPa",
            label,
            how=TYPED_BOARD,
            kind=stiffness_kind(spread),
            low=spread.low,
            high=spread.high,
            step=100,
        )


def _add_ribs(book: FigureBook, facts: Facts) -> None:
    for rib in facts.body.ribs:
        key = f"frame.rib.{rib.number}"
        name = f"rib {rib.number}"
        book.add(f"{key}.from_tail", rib.from_tail_mm, "mm", f"{name}, from the tail tip", how=TYPED_BOARD, kind=MAKER)
        for part, value, label in (
            ("half_width", rib.half_width_mm, "half width"),
            ("depth_centre", rib.depth_mm, "depth at the centre"),
            ("depth_edge", rib.end_depth_mm, "depth at its ends"),
        ):
            book.add(
                f"{key}.{part}",
                value,
                "mm",
                f"{name}, {label}",
                how="Read off the frame's outline, depth and crown.",
                kind=MAKER,
                step=0.5 if part != "half_width" else 1.0,
            )
    book.rows["ribs"] = tuple(
        {"n": rib.number, "key": f"frame.rib.{rib.number}", "rocker_key": f"rocker.rib.{rib.number}"}
        for rib in facts.body.ribs
    )
