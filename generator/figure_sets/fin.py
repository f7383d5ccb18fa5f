"""Figures of fin and plugs: where they go, how deep the wood is, how deep to drill, and what the leash may pull."""

from __future__ import annotations

from generator.build.fittings import (
    LEFT_MM,
    PULL_PER_WEIGHT,
    SAFETY,
    Drilled,
    block_for,
    drilled,
    fin_seat,
    leash_pull_n,
    plug_holds_n,
)
from generator.figure_sets.facts import TYPED_BOARD, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.inputs.board import Plug
from generator.inputs.fitting_checks import ROUND_A_HOLE_MM
from generator.timber.by_density import SOURCE as BY_DENSITY

MAKER, PRACTICE = Kind.MAKER, Kind.COMMON_PRACTICE
COMMON = "common practice"
DEPTH = "Depth of the frame there, less what the deck has fallen; the shallowest place counts."
STOP = "Panel and block, less what has to stay under the hole."
MARGIN = "From the edge of what is let in to the block's edge."


def add_fin(book: FigureBook, facts: Facts) -> None:
    """All figures of fin and plugs."""
    fittings = facts.inputs.board.fittings
    book.add(
        "fin.margin_needed", ROUND_A_HOLE_MM, "mm", "wood that has to stand round a hole", kind=PRACTICE, source=COMMON,
        how="Less than this splits when a fitting is driven in or pulled.",
    )  # fmt: skip
    book.add(
        "fin.left", LEFT_MM, "mm", "wood to leave between a hole and the other panel", kind=PRACTICE, source=COMMON,
        how="So that a hole a little too deep still does not come out on the other side.",
    )  # fmt: skip
    _fin(book, facts)
    leash = _plug(book, facts, fittings.leash_plug, "leash", "leash plug")
    vent = _plug(book, facts, fittings.vent, "vent", "vent")
    book.add(
        "fin.vent.meets", facts.body.panel_mm + vent.block_mm / 2, "mm", "vent: how deep its hole meets the air",
        step=0.5, kind=[MAKER, facts.panel_thickness_kind],
        how="Panel, and half of the block: the air's own hole runs there.",
    )  # fmt: skip
    _pull(book, facts, leash)
    book.rows["fin_blocks"] = tuple(
        {
            "name": block.holds,
            "from_mm": block.from_tail_mm,
            "to_mm": block.from_tail_mm + block.length_mm,
            "low_mm": block.from_centre_mm - block.width_mm / 2,
            "high_mm": block.from_centre_mm + block.width_mm / 2,
        }
        for block in facts.inputs.board.blocks
    )


def _fin(book: FigureBook, facts: Facts) -> None:
    fin, seat = facts.inputs.board.fittings.fin, fin_seat(facts.body)
    kinds = [MAKER, facts.panel_thickness_kind]
    for part, value, label, how, kind, step in (
        ("rear", fin.from_tail_mm, "rear end of its base, from the tail tip", TYPED_BOARD, [MAKER], 1.0),
        ("front", seat.front_mm, "front end of its base, from the tail tip", "Rear end and length.", [MAKER], 1.0),
        ("base", fin.base_mm, "length of the fin's base", TYPED_BOARD, [MAKER], 1.0),
        ("depth", fin.depth_mm, "depth of the fin below the bottom", TYPED_BOARD, [MAKER], 1.0),
        ("block_depth", seat.block_mm, "wood between the panels under the fin", DEPTH, [MAKER], 0.5),
        ("slot", seat.slot_mm, "deepest slot for it, from the outside", STOP, [*kinds, PRACTICE], 0.5),
        ("margin_tail", seat.margins.tail_mm, "block behind the fin's base", MARGIN, [MAKER], 1.0),
        ("margin_nose", seat.margins.nose_mm, "block ahead of the fin's base", MARGIN, [MAKER], 1.0),
        ("block_half", seat.margins.side_mm, "block to each side", "From the centre line.", [MAKER],
         1.0),
    ):  # fmt: skip
        book.add(f"fin.{part}", value, "mm", label, how=how, kind=kind, step=step)


def _plug(book: FigureBook, facts: Facts, plug: Plug, key: str, holds: str) -> Drilled:
    hole = drilled(facts.body, plug, holds)
    kinds = [MAKER, facts.panel_thickness_kind, PRACTICE]
    for part, value, label, how, kind, step in (
        ("from_tail", plug.from_tail_mm, "middle of the hole, from the tail tip", TYPED_BOARD, [MAKER], 1.0),
        (
            "from_centre",
            abs(plug.from_centre_mm),
            "middle of the hole, from the centre line",
            TYPED_BOARD,
            [MAKER],
            1.0,
        ),
        ("hole", plug.hole_mm, "diameter of the hole", TYPED_BOARD, [MAKER], 0.5),
        ("block_depth", hole.block_mm, "wood between the panels there", DEPTH, [MAKER], 0.5),
        ("stop", hole.stop_mm, "deepest hole, from the outside of the deck", STOP, kinds, 0.5),
        ("margin", hole.margins.least_mm, "least wood of the block beside the hole", MARGIN, [MAKER], 1.0),
    ):
        book.add(f"fin.{key}.{part}", value, "mm", f"{holds}: {label}", how=how, kind=kind, step=step)
    aside = "right" if plug.from_centre_mm > 0 else "left" if plug.from_centre_mm < 0 else "centre"
    book.said[f"fin.{key}_side"] = aside
    return hole


def _pull(book: FigureBook, facts: Facts, hole: Drilled) -> None:
    """The leash's pull beside what the glued plug holds."""
    body, mass = facts.body, facts.inputs.builder.body_mass_kg
    low, usual, high = leash_pull_n(mass)
    book.add(
        "fin.leash.weights", PULL_PER_WEIGHT[1], "", "your weight, times this, is what the leash may pull", step=0.5,
        how="A wave holds the board while it drags you. Nobody has measured yours; the range is wide.",
        kind=Kind.ASSUMED, low=PULL_PER_WEIGHT[0], high=PULL_PER_WEIGHT[2],
    )  # fmt: skip
    book.add(
        "fin.leash.pull", usual, "N", "pull on the leash plug", kind=[Kind.MEASURED, Kind.ASSUMED], low=low, high=high,
        how=f"Your body mass ({TYPED_BUILDER.lower().rstrip('.')}) times that and the pull of the earth.", step=50,
    )  # fmt: skip
    deep = max(hole.stop_mm - body.panel_mm, 1.0)
    holds = plug_holds_n(
        hole_mm=body.board.fittings.leash_plug.hole_mm,
        depth_mm=deep,
        density_kg_m3=block_for(body, "leash plug").density_kg_m3,
    )
    book.add(
        "fin.leash.holds", holds, "N", "pull that the glued plug may take", step=50,
        kind=[MAKER, Kind.ASSUMED], source=BY_DENSITY,
        how="Half the wall of the hole within the block, at the wood's shear strength along the grain by "
        f"{SAFETY:g}. The glue is taken to be as strong as the wood.",
    )  # fmt: skip
    book.add(
        "fin.leash.use", 100 * usual / holds, "%", "share of what the plug may take that the leash asks",
        how="Pull by what the plug may take.", kind=[MAKER, Kind.ASSUMED], low=100 * low / holds,
        high=100 * high / holds, step=5,
    )  # fmt: skip
    book.add(
        "fin.leash.safety", SAFETY, "", "safety in what the plug may take", kind=PRACTICE, source=COMMON,
        how="Wood differs, glue misses a spot, and a jerk pulls harder than a steady hand.",
    )  # fmt: skip
    book.said["fin.plug_holds"] = usual <= holds
