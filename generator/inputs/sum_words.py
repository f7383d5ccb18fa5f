"""What is typed after the name of a sum: `key=value` words, read as strictly as the input files."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Protocol

from generator.inputs.builder import slug_of
from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import nearest_name, said
from generator.inputs.measure import LONGEST, Unread, measure
from generator.inputs.tables import Species
from generator.inputs.units import SCALES, Unit

PLACE = "shedbook sum"
WHOLE = "the value"
_BARE = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
_MANY_NAMES = 30


class Asked(Protocol):
    """One thing that a sum takes: a number in `unit`, one of `words`, or a timber."""

    @property
    def key(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def low(self) -> float: ...
    @property
    def high(self) -> float: ...
    @property
    def words(self) -> tuple[str, ...]: ...
    @property
    def species(self) -> bool: ...
    @property
    def usual(self) -> float | str | None: ...


@dataclass(frozen=True, slots=True)
class Words:
    """What was typed, checked: numbers and words by key, the timber where one was named."""

    numbers: Mapping[str, float]
    words: Mapping[str, str]
    species: Species | None = None


@dataclass(slots=True)
class _Reading:
    """Collects what was read and what was wrong; a key in `told` has its fault already and is not missed again."""

    name: str
    timbers: Sequence[Species]
    faults: list[Fault] = field(default_factory=list)
    told: set[str] = field(default_factory=set)
    numbers: dict[str, float] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)
    species: Species | None = None

    def place(self, key: str) -> str:
        return f"{PLACE} {self.name}, {shown(key)}"

    def take(self, one: Asked, written: str | None) -> None:
        """Keep what was written for one key, or what is usual where nothing was; else keep a fault."""
        if written is None:
            self._take_usual(one)
        elif one.species:
            self._take_species(one, written)
        elif one.words:
            self._take_word(one, written)
        else:
            self._take_number(one, written)

    def _take_usual(self, one: Asked) -> None:
        if one.usual is None:
            example = _example(one, self.timbers)
            self._blame(one.key, "missing", allowed(one, self.timbers), f"{one.key}={example}")
        elif one.species:
            self._take_species(one, str(one.usual))
        elif one.words:
            self.words[one.key] = str(one.usual)
        else:
            self.numbers[one.key] = float(one.usual)

    def _take_species(self, one: Asked, written: str) -> None:
        wanted = slug_of(written)
        self.species = next((timber for timber in self.timbers if slug_of(timber.name) == wanted), None)
        if self.species is None:
            nearest = nearest_name(written.replace("-", " "), [timber.name for timber in self.timbers])
            self._blame(one.key, said(written), allowed(one, self.timbers), slug_of(nearest))

    def _take_word(self, one: Asked, written: str) -> None:
        word = next((word for word in one.words if word.casefold() == written.strip().casefold()), None)
        if word is None:
            self._blame(one.key, said(written), allowed(one, self.timbers), nearest_name(written, one.words))
        else:
            self.words[one.key] = word

    def _take_number(self, one: Asked, written: str) -> None:
        try:
            number = _number(written, one)
        except Unread as unread:
            nearest = next(iter(unread.candidates), plain(one.low))
            self._blame(one.key, f"{said(written)} ({unread.found})", allowed(one, self.timbers), nearest)
            return
        low, high = _bounds(one)
        if low <= number <= high:
            self.numbers[one.key] = float(number)
        else:
            nearest = plain(one.low if number < low else one.high)
            self._blame(one.key, f"{shown(written.strip())} {one.unit}".rstrip(), allowed(one, self.timbers), nearest)

    def _blame(self, key: str, found: str, may_be: str, nearest: str) -> None:
        self.faults.append(Fault(self.place(key), WHOLE, found, may_be, nearest))


def read_words(name: str, typed: Sequence[str], asked: Sequence[Asked], timbers: Sequence[Species] = ()) -> Words:
    """The `key=value` words of one sum.

    A number stands in its key's own unit and without it, with a dot; words and timbers may be written with small or
    capital letters, timbers with hyphens or spaces.

    Raises:
        BadInput: a word is no key=value, a key is unknown, missing or given twice, or a value does not fit.
    """
    reading = _Reading(name, timbers)
    written = dict(_pairs(reading, typed, [one.key for one in asked]))
    for one in asked:
        if one.key in written or one.key not in reading.told:
            reading.take(one, written.get(one.key))
    if reading.faults:
        raise BadInput(reading.faults)
    return Words(MappingProxyType(reading.numbers), MappingProxyType(reading.words), reading.species)


def name_fault(name: str, names: Sequence[str]) -> Fault:
    """The fault of a sum that is not there."""
    return Fault(PLACE, "the name of the sum", said(name), f"one of {', '.join(names)}", nearest_name(name, names))


def plain(value: float) -> str:
    """A number with six digits that count, without a power of ten and without idle zeros."""
    text = f"{float(f'{value:.6g}'):.12f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def allowed(one: Asked, timbers: Sequence[Species] = ()) -> str:
    """What may be typed for one key, in words."""
    if one.species:
        names = [slug_of(timber.name) for timber in timbers]
        return "a timber of timber.csv" + (f": {', '.join(names[:_MANY_NAMES])}" if names else "")
    if one.words:
        return " or ".join(one.words)
    return f"{plain(one.low)} to {plain(one.high)} {one.unit}".rstrip()


def _pairs(reading: _Reading, typed: Sequence[str], keys: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Key and value of each word, each key once; what is no pair of a known key is kept as a fault."""
    seen: set[str] = set()
    for word in typed:
        key, equals, value = (part.strip() for part in word.partition("="))
        place, written, way = reading.place(key or "="), WHOLE, "taking out one of the two"
        if key not in keys:
            bare = not equals and key[:1].isdigit()
            near = next((name for name in keys if name not in {*seen, *reading.told}), "") if bare else ""
            near = near or nearest_name(key, keys)
            reading.told.add(near)
            found, may_be = ("an unknown key" if equals else "no key=value"), f"key=value with {', '.join(keys)}"
            written, way = shown(word) or "the word", f"{near}={shown(key if bare else value) or '…'}"
        elif not value:
            reading.told.add(key)
            found, may_be, way = ("empty" if equals else "not given"), f"{key}=value", f"{key}=…"
        elif key in seen:
            found, may_be = f"given again ({said(value)})", "each key once"
        else:
            seen.add(key)
            yield key, value
            continue
        reading.faults.append(Fault(place, written, found, may_be, way))


def _example(one: Asked, timbers: Sequence[Species]) -> str:
    if one.species:
        return slug_of(timbers[0].name) if timbers else "western-redcedar"
    return one.words[0] if one.words else plain(one.low)


def _bounds(one: Asked) -> tuple[Fraction, Fraction]:
    return Fraction(str(one.low)), Fraction(str(one.high))


def _number(written: str, one: Asked) -> Fraction:
    """The number that was written.

    Raises:
        Unread: it is no bare decimal; the candidates are what it may have been meant as, within the key's range.
    """
    text = " ".join(written.replace("−", "-").split())
    if _BARE.fullmatch(text) and len(text) <= LONGEST:
        return Fraction(text.removesuffix("."))
    try:
        meant = _meant(text, one)
    except Unread as unread:
        ways = [_nearest(way, one) for way in unread.candidates]
        raise Unread(unread.found, *filter(None, ways)) from None
    raise Unread("only a number belongs here", plain(_clamped(meant, one)))


def _meant(text: str, one: Asked) -> Fraction:
    """A measure of any unit that fits, in the key's own; a bare number is taken to be in that unit.

    Raises:
        Unread: it is no such measure.
    """
    if _BARE.fullmatch(text) and len(text) <= LONGEST:
        return Fraction(text.removesuffix("."))
    kind, unit = _scale_of(one.unit)
    return measure(kind, text).value / unit.factor + unit.zero


def _nearest(text: str, one: Asked) -> str:
    """The number in the key's range that is nearest to what `text` means; "" if it means nothing."""
    try:
        return plain(_clamped(_meant(text, one), one))
    except Unread:
        return ""


def _clamped(value: Fraction, one: Asked) -> float:
    low, high = _bounds(one)
    return float(min(max(value, low), high))


def _scale_of(name: str) -> tuple[str, Unit]:
    """The kind of quantity and the unit behind a key's unit; for a unit that no file has, plain numbers."""
    wanted = name.casefold().removeprefix("°")
    for kind, scale in SCALES.items():
        for unit in scale.units:
            if wanted and (wanted == unit.name.casefold() or wanted in unit.names) and kind != "share":
                return kind, unit
    return "share", SCALES["share"].base
