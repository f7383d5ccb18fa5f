"""One sum asked for by name and words: the answer, and the list of all that can be asked, ready to be printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.inputs.fault import BadInput, Fault
from generator.inputs.sum_words import PLACE, WHOLE, allowed, name_fault, plain, read_words
from generator.inputs.tables import Species
from generator.sums.registry import SUMS
from generator.sums.sum_type import OutOfRange, Takes, Typed

Plain = str | float
RANGE = "range of use"


@dataclass(frozen=True, slots=True)
class Told:
    """An answer by the words that it is printed under, in their order."""

    parts: tuple[tuple[str, Plain], ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """`word: value`, a line each, numbers with six digits that count."""
        return tuple(f"{word}: {said if isinstance(said, str) else plain(said)}" for word, said in self.parts)

    @property
    def by_word(self) -> dict[str, Plain]:
        """The same for programs, numbers in full."""
        return dict(self.parts)


def takes_timber(name: str) -> bool:
    """Whether the sum of that name takes the name of a timber; no for a sum that is not there."""
    return name in SUMS and any(takes.species for takes in SUMS[name].takes)


def answered(name: str, typed: Sequence[str], timbers: Sequence[Species] = ()) -> Told:
    """The answer of one sum to `key=value` words.

    Args:
        timbers: The timber table; needed only by sums that take a timber.

    Raises:
        BadInput: there is no such sum, or the words do not fit it, each by itself or together.
    """
    if name not in SUMS:
        raise BadInput([name_fault(name, tuple(SUMS))])
    one = SUMS[name]
    words = read_words(one.name, typed, one.takes, timbers)
    try:
        answer = one.does(Typed(words.numbers, words.words, words.species))
    except OutOfRange as misfit:
        found = _as_typed(misfit.key, typed)
        place = f"{PLACE} {one.name}, {misfit.key}"
        raise BadInput([Fault(place, WHOLE, found, misfit.allowed, misfit.nearest)]) from misfit
    return Told(
        (
            ("value", answer.value),
            ("unit", one.unit),
            ("kind", (answer.kind or one.kind).value),
            ("source", one.source),
            ("low", answer.low),
            ("high", answer.high),
            (RANGE, one.range_of_use),
        )
    )


def listed() -> tuple[str, ...]:
    """All sums with what they take, for people."""
    lines = ["Ask for one with: shedbook sum NAME key=value …   (--json for programs)"]
    for one in SUMS.values():
        lines += ["", f"{one.name} ({one.unit or 'a plain number'}): {one.about}"]
        width = max(len(takes.key) for takes in one.takes)
        lines += [f"  {takes.key:<{width}}  {takes.about}: {_takes(takes)}" for takes in one.takes]
    return tuple(lines)


def listed_for_programs() -> list[dict[str, object]]:
    """The same as plain lists and dicts."""
    return [
        {
            "name": one.name,
            "about": one.about,
            "takes": [_takes_by_word(takes) for takes in one.takes],
            "unit": one.unit,
            "kind": one.kind.value,
            "source": one.source,
            RANGE: one.range_of_use,
        }
        for one in SUMS.values()
    ]


def _takes(takes: Takes) -> str:
    usual = takes.usual if isinstance(takes.usual, str) or takes.usual is None else plain(takes.usual)
    return allowed(takes) + ("" if usual is None else f" ({usual} if left out)")


def _takes_by_word(takes: Takes) -> dict[str, object]:
    told: dict[str, object] = {"key": takes.key, "about": takes.about}
    if takes.species:
        told["words"] = "a timber of timber.csv"
    elif takes.words:
        told["words"] = list(takes.words)
    else:
        told |= {"unit": takes.unit, "low": takes.low, "high": takes.high}
    return told if takes.usual is None else told | {"usual": takes.usual}


def _as_typed(key: str, typed: Sequence[str]) -> str:
    """What stands after the key, as it was typed; what is usual where nothing was."""
    pairs = (word.partition("=") for word in typed)
    return next((value.strip() for name, _, value in pairs if name.strip() == key), "left as usual")
