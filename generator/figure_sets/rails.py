"""Figures of the rails: layers, how they bend, the pieces to cut, and the bevel at every rib."""

from __future__ import annotations

import math

from generator.board.body import Body
from generator.build.rails import (
    SAFETY,
    Pieces,
    RailLayer,
    Stock,
    deck_slope_deg,
    edge_strain,
    layer_strain,
    layers_needed,
    pieces_of,
    rail_layers,
    rim_height_mm,
    rim_of,
)
from generator.figure_sets.facts import TYPED_BOARD, TYPED_BUILDER, Facts
from generator.figure_sets.planned import practice
from generator.figures import FigureBook, Kind
from generator.inputs.site import Inputs
from generator.quantities import fixed

MAKER, PRACTICE = Kind.MAKER, Kind.COMMON_PRACTICE
PCT = 100.0
ALONG_LIMIT = 0.0067
"""Stretch along the grain at which light softwoods break, where no table gives the timber's own: bending strength over
stiffness of western redcedar, 51.7 / 7700 (Wood Handbook, FPL-GTR-190 (2010), Table 5-3a)."""


def limit_along(inputs: Inputs) -> tuple[float, bool]:
    """Stretch along the grain at which the panels' timber breaks in bending, and whether a table gives it.

    The rails are taken to be of the same timber.
    """
    strength = inputs.species.strength_bending_mpa
    if strength is None:
        return ALONG_LIMIT, False
    return strength / inputs.board.panel.stiffness_mpa.value, True


def rails_joined(inputs: Inputs, body: Body) -> bool:
    """Whether any layer is longer than the planks, and so made of pieces end to end."""
    layers = rail_layers(body, limit_strain=limit_along(inputs)[0] / SAFETY)
    return any(pieces is not None and pieces.count > 1 for pieces in _pieces(inputs, body, layers))


def add_rails(book: FigureBook, facts: Facts) -> None:
    """All figures of the rails; of a board without rails the bevel and the side's height only."""
    board = facts.inputs.board
    limit, published = limit_along(facts.inputs)
    layers = rail_layers(facts.body, limit_strain=limit / SAFETY)
    _side(book, facts)
    _bevels(book, facts)
    book.said |= {
        "rail.built": board.rails.built,
        "rail.none": not layers,
        "rail.published": published,
    }
    book.rows["rail_layers"] = ()
    if not layers:
        return
    _counts(book, facts, layers)
    _bends(book, facts, layers, limit, published)
    _cut(book, facts, layers)


def _side(book: FigureBook, facts: Facts) -> None:
    body = facts.body
    kinds = [MAKER, facts.panel_thickness_kind]
    length = body.length_mm
    tips_in = book.values["board.tips_in"].value
    for name, at in (("tail", tips_in), ("middle", length / 2), ("nose", length - tips_in)):
        where = "half-way along" if name == "middle" else f"near the {name}"
        book.add(
            f"rail.side_{name}", float(rim_height_mm(body, fixed([at]))[0]), "mm", f"height of the side {where}",
            how="Both panels and what is between them at the frame's rim.", kind=kinds, step=0.5,
        )  # fmt: skip
    rim = rim_of(body)
    book.add(
        "rail.rim", rim.length_mm, "mm", "length of one side's rim", how="Along the frame's outline, tip to tip.",
        kind=MAKER, step=5,
    )  # fmt: skip


def _bevels(book: FigureBook, facts: Facts) -> None:
    rows, most = [], 0.0
    for rib in facts.body.ribs:
        if rib.half_width_mm <= 0:
            continue
        angle = deck_slope_deg(half_width_mm=rib.half_width_mm, drop_mm=max(rib.depth_mm - rib.end_depth_mm, 0.0))
        key = f"rail.rib.{rib.number}"
        book.add(
            f"{key}.bevel", angle, "°", f"slope of the deck at the rim, rib {rib.number}", kind=MAKER, step=0.5,
            how="The deck falls as a parabola: its slope at the rim is twice the fall by the half width.",
            source="derivative of a parabola",
        )  # fmt: skip
        most = max(most, angle)
        rows.append({"n": rib.number, "key": key})
    book.rows["rail_bevels"] = tuple(rows)
    book.add(
        "rail.bevel_most",
        most,
        "°",
        "steepest slope of the deck at the rim",
        how="Over all ribs.",
        kind=MAKER,
        step=0.5,
    )
    thick = facts.inputs.board.rails.layer_mm
    book.add(
        "rail.bevel_fall", thick * math.tan(math.radians(most)), "mm", "how far it falls over one layer",
        how="Thickness of a layer times the tangent of the slope.", kind=MAKER, step=0.5,
    )  # fmt: skip


def _counts(book: FigureBook, facts: Facts, layers: tuple[RailLayer, ...]) -> None:
    board = facts.inputs.board
    thick = board.rails.layer_mm
    needed = layers_needed(rail_mm=board.rail_mm, layer_mm=thick)
    every = facts.usual("practice.rail_hold")
    longest = max(layer.length_mm for layer in layers)
    for key, value, unit, label, how, kinds, step in (
        ("rail.layer_thickness", thick, "mm", "thickness of one layer", TYPED_BOARD, [MAKER], 0.5),
        ("rail.layers", needed, "", "layers on each side", "Width of the rail by the thickness of a layer, rounded up.",
         [MAKER], 1.0),
        ("rail.plane_off", needed * thick - board.rail_mm, "mm", "how much of the last layer is planed off",
         "All layers less the width of the rail.", [MAKER], 0.5),
        ("rail.length_all", 2 * sum(layer.length_mm for layer in layers), "mm", "length of all layers, both sides",
         "Each layer along its own middle line.", [MAKER], 10.0),
        ("rail.holds", math.ceil(longest / every), "", "places to hold the longest layer of one side",
         "Its length by the distance that builders commonly leave, rounded up.", [MAKER, PRACTICE], 1.0),
    ):  # fmt: skip
        book.add(key, value, unit, label, how=how, kind=kinds, step=step)


def _bends(book: FigureBook, facts: Facts, layers: tuple[RailLayer, ...], limit: float, published: bool) -> None:
    thick, species = facts.inputs.board.rails.layer_mm, facts.inputs.species
    tightest = min(layers, key=lambda layer: layer.tightest_mm)
    strain = layer_strain(tightest, layer_mm=thick)
    source = f"{species.source} ({species.strength_read})" if published else "Wood Handbook (2010), Table 5-3a"
    kinds = [Kind.PUBLISHED, MAKER] if published else [Kind.ASSUMED]
    book.add(
        "rail.radius", tightest.tightest_mm, "mm", "tightest bend of a layer, seen from above", kind=MAKER, step=10,
        how="Its middle line, read over a hand's width to either side.",
    )  # fmt: skip
    book.add(
        "rail.strain", PCT * strain, "%", "stretch of a layer's outside there", kind=MAKER, step=0.01,
        how="Thickness of the layer by twice the radius.", source="plane sections, from memory",
    )  # fmt: skip
    book.add(
        "rail.limit", PCT * limit, "%", "stretch along the grain at which the wood breaks", kind=kinds, source=source,
        how="Bending strength by the stiffness along the grain, of the panels' timber.", step=0.01,
    )  # fmt: skip
    book.add(
        "rail.safe", PCT * limit / SAFETY, "%", "stretch along the grain that a dry strip takes", step=0.01,
        kind=[*kinds, Kind.ASSUMED], how=f"That at which it breaks, by {SAFETY:g}, for single pieces differ.",
        high=PCT * limit,
    )  # fmt: skip
    book.add(
        "rail.dry_radius", thick / (2 * limit / SAFETY), "mm", "tightest bend that a dry layer takes", step=10,
        kind=[*kinds, MAKER, Kind.ASSUMED], how="Thickness by twice the stretch that a dry strip takes.",
        low=thick / (2 * limit),
    )  # fmt: skip
    book.add(
        "rail.thin_to", min(2 * tightest.tightest_mm * limit / SAFETY, thick), "mm",
        "thickness that bends dry even there", kind=[*kinds, Kind.ASSUMED], step=0.1,
        how="Twice the radius times the stretch that a dry strip takes, and no more than the layer has.",
        high=min(2 * tightest.tightest_mm * limit, thick),
    )  # fmt: skip
    upwards = max(edge_strain(facts.body, layer) for layer in layers)
    book.add(
        "rail.upwards", PCT * upwards, "%", "stretch of a layer's edge if it were bent up to the rocker", kind=MAKER,
        how="Half of its height times the rocker's curvature.", source="plane sections, from memory", step=0.01,
    )  # fmt: skip
    book.said |= {
        "rail.bends_dry": strain <= limit / SAFETY,
        "rail.breaks": strain > limit,
        "rail.tight_between": any(layer.tight_between for layer in layers),
    }


def _stock(inputs: Inputs) -> Stock:
    """The longest plank that the builder has; without any in the file, the kit's own size."""
    planks, panel = inputs.builder.planks, inputs.board.panel
    own = max(planks, key=lambda plank: (plank.length_mm, plank.width_mm), default=None)
    return Stock(own.length_mm, own.width_mm) if own else Stock(panel.plank_length_mm, panel.plank_width_mm)


def _pieces(inputs: Inputs, body: Body, layers: tuple[RailLayer, ...]) -> tuple[Pieces | None, ...]:
    """Of each layer, the pieces that it is made from; None where no plank is wide and long enough."""
    stock, over = _stock(inputs), practice(inputs, "practice.rail_over")
    return tuple(
        pieces_of(
            body, layer, stock, scarf=practice(inputs, "practice.scarf"), over_mm=2 * over,
            extra_mm=practice(inputs, "practice.rail_extra"), stagger_mm=practice(inputs, "practice.stagger"),
        )
        for layer in layers
    )  # fmt: skip


def _cut(book: FigureBook, facts: Facts, layers: tuple[RailLayer, ...]) -> None:
    stock, over = _stock(facts.inputs), facts.usual("practice.rail_over")
    how, kind = (TYPED_BUILDER, Kind.MEASURED) if facts.inputs.builder.planks else (TYPED_BOARD, MAKER)
    for part, value in (("length", stock.length_mm), ("width", stock.width_mm)):
        book.add(f"rail.stock_{part}", value, "mm", f"{part} of the planks for the rails", how=how, kind=kind)
    rows, total = [], 0
    for layer, pieces in zip(layers, _pieces(facts.inputs, facts.body, layers), strict=True):
        total += 2 * pieces.count if pieces else 0
        rows.append(_layer(book, layer, pieces, over))
    book.rows["rail_layers"] = tuple(rows)
    book.add(
        "rail.pieces", total, "", "pieces to cut, both sides", how="Pieces of every layer, twice.",
        kind=[MAKER, PRACTICE],
    )  # fmt: skip
    book.said |= {
        "rail.joined": any(row["joined"] for row in rows),
        "rail.shorter": len(layers) > 1,
    }


def _layer(book: FigureBook, layer: RailLayer, pieces: Pieces | None, over: float) -> dict[str, object]:
    key, name = f"rail.layer.{layer.number}", f"layer {layer.number}"
    for part, value, label, how, step in (
        ("length", layer.length_mm, "length round the rim", "Along its own middle line.", 5.0),
        ("from_tail", layer.from_tail_mm, "begins, from the tail tip", "Where the rail is thick enough for it.", 5.0),
        ("to_tail", layer.to_tail_mm, "ends, from the tail tip", "Where the rail is thick enough for it.", 5.0),
        ("height_middle", layer.height_middle_mm + 2 * over, "height to cut, half-way along",
         "The board's side where the layer lies, and what is planed off above and below.", 0.5),
        ("height_tips", layer.height_tips_mm + 2 * over, "height to cut, at its ends",
         "The board's side where the layer lies, and what is planed off above and below.", 0.5),
        ("tight_tail", layer.tight_tail_mm, "length at the tail end that bends too tightly",
         "Where its stretch is more than a dry strip takes.", 10.0),
        ("tight_nose", layer.tight_nose_mm, "length at the nose end that bends too tightly",
         "Where its stretch is more than a dry strip takes.", 10.0),
    ):  # fmt: skip
        kinds = [MAKER, PRACTICE] if part.startswith("height") else [MAKER, Kind.ASSUMED] if "tight" in part else MAKER
        book.add(f"{key}.{part}", value, "mm", f"{name}: {label}", how=how, kind=kinds, step=step)
    if pieces is not None:
        book.add(f"{key}.pieces", pieces.count, "", f"{name}: pieces end to end on each side", kind=[MAKER, PRACTICE],
                 how="The fewest that your planks are long and wide enough for.")  # fmt: skip
        book.add(f"{key}.piece_length", pieces.length_mm, "mm", f"{name}: length of each piece", kind=[MAKER, PRACTICE],
                 how="The layer and the slanted joins, shared out, and some to spare.", step=5)  # fmt: skip
        book.add(f"{key}.plank_width", pieces.plank_width_mm, "mm", f"{name}: width of plank that a piece needs",
                 how="Its height and how far its side curves up.", kind=[MAKER, PRACTICE])  # fmt: skip
    return {
        "n": layer.number, "key": key, "cut": pieces is not None, "joined": pieces is not None and pieces.count > 1,
        "tight": layer.tight_tail_mm > 0 or layer.tight_nose_mm > 0,
    }  # fmt: skip
