"""Lengths, masses, times and the like as people write them: `9 ft 2 in`, `1 1/4 in`, `6.5 mm`, `64 F`, `1 h 30 min`.

A small exact grammar of our own. A measure is one term, or several terms in falling units (feet and inches, pounds
and ounces, days, hours and minutes); a term is a number and a unit; a number is a decimal with a dot, a fraction, or
a whole number and a fraction. A bare decimal is in the base unit of its kind. All sums are in fractions, so nothing
is rounded. Text over 60 characters is not looked at, so that no text takes long.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from generator.inputs.units import SCALES, Scale, Unit, say

LONGEST = 60

_NUMBER = re.compile(
    r"(?:(?P<whole>[0-9]+)[ ]+)?(?P<over>[0-9]+)[ ]*/[ ]*(?P<under>[0-9]+)|(?P<plain>[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
)
_UNITS: Mapping[str, re.Pattern[str]] = MappingProxyType(
    {
        scale.kind: re.compile(
            "(?:"
            + "|".join(
                sorted((re.escape(n) for u in scale.units for n in u.names), key=lambda word: (-len(word), word))
            )
            + r")(?![^\W0-9_])"
        )
        for scale in SCALES.values()
    }
)


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure as read: `value` in the base unit of its kind, `unit` the name of the greatest unit written."""

    value: Fraction
    unit: str


class Unread(ValueError):
    """Text that is no measure. `found` says why, `candidates` are ways it may have been meant, best first."""

    def __init__(self, found: str, *candidates: str) -> None:
        super().__init__(found)
        self.found = found
        self.candidates = candidates


def measure(kind: str, written: object) -> Measure:
    """The measure that `written` (text or number) means.

    Raises:
        Unread: it is no measure of this kind.
    """
    if isinstance(written, (int, float, Fraction)) and not isinstance(written, bool):
        if not math.isfinite(written):
            raise Unread("not a finite number")
        return Measure(Fraction(str(written)), "")
    if not isinstance(written, str):
        raise Unread("not a number")
    text = " ".join(written.replace("−", "-").split())
    if not text:
        raise Unread("empty")
    if len(text) > LONGEST:
        raise Unread(f"{len(text)} characters long")
    return _read(SCALES[kind], text)


def _read(scale: Scale, text: str) -> Measure:
    """`text`, already short and with single spaces, as a measure."""
    _refuse_lookalikes(scale, text)
    body = text.casefold()
    sign = -1 if body.startswith("-") else 1
    body = body[1:].lstrip() if body[:1] in {"+", "-"} else body
    terms = _terms(scale, body)
    if len(terms) > 1:
        _check_falling(scale, terms)
        if sign < 0:
            raise Unread("a minus before several units")
    value = sum(((number * sign - unit.zero) * unit.factor for number, unit in terms), Fraction(0))
    return Measure(value, terms[0][1].name)


def _refuse_lookalikes(scale: Scale, text: str) -> None:
    """Refuse what other programs would take for a number, with the way to write it."""
    if re.search(r"[0-9],[0-9]", text):
        dotted = text.replace(",", ".")
        grouped = re.fullmatch(r"[+-]?[0-9]{1,3}(?:,[0-9]{3})+(?![0-9,]).*", text)
        ways = [dotted] if text.count(",") == 1 else []
        raise Unread("written with a comma", *ways, *([text.replace(",", "")] if grouped else []))
    power = re.match(r"([+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+))e([+-]?[0-9]{1,3})(.*)", text, re.IGNORECASE)
    if power:
        exponent = int(power[2])
        ways = [f"{Decimal(power[1]).scaleb(exponent):f}{power[3]}"] if abs(exponent) <= 6 else []
        raise Unread("written with an exponent", *ways)
    if re.fullmatch(r"[+-]?\.?(?:nan|inf|infinity)\b.*", text, re.IGNORECASE):
        raise Unread("not a finite number")
    if scale.kind != "share" and re.fullmatch(r"[+-]?(?:[0-9]+ )?[0-9]+ ?/ ?[0-9]+", text):
        ways = [f"{text} in"] if scale.kind == "length" else []
        raise Unread("a fraction without its unit", *ways)


def _terms(scale: Scale, body: str) -> list[tuple[Fraction, Unit]]:
    """Numbers and units of `body` in the order written."""
    terms: list[tuple[Fraction, Unit]] = []
    at = 0
    while at < len(body) or not terms:
        number = _NUMBER.match(body, at)
        if not number:
            raise Unread("no measure" if not terms else "followed by something else")
        at = _past_spaces(body, number.end())
        unit = _UNITS[scale.kind].match(body, at) if len(scale.units) > 1 or scale.base.names else None
        if unit:
            at = _past_spaces(body, unit.end())
            terms.append((_value(number), _named(scale, unit[0])))
        elif terms or at < len(body):
            raise Unread("without a unit that is known here", f"{number[0]} {scale.base.name}".rstrip())
        else:
            terms.append((_value(number), scale.base))
    return terms


def _past_spaces(body: str, at: int) -> int:
    while at < len(body) and body[at] == " ":
        at += 1
    return at


def _named(scale: Scale, written: str) -> Unit:
    return next(unit for unit in scale.units if written in unit.names)


def _value(number: re.Match[str]) -> Fraction:
    """The number that was matched.

    Raises:
        Unread: a fraction has 0 below the line, or is 1 or more after a whole number.
    """
    if number["plain"] is not None:
        return Fraction(number["plain"] if not number["plain"].endswith(".") else number["plain"][:-1])
    over, under = int(number["over"]), int(number["under"])
    if under == 0:
        raise Unread("a fraction with 0 below the line")
    if number["whole"] is not None and over >= under:
        raise Unread("a whole number with a fraction that is not below 1")
    return int(number["whole"] or 0) + Fraction(over, under)


def _check_falling(scale: Scale, terms: list[tuple[Fraction, Unit]]) -> None:
    """Refuse terms that do not fall unit by unit, with all but the last whole and each below one of the unit before."""
    for (number, greater), (rest, smaller) in itertools.pairwise(terms):
        if smaller.part_of != greater.name:
            raise Unread("a mixture of units that do not belong together")
        if number.denominator != 1:
            raise Unread(f"a part of a {greater.name} with {smaller.name} after it")
        if rest * smaller.factor >= greater.factor:
            total = sum((part * unit.factor for part, unit in terms), Fraction(0))
            found = f"more {smaller.name} than make a whole {greater.name}"
            raise Unread(found, say(scale.kind, total, terms[0][1].name, "down"))
