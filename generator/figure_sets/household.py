"""Figures and lists of what the builder has: things, clamps, weights, tools; and facts of common practice."""

from __future__ import annotations

from collections.abc import Iterator

from generator.figure_sets.facts import TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind


def add_household(book: FigureBook, facts: Facts) -> None:
    """Everything that the builder's file lists."""
    builder = facts.inputs.builder
    used: dict[str, int] = {}
    for support in facts.plan.supports:
        for part in support.parts:
            used[part.name] = used.get(part.name, 0) + part.count
    rows = []
    for n, thing in enumerate(builder.things, 1):
        key = f"ready.thing.{n}"
        for name, value, unit, label, step in (
            ("height", thing.height_mm, "mm", "height", 0.1),
            ("top_width", thing.top_width_mm, "mm", "width of its top", 1.0),
            ("mass", thing.mass_kg, "kg", "mass", 0.05),
            ("takes", thing.takes_kg, "kg", "load that it takes", 1.0),
        ):
            book.add(
                f"{key}.{name}",
                value,
                unit,
                f"{thing.name}, {label}",
                how=TYPED_BUILDER,
                kind=Kind.MEASURED,
                step=step,
            )
        rows.append(
            {
                "n": n,
                "key": key,
                "name": thing.name,
                "kind": thing.kind,
                "count": thing.count,
                "used": used.get(thing.name, 0),
            }
        )
    book.rows["things"] = tuple(rows)
    book.add(
        "ready.stack_heaviest",
        max((s.stack.mass_kg for s in facts.plan.supports if s.stack), default=0.0),
        "kg",
        "heaviest stack",
        how="Masses of the things in it.",
        kind=Kind.MEASURED,
        step=0.1,
    )
    book.rows["clamps"] = tuple({"name": c.name, "count": c.count} for c in builder.clamps)
    weights = []
    for n, weight in enumerate(builder.weights, 1):
        key = f"ready.weight.{n}"
        book.add(key, weight.mass_kg, "kg", f"mass of {weight.name}", how=TYPED_BUILDER, kind=Kind.MEASURED, step=0.05)
        weights.append({"key": key, "name": weight.name, "count": weight.count})
    book.rows["own_weights"] = tuple(weights)
    book.rows["tools"] = tuple(_tools(facts))


def _tools(facts: Facts) -> Iterator[dict[str, object]]:
    """Every tool, and whether it is still needed: no other that does the same is there or was named before."""
    have = set(facts.inputs.builder.tools)
    served = {tool.use for tool in facts.inputs.tools if tool.name in have}
    for tool in facts.inputs.tools:
        yield {
            "name": tool.name,
            "stage": tool.stage,
            "have": tool.name in have,
            "needed": tool.use not in served,
            "for_what": tool.use,
            "substitute": tool.substitute,
        }
        served.add(tool.use)


def add_practice(book: FigureBook, facts: Facts) -> None:
    """Facts of common practice and published constants, from their table."""
    for row in facts.inputs.practice:
        published = row.source != "common practice" and "from memory" not in row.source
        kind = Kind.PUBLISHED if published else Kind.COMMON_PRACTICE
        book.add(
            row.key, row.value, row.unit, row.label, how=row.how, kind=kind, source=row.source, step=_step(row.value)
        )


def _step(value: float) -> float:
    """Shown as exactly as it was typed, within reason."""
    return next((step for step in (1.0, 0.5, 0.1, 0.05) if abs(value / step - round(value / step)) < 1e-9), 0.01)
