"""Figures of the inside: bays that give under a heel, foam that holds them up, solid blocks, and the air's way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from generator.build.bays import Area
from generator.build.blocks import HOLE_SHARE, UP_MM, AirHole, Piece, SolidBlock, air_holes, solid_blocks
from generator.build.bracing import (
    AT_RIB_MM,
    AT_RIM_MM,
    AT_SPINE_MM,
    HEEL_MM,
    HEEL_SHARE,
    KNEE_MM,
    MOST_DENT_MM,
    SAFETY,
    Braced,
    FoamBlock,
    brace,
    foam_crush_mpa,
    heel,
    held,
    knee,
    mass_of,
    strength_across_mpa,
)
from generator.build.solids import blocks as block_solids
from generator.figure_sets.facts import TYPED_BOARD, TYPED_BUILDER, Facts, stiffness_kind
from generator.figures import FigureBook, Kind, Row
from generator.timber.across import stiffness_share

MAKER, ASSUMED, PRACTICE = Kind.MAKER, Kind.ASSUMED, Kind.COMMON_PRACTICE
PLATE = "A thin wooden plate, stiffer along the grain than across, held along its four edges, pressed in its middle."
SANDWICH = "Two such plates with the foam glued between: it takes crushing and shear."
DEPTH = "Depth between the panels there: the frame's on the centre line less what the deck has fallen."
SOURCE = "Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells (1959), ch. 11 (from memory)"
CRUSH_SOURCE = {
    "expanded polystyrene": "line through ASTM D6817, stress at 1 %, read in makers' tables",
    "extruded polystyrene": "line through ASTM D6817, stress at 1 %, from memory",
    "polyurethane": "assumed",
}


def braced_bays(facts: Facts) -> tuple[Braced, ...]:
    """The bays of this builder's board, under this builder's heel."""
    builder = facts.inputs.builder
    strength = facts.inputs.species.strength_tension_perp_mpa
    share = stiffness_share(facts.inputs.species.botanical)
    tread = heel(builder.body_mass_kg)
    return brace(facts.body, builder.foam, tread=tread, strength_mpa=strength, across_share=share)


def add_inside(book: FigureBook, facts: Facts) -> None:
    """Everything that is fitted before the top panel."""
    braced = braced_bays(facts)
    _add_tread(book, facts)
    rows = tuple(_bay_rows(book, facts, braced))
    book.rows["bays"] = rows
    _add_worst(book, facts, braced)
    _add_foam(book, facts, braced)
    _add_blocks(book, facts)
    _add_holes(book, facts)


def _add_tread(book: FigureBook, facts: Facts) -> None:
    """The load, and the limits."""
    mass = facts.inputs.builder.body_mass_kg
    table = facts.inputs.species.strength_tension_perp_mpa
    strength = strength_across_mpa(facts.body, table)
    kind = Kind.PUBLISHED if table is not None else ASSUMED
    for key, value, unit, label, how, of, step in (
        ("heel_side", HEEL_MM, "mm", "side of the square that a heel presses on", "About a heel.", PRACTICE, 1.0),
        ("knee_side", KNEE_MM, "mm", "side of the square that a knee presses on", "About a knee.", PRACTICE, 1.0),
        ("dent_limit", MOST_DENT_MM, "mm", "give underfoot that is allowed",
         "What most people do not mind.", PRACTICE, 0.5),
        ("strength", strength, "MPa", "strength of the panel across its grain",
         "Tension across the grain." if table is not None else "From the density: its table gives none.", kind, 0.1),
        ("allowed", strength / SAFETY, "MPa", "pull across the grain that is allowed",
         "The strength by a safety factor of one and a half.", [kind, ASSUMED], 0.1),
    ):  # fmt: skip
        book.add(
            f"bay.{key}", value, unit, label, how=how, kind=of, step=step,
            source=facts.inputs.species.source if key == "strength" and table is not None else "",
        )  # fmt: skip
    low, value, high = (share * mass for share in HEEL_SHARE)
    book.add(
        "bay.heel_mass", value, "kg", "part of your mass on one heel or knee",
        how="Half of it: one leg's load, all on the heel. Less when you stand quietly on both feet, more as you land.",
        kind=[Kind.MEASURED, ASSUMED], low=low, high=high,
    )  # fmt: skip


def _bay_rows(book: FigureBook, facts: Facts, braced: Sequence[Braced]) -> Iterator[Row]:
    """One row a bay if both sides are alike, else one each."""
    last = max((one.bay.number for one in braced), default=0)
    for number, pair in groupby(braced, key=lambda one: one.bay.number):
        sides = list(pair)
        alike = len(sides) == 2 and sides[0].free == sides[1].free
        for one in sides[:1] if alike else sides:
            key = f"bay.{number}" if alike else f"bay.{number}.{one.bay.side}"
            name = f"bay {number}" if alike else f"bay {number}, {one.bay.side}"
            _add_bay(book, facts, one, key, name)
            yield {
                "n": number,
                "key": key,
                "after_rib": one.bay.after_rib,
                "before_rib": one.bay.before_rib,
                "sides": "left and right" if alike else one.bay.side,
                "count": 2 if alike else 1,
                "soft": one.needs_foam,
                "foam": one.block is not None,
                "foam_does": one.after is not None and _passes(facts, one),
                "last": number == last,
                "free": _drawn(one.free),
                "block": _drawn(one.block.place) if one.block else (),
            }


def _passes(facts: Facts, one: Braced) -> bool:
    strength = strength_across_mpa(facts.body, facts.inputs.species.strength_tension_perp_mpa)
    return one.after is not None and one.after.passes(strength / SAFETY)


def _drawn(area: Area) -> tuple[float, float, float, float]:
    return area.tail_mm, area.nose_mm, area.inner_mm, area.outer_mm


def _add_bay(book: FigureBook, facts: Facts, one: Braced, key: str, name: str) -> None:
    panel = stiffness_kind(facts.inputs.board.panel.stiffness_mpa)
    between = "Between the ribs, and from the spine or a block to the edge strip, half-way along."
    for part, value, label in (
        ("length", one.free.length_mm, "length that is free"),
        ("width", one.free.width_mm, "width that is free"),
    ):
        book.add(f"{key}.{part}", value, "mm", f"{name}, {label}", how=between, kind=MAKER)
    for part, got, how, label in (
        ("", one.bare, PLATE, "bare"),
        ("_foam", one.after, SANDWICH, "with foam"),
    ):
        if got is not None:
            low, value, high = got.dent_mm
            book.add(
                f"{key}.dent{part}", value, "mm", f"{name}, give under a heel, {label}", how=how,
                kind=[MAKER, panel, ASSUMED], source=SOURCE, low=low, high=high, step=0.1,
            )  # fmt: skip
            low, value, high = got.across_mpa
            book.add(
                f"{key}.pull{part}", value, "MPa", f"{name}, pull across the grain, {label}", how=how,
                kind=[MAKER, panel, ASSUMED], source=SOURCE, low=low, high=high, step=0.1,
            )  # fmt: skip
    if one.block is not None:
        _add_block_of_foam(book, facts, one.block, key, name)


def _add_block_of_foam(book: FigureBook, facts: Facts, block: FoamBlock, key: str, name: str) -> None:
    place = block.place
    room = "The free bay, less the room for glue at the ribs and the strip and for the air beside the spine; half the "
    room += "bay's width where that holds it up."
    for part, value, unit, label, how, step in (
        ("foam_length", place.length_mm, "mm", "length of its foam, along the board", room, 1.0),
        ("foam_width", place.width_mm, "mm", "width of its foam", room, 1.0),
        ("foam_depth", block.depth_mm, "mm", "greatest depth of its foam", DEPTH, 0.5),
        ("foam_least", block.least_depth_mm, "mm", "least depth of its foam", DEPTH, 0.5),
        ("foam_layers", block.layers, "", "layers of foam in it", "Depth by the foam's thickness, rounded up.", 1.0),
        ("foam_from_tail", place.tail_mm, "mm", "its foam's end nearer the tail, from the tail tip", room, 1.0),
        ("foam_from_centre", place.inner_mm, "mm", "its foam's inner side, from the centre line", room, 1.0),
        ("foam_mass", 1000 * block.kg, "g", "mass of its foam", "Volume times the foam's density.", 1.0),
    ):
        book.add(f"{key}.{part}", value, unit, f"{name}, {label}", how=how, kind=[MAKER, PRACTICE], step=step)


def _add_worst(book: FigureBook, facts: Facts, braced: Sequence[Braced]) -> None:
    """The softest bay under a heel and a knee, and how many are soft."""
    book.add("bay.count", len(braced), "", "bays wide enough to tread in", how="Both sides counted.", kind=MAKER)
    soft = [one for one in braced if one.needs_foam]
    book.add(
        "bay.soft", len(soft), "", "bays that give too much, or are pulled too hard",
        how="More give than is allowed, or more pull across the grain, as they are, under a heel.",
        kind=[MAKER, ASSUMED],
    )  # fmt: skip
    if not braced:
        return
    worst = max(braced, key=lambda one: one.bare.dent_mm[1])
    builder, panel = facts.inputs.builder, facts.inputs.board.panel.stiffness_mpa
    kneeling = held(
        panel, thickness_mm=facts.body.panel_mm, free=worst.free, tread=knee(builder.body_mass_kg),
        across_share=stiffness_share(facts.inputs.species.botanical),
    )  # fmt: skip
    for key, (low, value, high), unit, label in (
        ("worst_dent", worst.bare.dent_mm, "mm", "give of the softest bay under a heel"),
        ("worst_pull", worst.bare.across_mpa, "MPa", "pull across the grain there"),
        ("knee_dent", kneeling.dent_mm, "mm", "give of the softest bay under a knee"),
        ("knee_pull", kneeling.across_mpa, "MPa", "pull across the grain there, under a knee"),
    ):
        book.add(
            f"bay.{key}", value, unit, label, how=PLATE, kind=[MAKER, stiffness_kind(panel), ASSUMED],
            source=SOURCE, low=low, high=high, step=0.1,
        )  # fmt: skip
    after = [one.after for one in braced if one.after is not None]
    if after:
        after_worst = max(after, key=lambda one: one.dent_mm[1])
        low, value, high = after_worst.dent_mm
        book.add(
            "bay.worst_dent_foam", value, "mm", "give of the softest bay with its foam", how=SANDWICH,
            kind=[MAKER, stiffness_kind(panel), ASSUMED], source=SOURCE, low=low, high=high, step=0.1,
        )  # fmt: skip


def _add_foam(book: FigureBook, facts: Facts, braced: Sequence[Braced]) -> None:
    """The builder's foam, and how much of it goes in."""
    foam = facts.inputs.builder.foam
    blocks = [one.block for one in braced if one.block is not None]
    part = mass_of(braced)
    book.said |= {
        "foam.have": foam is not None,
        "foam.kind": foam.kind if foam else "",
        "foam.name": foam.name if foam else "",
        "foam.needed": any(one.needs_foam for one in braced),
        "foam.fits": part is not None,
        "foam.does": all(_passes(facts, one) for one in braced if one.needs_foam),
    }
    for key, value, label in (
        ("at_rib", AT_RIB_MM, "room between foam and a rib"),
        ("at_spine", AT_SPINE_MM, "least room between foam and the spine or a block, for the air"),
        ("at_rim", AT_RIM_MM, "least room between foam and the edge strip"),
    ):
        book.add(f"foam.{key}", value, "mm", label, how="Room for glue and air.", kind=PRACTICE)
    if foam is None:
        return
    book.add("foam.thickness", foam.thickness_mm, "mm", "thickness of your foam", how=TYPED_BUILDER, kind=Kind.MEASURED)
    book.add("foam.density", foam.density_kg_m3, "kg/m3", "density of your foam", how=TYPED_BUILDER, kind=Kind.MEASURED)
    low, value, high = foam_crush_mpa(foam.kind, foam.density_kg_m3)
    book.add(
        "foam.stiffness", value, "MPa", "stiffness of your foam as it is crushed", low=low, high=high, step=0.1,
        how="From its kind and density.", kind=ASSUMED, source=CRUSH_SOURCE[foam.kind],
    )  # fmt: skip
    if part is None:
        return
    book.add("foam.blocks", len(blocks), "", "blocks of foam to cut", how="One a soft bay.", kind=[MAKER, ASSUMED])
    book.add(
        "foam.layers", sum(block.layers for block in blocks), "", "pieces of foam board in them",
        how="Layers of all blocks, added up.", kind=[MAKER, Kind.MEASURED],
    )  # fmt: skip
    book.add(
        "foam.sheet", sum(block.sheet_mm2 for block in blocks) / 1e6, "m2", "area of foam board that they take",
        how="Length times width of every layer. Offcuts come on top.", kind=[MAKER, Kind.MEASURED], step=0.01,
    )  # fmt: skip
    book.add(
        "foam.mass", 1000 * part.kg, "g", "mass of all foam", how="Volumes of the blocks times the foam's density.",
        kind=[MAKER, Kind.MEASURED, ASSUMED], low=1000 * part.low_kg, high=1000 * part.high_kg, step=5,
    )  # fmt: skip


def _add_blocks(book: FigureBook, facts: Facts) -> None:
    kilograms = {solid.name: solid.kg for solid in block_solids(facts.body)}
    rows = []
    for block in solid_blocks(facts.body):
        key = f"block.{block.holds.replace(' ', '_')}"
        _add_solid(book, block, key, kilograms[f"{block.holds} block"])
        pieces = tuple(_piece_rows(book, block, key))
        rows.append(
            {
                "key": key,
                "name": f"{block.holds} block",
                "pieces": pieces,
                "split": len(block.pieces) == 2,
                "tip": block.holds in {"tail", "nose"},
                "vent": block.holds == "vent",
                "side": block.pieces[0].side,
                "places": tuple((piece.side, *_drawn(piece.place)) for piece in block.pieces),
            }
        )
    book.rows["blocks"] = tuple(rows)
    vent = facts.inputs.board.fittings.vent
    book.add("air.vent_from_tail", vent.from_tail_mm, "mm", "middle of the vent, from the tail tip", how=TYPED_BOARD,
             kind=MAKER)  # fmt: skip
    book.add("air.vent_from_centre", abs(vent.from_centre_mm), "mm", "middle of the vent, from the centre line",
             how=TYPED_BOARD, kind=MAKER)  # fmt: skip
    book.said["air.vent_side"] = "right" if vent.from_centre_mm >= 0 else "left"


def _add_solid(book: FigureBook, block: SolidBlock, key: str, kg: float) -> None:
    name = f"{block.holds} block"
    for part, value, label in (
        ("from_tail", block.from_tail_mm, "end nearer the tail, from the tail tip"),
        ("to", block.from_tail_mm + block.length_mm, "end nearer the nose, from the tail tip"),
        ("length", block.length_mm, "length"),
        ("width", block.width_mm, "width, both pieces and the spine together"),
        ("from_centre", abs(block.from_centre_mm), "middle line, from the centre line"),
    ):
        book.add(f"{key}.{part}", value, "mm", f"{name}, {label}", how=TYPED_BOARD, kind=MAKER)
    book.add(f"{key}.depth", block.depth_mm, "mm", f"{name}, depth to saw", how=DEPTH, kind=MAKER, step=0.5)
    book.add(
        f"{key}.mass", 1000 * kg, "g", f"{name}, mass", how="Volume times the density of its wood.", kind=MAKER, step=5
    )


def _piece_rows(book: FigureBook, block: SolidBlock, key: str) -> Iterator[Row]:
    for piece in block.pieces:
        if piece.side == "left" and len(block.pieces) == 2 and _same(*block.pieces):
            continue
        own = f"{key}.{piece.side}" if len(block.pieces) == 2 and not _same(*block.pieces) else f"{key}.piece"
        _add_piece(book, block, piece, own)
        count = 2 if len(block.pieces) == 2 and _same(*block.pieces) else 1
        yield {"key": own, "side": piece.side, "count": count}


def _same(one: Piece, other: Piece) -> bool:
    return one.place == other.place


def _add_piece(book: FigureBook, block: SolidBlock, piece: Piece, key: str) -> None:
    name = f"{block.holds} block, piece"
    book.add(f"{key}.width", piece.place.width_mm, "mm", f"{name}, width", step=0.5,
             how="From the spine's face, or its own inner side, outwards.", kind=MAKER)  # fmt: skip
    book.add(f"{key}.inner", piece.place.inner_mm, "mm", f"{name}, inner side from the centre line", step=0.5,
             how="The spine's face, or as the maker's file says.", kind=MAKER)  # fmt: skip
    for part, value, label in (
        ("tail", piece.tail_inner_mm, "depth at its tail end, inner side"),
        ("tail_outer", piece.tail_outer_mm, "depth at its tail end, outer side"),
        ("nose", piece.nose_inner_mm, "depth at its nose end, inner side"),
        ("nose_outer", piece.nose_outer_mm, "depth at its nose end, outer side"),
    ):
        book.add(f"{key}.{part}", value, "mm", f"{name}, {label}", how=DEPTH, kind=MAKER, step=0.5)
    for part, value, label in (
        ("bevel_along", abs(piece.bevel_along_deg), "slope of its top along the board"),
        ("bevel_across", piece.bevel_across_deg, "slope of its top towards the rim"),
    ):
        book.add(f"{key}.{part}", value, "°", f"{name}, {label}", how="From its corner depths.", kind=MAKER, step=0.5)


def _add_holes(book: FigureBook, facts: Facts) -> None:
    """The holes in the ribs, and the one past the spine."""
    holes = air_holes(facts.body)
    least = min(holes, key=lambda hole: hole.hole_mm)
    book.add("air.hole", least.hole_mm, "mm", "diameter of the air holes", kind=[MAKER, PRACTICE],
             how="As large as the shallowest rib bears. Slow air needs far less.")  # fmt: skip
    book.add("air.hole_up", UP_MM, "mm", "middle of an air hole above the bottom panel", kind=PRACTICE,
             how="Low, but clear of the glue in the corner.")  # fmt: skip
    book.add("air.hole_share", 100 * max(hole.share for hole in holes), "%",
             "greatest share of a rib's depth that its hole takes", how="Hole by the rib's depth there.",
             kind=[MAKER, PRACTICE])  # fmt: skip
    book.add("air.hole_limit", 100 * HOLE_SHARE, "%", "share of a rib's depth that a hole may take",
             how="So much may go without weakening it noticeably.", kind=PRACTICE)  # fmt: skip
    usual = min(hole.from_spine_mm for hole in holes)
    book.add("air.hole_aside", usual, "mm", "middle of an air hole from the spine's face", kind=PRACTICE,
             how="Beside the spine, clear of the glue in the corner.")  # fmt: skip
    book.rows["air_holes"] = tuple(_hole_rows(book, holes, usual))


def _hole_rows(book: FigureBook, holes: Sequence[AirHole], usual: float) -> Iterator[Row]:
    for hole in holes:
        key = f"air.rib.{hole.rib}"
        book.add(f"{key}.aside", hole.from_spine_mm, "mm", f"air holes in rib {hole.rib}, middle from the spine's face",
                 how="Beside the spine, or past a block that would cover it.", kind=[MAKER, PRACTICE])  # fmt: skip
        yield {"n": hole.rib, "key": key, "moved": hole.from_spine_mm > usual + 1, "aside_mm": hole.from_spine_mm}
