"""Three rockers for this builder, what each comes to, and what the maker's rules added."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from generator.board.advice import MASS_STEP_KG, Candidate, Traits, candidates, mass_steps, shift_of
from generator.board.rocker import FLAT_WITHIN_MM, HeightAt, Shift
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind
from generator.inputs.rocker_rules import CANDIDATE, CANDIDATES, SURF_FACTORS
from generator.inputs.site import Inputs
from generator.inputs.tables import RockerRule

SLUGS = {"easier paddling": "paddling", "between": "between", "later take-off": "late"}
CURVE_STATIONS = 121
READ_OFF = "Read off the fair curve through the heights that the maker's rules give, from its lowest point."
SLOPE = "How steeply the bottom rises there, from the slope of the fair curve."
RULE = "A row of the maker's rules for rockers, for a board of this length."
SUM = "The rules that count for you, added up; nothing where a rocker of your own was agreed."
TYPED = "As the maker's rules for rockers say."
SCALE = "Length of your board by the length that the rules are written for: so the angles are the same."
FLAT = "The stretch where the bottom lies within a set distance of a straight line laid along its lowest point."


@dataclass(frozen=True, slots=True)
class Added:
    """What one rule added for this builder."""

    slug: str
    rule: RockerRule
    shift: Shift


@dataclass(frozen=True, slots=True)
class Advice:
    """The rules that count for one builder, in order, and the candidates by name.

    `chosen` is the name of the builder's own, `agreed` the heights agreed instead (None if there are none).
    """

    scale: float
    rules: tuple[Added, ...]
    candidates: Mapping[str, Candidate]
    chosen: str
    agreed: Sequence[HeightAt] | None

    @property
    def shift(self) -> Shift:
        """All that is changed on the kit's rocker; nothing where one was agreed."""
        return Shift() if self.agreed is not None else self.candidates[self.chosen].shift


def advise(inputs: Inputs) -> Advice:
    """Candidates from the kit's rocker and the maker's rules for this builder."""
    board, builder, table = inputs.board, inputs.builder, inputs.rocker_rules
    scale = board.length_mm / table.reference_length_mm
    surf = (table.rule(factor, getattr(builder.surf, factor)) for factor in SURF_FACTORS)
    heavier = mass_steps(builder.body_mass_kg, table.reference_mass_kg)
    common = (
        *(Added(rule.factor, rule, shift_of(rule, scale=scale)) for rule in surf),
        Added("mass", table.body_mass, shift_of(table.body_mass, scale=scale, times=heavier)),
    )
    own = {name: table.rule(CANDIDATE, name) for name in CANDIDATES}
    made = candidates(
        board.rocker,
        common=[one.shift for one in common],
        own={name: shift_of(rule, scale=scale) for name, rule in own.items()},
        length_mm=board.length_mm,
    )
    agreed = None if isinstance(builder.rocker, str) else builder.rocker
    chosen = builder.rocker if isinstance(builder.rocker, str) else "between"
    choice = Added("choice", own[chosen], shift_of(own[chosen], scale=scale))
    return Advice(scale, common if agreed is not None else (*common, choice), made, chosen, agreed)


def add_advice(book: FigureBook, facts: Facts) -> None:
    """The candidates in numbers and as lines, the rules that counted, and which rocker is the builder's."""
    inputs, advice = facts.inputs, advise(facts.inputs)
    book.add(
        "advice.flat_within",
        FLAT_WITHIN_MM,
        "mm",
        "how near to level counts as flat",
        how="A choice of this guide: another distance gives other lengths, but the same order.",
        kind=Kind.ASSUMED,
    )
    x = np.linspace(0, inputs.board.length_mm, CURVE_STATIONS)
    for name, candidate in advice.candidates.items():
        key = f"advice.{SLUGS[name]}"
        add_traits(book, key, candidate.traits, f"rocker for {name}", how=READ_OFF)
        book.draw(key, x, candidate.curve.height_mm(x), "mm", f"bottom line for {name}")
    _add_rules(book, facts, advice)
    agreed = advice.agreed is not None
    book.rows["candidates"] = tuple(
        {
            "key": f"advice.{SLUGS[name]}",
            "name": name,
            "chosen": not agreed and name == advice.chosen,
            "why": inputs.rocker_rules.rule(CANDIDATE, name).why,
        }
        for name in CANDIDATES
    )
    book.said |= {
        "rocker_from": "agreed" if agreed else "maker",
        "rocker_choice": "agreed" if agreed else advice.chosen,
        "surf.where": inputs.builder.surf.where,
        "surf.how": inputs.builder.surf.how,
        "surf.skill": inputs.builder.surf.skill,
    }


def add_traits(book: FigureBook, key: str, traits: Traits, what: str, *, how: str) -> None:
    """What a bottom line comes to, under `key`."""
    rises = traits.rises
    for part, value, label in (
        ("tail", rises.tail_mm, "rise at the tail tip"),
        ("nose", rises.nose_mm, "rise at the nose tip"),
        ("tail_in", rises.tail_in_mm, "rise near the tail, where the trade measures"),
        ("nose_in", rises.nose_in_mm, "rise near the nose, where the trade measures"),
    ):
        book.add(f"{key}.{part}", value, "mm", f"{what}: {label}", how=how, kind=Kind.MAKER)
    add_flat(book, key, traits, what)


def add_flat(book: FigureBook, key: str, traits: Traits, what: str) -> None:
    """How long a bottom line is flat and how steeply its tips rise, under `key`."""
    flat = traits.flat
    share = f"{what}: flat part, of the board's length"
    book.add(f"{key}.flat", 100 * flat.share, "%", share, how=FLAT, kind=Kind.MAKER)
    for part, value, label in (
        ("flat_length", flat.length_mm, "length of the flat part"),
        ("flat_from", flat.from_mm, "beginning of the flat part, from the tail tip"),
        ("flat_to", flat.to_mm, "end of the flat part, from the tail tip"),
    ):
        book.add(f"{key}.{part}", value, "mm", f"{what}: {label}", how=FLAT, kind=Kind.MAKER, step=10)
    for end, angle in (("tail", traits.tail_angle_deg), ("nose", traits.nose_angle_deg)):
        label = f"{what}: angle at the {end} tip"
        book.add(f"{key}.{end}_angle", angle, "°", label, how=SLOPE, kind=Kind.MAKER, step=0.5)


def _add_rules(book: FigureBook, facts: Facts, advice: Advice) -> None:
    """What each rule that counts added, what they come to together, and what the table is written for."""
    table = facts.inputs.rocker_rules
    for one in advice.rules:
        _add_shift(
            book, f"advice.rule.{one.slug}.", one.shift, f"rule for {one.rule.factor}, {one.rule.name}", how=RULE
        )
    _add_shift(book, "rocker.shift_", advice.shift, "changed on the kit's rocker for you", how=SUM)
    for key, value, unit, label, how in (
        ("mass_reference", table.reference_mass_kg, "kg", "body mass at which the rule for it adds nothing", TYPED),
        ("mass_step", MASS_STEP_KG, "kg", "step of body mass", "The rule counts once for each step, parts included."),
        ("length_reference", table.reference_length_mm, "mm", "length that the rules' mm are written for", TYPED),
        ("length_scale", 100 * advice.scale, "%", "what your board takes of the rules' mm", SCALE),
    ):
        book.add(f"advice.{key}", value, unit, label, how=how, kind=Kind.MAKER)
    named = [(one.slug, one.rule) for one in advice.rules] + [("length", table.length)]
    book.rows["rocker_rules"] = tuple(
        {"key": f"advice.rule.{slug}", "slug": slug, "name": rule.name, "why": rule.why} for slug, rule in named
    )


def _add_shift(book: FigureBook, key: str, shift: Shift, what: str, *, how: str) -> None:
    for part, value, unit, label in (
        ("tail", shift.tail_mm, "mm", "added at the tail tip"),
        ("nose", shift.nose_mm, "mm", "added at the nose tip"),
        ("flat", shift.held.lowered_pct, "%", "lower half-way from the lowest point to a tip"),
    ):
        book.add(f"{key}{part}", value, unit, f"{what}: {label}", how=how, kind=Kind.MAKER, step=0.5)
