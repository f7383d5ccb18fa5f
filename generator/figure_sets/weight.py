"""Figures of weight: the finished board part by part, its range, and where it balances."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.build.bracing import foam_blocks, mass_of
from generator.build.finish_use import finish_part
from generator.build.glue_use import glue_parts
from generator.build.part_mass import PartMass
from generator.build.solids import surface_area_mm2
from generator.build.weight import (
    DENSITY_SPREAD,
    SANDED_MM,
    Weight,
    all_together,
    balance_mm,
    fitting_parts,
    wood_parts,
)
from generator.figure_sets.facts import Facts
from generator.figure_sets.inside import braced_bays
from generator.figures import FigureBook, Kind

FITTINGS = frozenset({"fin", "leash plug", "vent"})
FRAME = frozenset({"frame", "spine", "ribs", "edge strips"})
STEP = 0.01
GROUPS: tuple[tuple[str, str, str], ...] = (
    ("panels", "two panels", "Trimmed to the frame: area, thickness and density."),
    ("frame", "frame", "Spine, ribs and edge strips."),
    ("blocks", "blocks", "The solid blocks between the panels, cut to fit."),
    ("rails", "rails", "As shaped: what lies outside the frame, times the density of its wood."),
    ("glue", "glue", "What stays in the joints once it is dry."),
    ("foam", "foam", "The blocks that brace the panels from inside."),
    ("fittings", "fin, leash plug and vent", "As the maker's file for this board says."),
    ("finish", "finish", "What stays on the outside of all coats."),
    ("sanded", "sanded off", "A thin layer off both panels' outsides. It counts as less than nothing."),
)


def finished_weight(facts: Facts) -> Weight:
    """The finished board of one builder: all its parts, or its own mass if it was weighed."""
    body, builder = facts.body, facts.inputs.builder
    braced = braced_bays(facts)
    glue = glue_parts(body, builder.glue, foam=foam_blocks(braced))
    parts = [*wood_parts(body), *glue, *fitting_parts(body)]
    middle, foam = balance_mm(parts), mass_of(braced)
    finish = finish_part(area_mm2=surface_area_mm2(body), finish=builder.finish, from_tail_mm=middle)
    parts += [part for part in (foam, finish) if part is not None]
    return all_together(parts, weighed_kg=builder.measured.finished_mass_kg)


def add_weight(book: FigureBook, facts: Facts) -> Weight:
    """Every part's mass, the groups that the page shows, the whole, its range and where it balances; gives it back."""
    weight = finished_weight(facts)
    kind = Kind.MEASURED if weight.measured else Kind.ASSUMED
    book.add(
        "weight.finished",
        weight.kg,
        "kg",
        "mass of the finished board",
        how="Weighed."
        if weight.measured
        else "All parts added up. Each may be off by itself, so the range is the root of the sum of their squares.",
        kind=kind,
        low=weight.low_kg,
        high=weight.high_kg,
        step=0.1,
    )
    book.add(
        "weight.balance",
        weight.from_tail_mm,
        "mm",
        "where the finished board balances, from the tail tip",
        how="Each part's mass times its place, added up, by the mass of all parts.",
        kind=Kind.ASSUMED,
        step=5,
    )
    _add_over(book, weight)
    book.rows["weight_groups"] = tuple(_add_groups(book, weight.parts))
    book.rows["weight_parts"] = tuple(_add_parts(book, weight.parts))
    _add_assumptions(book)
    book.said |= {
        "weight.weighed": weight.measured,
        "weight.finish_known": facts.inputs.builder.finish is not None,
        "weight.foam_known": facts.inputs.builder.foam is not None,
    }
    return weight


def _add_over(book: FigureBook, weight: Weight) -> None:
    """How far the scales and the sum are apart."""
    if not weight.measured:
        return
    estimate = all_together(weight.parts)
    over = weight.kg - estimate.kg
    book.add(
        "weight.summed",
        estimate.kg,
        "kg",
        "mass that the parts come to",
        how="All parts added up.",
        kind=Kind.ASSUMED,
        low=estimate.low_kg,
        high=estimate.high_kg,
        step=0.1,
    )
    book.add(
        "weight.over",
        over,
        "kg",
        "what the board weighs more than its parts come to",
        how="Your scales less the sum of the parts.",
        kind=Kind.ASSUMED,
        step=0.1,
    )
    book.said["weight.as_summed"] = estimate.low_kg <= weight.kg <= estimate.high_kg


def _group_of(part: PartMass) -> str:
    if part.name in FRAME:
        return "frame"
    if part.name in FITTINGS:
        return "fittings"
    for word in ("panel", "block", "glue", "sanded"):
        if word in part.name and "glue of" not in part.name:
            return {"panel": "panels", "block": "blocks"}.get(word, word)
    return "glue" if "glue" in part.name else part.name


def _kinds(parts: Sequence[PartMass]) -> list[Kind]:
    return [Kind.MEASURED if part.measured else Kind.MAKER if part.name in FITTINGS else Kind.ASSUMED for part in parts]


def _add_groups(book: FigureBook, parts: Sequence[PartMass]) -> Iterator[dict[str, str]]:
    """The parts in the groups that make a readable table, heaviest kinds first as the board is built."""
    for slug, name, how in GROUPS:
        own = [part for part in parts if _group_of(part) == slug]
        if not own:
            continue
        whole = all_together(own)
        key = f"weight.{slug}"
        book.add(
            key,
            whole.kg,
            "kg",
            f"mass of the {name}" if slug != "sanded" else "mass that is sanded off",
            how="Weighed." if all(part.measured for part in own) else how,
            kind=_kinds(own),
            low=whole.low_kg,
            high=whole.high_kg,
            step=STEP,
        )
        yield {"key": key, "slug": slug, "name": name}


def _add_parts(book: FigureBook, parts: Sequence[PartMass]) -> Iterator[dict[str, str]]:
    """Every single part."""
    seen: dict[str, int] = {}
    for part in parts:
        slug = part.name.replace(" ", "_")
        seen[slug] = seen.get(slug, 0) + 1
        key = f"weight.part.{slug}" + (f".{seen[slug]}" if seen[slug] > 1 else "")
        book.add(
            key,
            part.kg,
            "kg",
            f"mass: {part.name}",
            how="Weighed." if part.measured else "Volume times density, or what the file or the label says of it.",
            kind=_kinds([part]),
            low=part.low_kg,
            high=part.high_kg,
            step=STEP,
        )
        yield {"key": key, "name": part.name}


def _add_assumptions(book: FigureBook) -> None:
    book.add(
        "weight.density_spread",
        100 * DENSITY_SPREAD,
        "%",
        "how far one board's density strays from its timber's mean",
        how="Average coefficient of variation of specific gravity. Two boards in three lie within it.",
        kind=Kind.PUBLISHED,
        source="Wood Handbook, FPL-GTR-190 (2010), chapter 5 (from memory)",
    )
    book.add(
        "weight.sanded_depth",
        SANDED_MM.value,
        "mm",
        "thickness that sanding takes off a panel's outside",
        how="Assumed. A careful hand takes less.",
        kind=Kind.ASSUMED,
        low=SANDED_MM.low,
        high=SANDED_MM.high,
        step=0.1,
    )
