"""Figures of pressing a panel's edges together, and of the weights that keep it flat."""

from __future__ import annotations

from generator.build.panel_press import (
    GLUING_PRESSURE_MPA,
    OneWeight,
    Weighed,
    buckling_force_n_mm,
    gluing_force_n_mm,
    hold_down_n_mm,
    kg_per_m,
    weigh_down,
)
from generator.figure_sets.facts import Facts, stiffness_kind
from generator.figures import FigureBook, Kind
from generator.timber.movement import Range

UNEVEN_MM = Range(1.0, 0.5, 2.0)
"""How much higher than its neighbours one wet joint may lie when the pressing begins; assumed."""
TABLE = "Wood Handbook, FPL-GTR-190 (2010), Table 5-1 (partly from memory), and a pinned strip (Euler)"


def across_mpa(facts: Facts) -> Range:
    """Stiffness of the panel across its grain."""
    low, value, high = facts.across.stiffness_mpa
    return Range(value, low, high)


def edge_force_n_mm(facts: Facts) -> Range:
    """Edge force at which the finished panel springs up."""
    across = across_mpa(facts)
    width, thick = facts.planks.bottom.width_mm, facts.body.panel_mm
    value, low, high = (
        buckling_force_n_mm(thickness_mm=thick, width_mm=width, across_mpa=mpa)
        for mpa in (across.value, across.low, across.high)
    )
    return Range(value, low, high)


def joints_m(facts: Facts) -> float:
    """Length of the wet joints in one panel, m; a panel of one plank is weighed as if it had one."""
    return facts.planks.need_length_mm / 1000 * max(facts.planks.bottom.glue_lines, 1)


def weighed(facts: Facts) -> tuple[Range, Weighed]:
    """Weight along each metre of a wet joint, kg, and the weights of the house laid out for the panel's joints."""
    force, bottom = edge_force_n_mm(facts), facts.planks.bottom
    narrowest = min(bottom.widths_mm)
    value, low, high = (
        kg_per_m(hold_down_n_mm(force_n_mm=newton, plank_mm=narrowest, uneven_mm=uneven))
        for newton, uneven in (
            (force.value, UNEVEN_MM.value),
            (force.low, UNEVEN_MM.low),
            (force.high, UNEVEN_MM.high),
        )
    )
    length = facts.planks.need_length_mm
    needed = value * joints_m(facts)
    builder = facts.inputs.builder
    stock = [OneWeight(one.name, one.mass_kg, one.count) for one in builder.weights]
    stock += [OneWeight(one.name, one.mass_kg, one.count) for one in builder.things if one.kind == "block"]
    laid = weigh_down(needed_kg=needed, length_mm=length, apart_mm=facts.usual("practice.batten_apart"), stock=stock)
    return Range(value, low, high), laid


def add_panel_press(book: FigureBook, facts: Facts) -> None:
    """When the panel springs up, what textbooks ask for, and what to lay on it."""
    panel, thick = facts.inputs.board.panel, facts.body.panel_mm
    stiff = [stiffness_kind(panel.stiffness_mpa), facts.panel_thickness_kind, Kind.PUBLISHED, Kind.ASSUMED]
    across, force = across_mpa(facts), edge_force_n_mm(facts)
    book.add(
        "panel.across",
        across.value,
        "MPa",
        "stiffness of the panel across its grain",
        how="A small share of the stiffness along the grain. Flat-sawn planks have the least.",
        kind=stiff,
        source=TABLE,
        low=across.low,
        high=across.high,
        step=10,
    )
    book.add(
        "panel.press.buckles",
        kg_per_m(force.value),
        "kg/m",
        "push on each long edge at which the panel springs up",
        how="The finished panel, pressed at its two long edges and with nothing on it, as a thin strip that bows up.",
        kind=stiff,
        source=TABLE,
        low=kg_per_m(force.low),
        high=kg_per_m(force.high),
    )
    book.add(
        "panel.press.buckles_pressure",
        force.value / thick,
        "MPa",
        "the same push as a pressure on the edge",
        how="The push divided by the panel's thickness.",
        kind=stiff,
        source=TABLE,
        low=force.low / thick,
        high=force.high / thick,
        step=0.01,
    )
    textbook = gluing_force_n_mm(pressure_mpa=GLUING_PRESSURE_MPA, edge_mm=thick)
    book.add(
        "panel.press.pressure",
        GLUING_PRESSURE_MPA,
        "MPa",
        "gluing pressure that textbooks ask for in light woods",
        how="For thick wood in a press. A thin panel's edge can't take it.",
        kind=Kind.PUBLISHED,
        source="Wood Handbook, FPL-GTR-190 (2010), chapter 10 (from memory)",
        step=0.1,
    )
    book.add(
        "panel.press.textbook",
        kg_per_m(textbook),
        "kg/m",
        "push on each long edge that this pressure would take",
        how="Pressure times the panel's thickness.",
        kind=[Kind.PUBLISHED, facts.panel_thickness_kind],
        source="Wood Handbook, FPL-GTR-190 (2010), chapter 10 (from memory)",
        step=10,
    )
    book.add(
        "panel.press.times",
        textbook / force.value,
        "",
        "textbook push over the push at which the panel springs up",
        how="One divided by the other.",
        kind=stiff,
        low=textbook / force.high,
        high=textbook / force.low,
    )
    _add_weights(book, facts)


def _add_weights(book: FigureBook, facts: Facts) -> None:
    joint, laid = weighed(facts)
    kinds = [Kind.ASSUMED, Kind.MEASURED]
    book.add(
        "panel.press.uneven",
        UNEVEN_MM.value,
        "mm",
        "how much higher than its neighbours a wet joint may begin",
        how="What a table, a sheet and planks that are not quite flat come to.",
        kind=Kind.ASSUMED,
        low=UNEVEN_MM.low,
        high=UNEVEN_MM.high,
        step=0.5,
    )
    book.add(
        "panel.press.joint",
        joint.value,
        "kg/m",
        "weight that each metre of a joint needs",
        how="A wet joint is a hinge. Pushed at the edges as hard as the finished panel could stand, a hinge that lies "
        "this much too high is lifted by so much; the narrowest plank counts.",
        kind=kinds,
        low=joint.low,
        high=joint.high,
        step=0.1,
    )
    book.add(
        "panel.press.weight",
        laid.each_kg * len(laid.battens),
        "kg",
        "weight that one panel needs",
        how="Weight for each metre, times the length and the number of glue lines.",
        kind=kinds,
        low=joint.low * joints_m(facts),
        high=joint.high * joints_m(facts),
        step=0.5,
    )
    book.add(
        "panel.press.battens",
        len(laid.battens),
        "",
        "battens across one panel",
        how="The panel's length by the distance between battens, rounded up.",
        kind=Kind.COMMON_PRACTICE,
    )
    book.add(
        "panel.press.each",
        laid.each_kg,
        "kg",
        "weight that each batten carries at least",
        how="The weight for the panel by the number of battens.",
        kind=kinds,
        low=joint.low * joints_m(facts) / len(laid.battens),
        high=joint.high * joints_m(facts) / len(laid.battens),
        step=0.1,
    )
    book.add(
        "panel.press.short",
        laid.short_kg,
        "kg",
        "weight that is missing",
        how="What the battens need beyond the weights and blocks in the builder's file.",
        kind=kinds,
        step=0.5,
    )
    rows = []
    for batten in laid.battens:
        key = f"panel.batten.{batten.n}"
        label = f"batten {batten.n} across a panel"
        how = "Battens evenly along the panel, the outer ones half as far from the ends."
        book.add(f"{key}.from_end", batten.from_end_mm, "mm", f"{label}, from the tail end", how=how, kind=kinds)
        how = "The fewest of your weights that bring it to its share."
        book.add(f"{key}.mass", batten.kg, "kg", f"{label}, weights on it", how=how, kind=kinds, step=0.1)
        pieces = tuple({"name": name, "count": count} for name, count in batten.pieces)
        rows.append({"n": batten.n, "key": key, "pieces": pieces})
    book.rows["battens"] = tuple(rows)
    book.said["panel.weights_enough"] = laid.short_kg <= 0
