"""Figures of the top panel clamped on: heights to aim for then, what more has to press, what the readings say."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.top_on import Held, TopOn, held_down, top_on
from generator.bench.what_if import what_if
from generator.board.crowned_panel import CROWN_WORKS, top_panel_n_mm2
from generator.figure_sets.bench_data import bench_weights, shims_left
from generator.figure_sets.facts import BENT, TYPED_BOARD, Facts, tip_rise_mm
from generator.figure_sets.readings import Read, add_read, read_nothing
from generator.figures import FigureBook, Kind
from generator.quantities import Floats, fixed

WITHIN_MM = 3.0
"""How near the board is to be held to its curve while the top panel's glue sets, if it can be."""
KEY = "top_read"
HELD = (
    "Solved with the top panel lying on, bent over the crown. How much of the crown's stiffening works before the glue "
    "is hard is not known: the range goes from none of it to all of it."
)
AIM = "The heights that leave the wanted rocker once the finished box is let go."
STATIONS = 61


@dataclass(frozen=True, slots=True, eq=False)
class _Ends:
    """The same with none, half and all of the crown's stiffening at work."""

    none: Held
    half: Held
    whole: Held
    as_it_is: tuple[TopOn, TopOn, TopOn]
    then: TopOn

    @property
    def all(self) -> tuple[Held, Held, Held]:
        return self.none, self.half, self.whole


def add_top_panel(book: FigureBook, facts: Facts) -> None:
    """All figures of the top panel on the bench; after `add_bench_data`."""
    ends = _solved(facts)
    book.add(
        "top.crown_works",
        100 * CROWN_WORKS[1],
        "%",
        "how much of the crown's stiffening works before the glue is hard",
        how="A panel that is held down at the rim, the spine and the ribs keeps the crown's shape there. In between it "
        "may flatten. Nobody has measured it here, so the sums are made with none, half and all of it.",
        kind=Kind.ASSUMED,
        low=100 * CROWN_WORKS[0],
        high=100 * CROWN_WORKS[2],
    )
    _add_aims(book, facts, ends)
    _add_presses(book, facts, ends)
    _add_supports(book, facts, ends)
    _add_readings(book, facts, ends)


def _solved(facts: Facts) -> _Ends:
    bench = facts.plan.bench
    breaks = facts.board.value.breaks_mm
    middles = (breaks[:-1] + breaks[1:]) / 2
    none, half, whole = (top_panel_n_mm2(facts.body, middles, works=share) for share in CROWN_WORKS)
    move = facts.plan.route == "bottom panel"
    most = held_down(bench, top_n_mm2=whole, within_mm=WITHIN_MM, move=move)
    ribs = [press.rib for press in most.presses]
    less = [held_down(bench, top_n_mm2=top, within_mm=WITHIN_MM, ribs=ribs, move=move) for top in (none, half)]
    return _Ends(
        less[0],
        less[1],
        most,
        (top_on(bench, top_n_mm2=none), top_on(bench, top_n_mm2=half), top_on(bench, top_n_mm2=whole)),
        top_on(bench, top_n_mm2=half, presses=less[1].presses, changes_mm=less[1].changes_mm),
    )


def _level(then: TopOn) -> tuple[float, float]:
    """Height at the tail tip, and rise to the nose tip, that carry the curve to aim for to where the board lies."""
    line = np.column_stack((np.ones_like(then.x_mm), then.x_mm / then.x_mm[-1]))
    lift, turn = np.linalg.lstsq(line, then.heights_mm - then.aim_mm, rcond=None)[0]
    return float(lift), float(turn)


def _add_aims(book: FigureBook, facts: Facts, ends: _Ends) -> None:
    """Heights above the level line at both tips and every rib, and the tips' rise."""
    lift, turn = _level(ends.then)
    length = facts.body.length_mm
    places = [("the tail tip", 0.0), *((f"rib {rib.number}", rib.from_tail_mm) for rib in facts.body.ribs)]
    rows = []
    for n, (name, x) in enumerate([*places, ("the nose tip", length)], 1):
        key = f"top.aim.{n}"
        book.add(f"{key}.from_tail", x, "mm", f"{name}, from the tail tip", how=TYPED_BOARD, kind=Kind.MAKER)
        book.add(
            f"{key}.height",
            ends.then.aim_at(x) + lift + turn * x / length,
            "mm",
            f"height to aim for at {name}, with the top panel clamped on",
            how=AIM,
            kind=BENT,
            step=0.5,
        )
        rows.append({"n": n, "key": key, "name": name})
    book.rows["top_aims"] = tuple(rows)
    for at, end in ((0, "tail"), (-1, "nose")):
        rises = [tip_rise_mm(one.aim_mm, at) for one in ends.as_it_is]
        book.add(
            f"top.aim_{end}",
            rises[1],
            "mm",
            f"rise of the {end} tip to aim for with the top panel clamped on",
            how=AIM,
            kind=BENT,
            low=min(rises),
            high=max(rises),
            step=0.5,
        )


def _add_presses(book: FigureBook, facts: Facts, ends: _Ends) -> None:
    """What more has to press, where, and what is left with and without it."""
    ribs = [press.rib for press in ends.whole.presses]
    rows = []
    for rib in ribs:
        masses = [sum(press.kg for press in held.presses if press.rib == rib) for held in ends.all]
        number = facts.body.ribs[rib].number
        key = f"top.press.{number}"
        book.add(
            key,
            masses[1],
            "kg",
            f"what more has to press at rib {number} with the top panel on",
            how=HELD,
            kind=BENT,
            low=min(masses),
            high=max(masses),
            step=0.5,
        )
        rows.append({"rib": number, "key": key})
    book.rows["top_presses"] = tuple(rows)
    totals = [held.kg for held in ends.all]
    spare = sum(one.mass_kg * one.count for one in facts.inputs.builder.weights) - sum(
        one.total_kg for one in facts.plan.placed
    )
    offs = [float(np.abs(one.off_mm).max()) for one in ends.as_it_is]
    lefts = [held.worst_mm for held in ends.all]
    for name, values, unit, label, step in (
        ("press_total", totals, "kg", "what more has to press, all together", 0.5),
        ("off", offs, "mm", "how far the board lies from its curve with nothing more on it", 0.5),
        ("left", lefts, "mm", "how far it then still lies from it", 0.5),
    ):
        book.add(
            f"top.{name}",
            values[1],
            unit,
            label,
            how=HELD,
            kind=BENT,
            low=min(values),
            high=max(values),
            step=step,
        )
    book.add(
        "top.weights_spare",
        max(spare, 0.0),
        "kg",
        "loose weights that are not on the board yet",
        how="Those in your file, less those that lie on the board for the rocker.",
        kind=(Kind.MEASURED, *BENT),
        step=0.5,
    )
    book.said |= {"top_press": bool(ribs), "top_weights_enough": spare >= totals[2] - 1e-9}


def _add_supports(book: FigureBook, facts: Facts, ends: _Ends) -> None:
    """New heights of the supports where the board has been lifted off in between; none where it stayed."""
    rows = []
    for n, (support, change) in enumerate(zip(facts.plan.supports, ends.half.changes_mm, strict=True), 1):
        if facts.plan.route != "bottom panel":
            break
        changes = [float(held.changes_mm[n - 1]) for held in ends.all]
        for name, value, span, label in (
            ("change", float(change), changes, "by how much the {} support is set higher for the top panel"),
            (
                "height",
                support.top_mm + float(change),
                [support.top_mm + one for one in changes],
                "height of the {} support for the top panel, above the level line",
            ),
        ):
            book.add(
                f"top.support.{n}.{name}",
                value,
                "mm",
                label.format(support.name),
                how=HELD,
                kind=BENT,
                low=min(span),
                high=max(span),
                step=0.5,
            )
        rows.append({"n": n, "name": support.name, "key": f"top.support.{n}"})
    book.rows["top_supports"] = tuple(rows)


def _add_readings(book: FigureBook, facts: Facts, ends: _Ends) -> None:
    readings = facts.inputs.builder.measured.with_top
    if readings is None:
        read_nothing(book, KEY)
        return
    then, (lift, turn) = ends.then, _level(ends.then)

    def aim_mm(x_mm: ArrayLike) -> Floats:
        return fixed(np.interp(np.asarray(x_mm, dtype=np.float64), then.x_mm, then.aim_mm))

    kinds, placed = bench_weights(facts)
    data = what_if(
        beam=then.beam,
        glued_n_mm2=then.closed_n_mm2,
        tops=then.tops,
        weight_kinds=kinds,
        placed=placed,
        weight_places_mm=facts.board.rib_mm,
        wanted_mm=aim_mm,
        line=(lift, turn),
        shims=[(thing.name, thing.height_mm, left) for thing, left in shims_left(facts)],
        low_point_mm=facts.board.low_point_mm,
    )
    add_read(
        book,
        facts,
        Read(
            KEY,
            tuple(readings),
            lambda x: then.aim_at(x) + lift + turn * x / facts.body.length_mm,
            data,
            "with the top panel clamped on",
        ),
    )
