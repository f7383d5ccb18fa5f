"""The kinds of field that the input files have: each reads one value and says what is allowed and what is nearest.

They stand in `Annotated[...]` in the models. Each is a plain validator (no unions, so an error's place is a place in
the file) and gives its own, generous JSON Schema for editors.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from generator.inputs.fault import shown
from generator.inputs.measure import Unread, measure
from generator.inputs.units import SCALES, say

MARK = "\0"
_STEERING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")


class Part(BaseModel):
    """Base of all models: frozen, no unknown keys; files use the aliases, our own code the names with units."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_by_alias=True, validate_by_name=True)


def misfit(found: str, allowed: str, nearest: str = "") -> PydanticCustomError:
    """The error of a value that does not fit its field."""
    return PydanticCustomError("misfit", "{found}", {"found": found, "allowed": allowed, "nearest": nearest})


def nearest_name(written: object, names: Sequence[str]) -> str:
    """The known name that is most like what was written; the first one if none is like it, "" if there are none."""
    folded = {name.casefold(): name for name in reversed(names)}
    close = difflib.get_close_matches(str(written)[:80].casefold(), list(folded), n=1, cutoff=0.4)
    return folded[close[0]] if close else next(iter(names), "")


def said(value: object) -> str:
    """A typed value in words, for "is …"."""
    if value is None:
        return "empty"
    if isinstance(value, bool):
        return f"the YAML value {str(value).lower()}"
    if isinstance(value, (int, float, Fraction)):
        return shown(value)
    if isinstance(value, dict):
        return "a group of fields"
    if isinstance(value, (list, tuple)):
        return "a list"
    return shown(value) if str(value).strip() else "empty"


def bad_character(text: str) -> str:
    """The first character that may not stand in text that is shown (controls, text direction marks), or ""."""
    for char in text:
        if char != "\n" and (unicodedata.category(char) in {"Cc", "Cs", "Zl", "Zp"} or char in _STEERING):
            return char
    return ""


class Kind:
    """A kind of field; `read` turns the typed value into the kept one or raises `misfit`."""

    def read(self, value: Any) -> Any:
        """The value to keep."""
        raise NotImplementedError

    def allowed(self) -> str:
        """What may be typed, in words."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """JSON Schema of what may be typed."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return self.schema()


@dataclass(frozen=True)
class Quantity(Kind):
    """A number with a unit, between `low` and `high` in the base unit of `kind`."""

    kind: str
    low: float
    high: float

    def read(self, value: Any) -> float:
        try:
            got = measure(self.kind, value)
        except Unread as unread:
            way = next((text for text in unread.candidates if self._fits(text)), "")
            raise misfit(f"{said(value)} ({unread.found})", self.allowed(), way) from None
        if not self._holds(got.value):
            below = got.value < self._bounds[0]
            nearest = say(self.kind, self._bounds[not below], got.unit, "up" if below else "down")
            bare = "" if isinstance(value, str) and got.unit else f" {SCALES[self.kind].base.name}"
            raise misfit(f"{said(value)}{bare.rstrip()}", self.allowed(got.unit), nearest)
        return float(got.value)

    @property
    def _bounds(self) -> tuple[Fraction, Fraction]:
        return Fraction(str(self.low)), Fraction(str(self.high))

    def _holds(self, value: Fraction) -> bool:
        return self._bounds[0] <= value <= self._bounds[1]

    def _fits(self, text: str) -> bool:
        try:
            return self._holds(measure(self.kind, text).value)
        except Unread:
            return False

    def allowed(self, unit: str = "") -> str:
        """The range in words, in the unit that the person wrote."""
        low, high = self._bounds
        span = f"{say(self.kind, low, unit, 'up')} to {say(self.kind, high, unit, 'down')}"
        return span if unit else f"{span}, written like {SCALES[self.kind].example}"

    def schema(self) -> dict[str, Any]:
        return {
            "anyOf": [
                {"type": "number", "minimum": self.low, "maximum": self.high},
                {"type": "string", "minLength": 1, "maxLength": 60, "pattern": r"[0-9]"},
            ]
        }


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few words."""

    words: tuple[str, ...]

    def read(self, value: Any) -> str:
        if isinstance(value, str) and value in self.words:
            return value
        raise misfit(said(value), self.allowed(), nearest_name(value, self.words))

    def allowed(self) -> str:
        """The words in words."""
        return " or ".join(self.words) if len(self.words) < 3 else "one of " + ", ".join(self.words)

    def schema(self) -> dict[str, Any]:
        return {"enum": list(self.words)}


@dataclass(frozen=True)
class Text(Kind):
    """Words that people type: not empty, no control characters, at most `longest` characters."""

    longest: int = 80
    lines: bool = False

    def read(self, value: Any) -> str:
        if value is None:
            raise misfit("empty", self.allowed())
        if not isinstance(value, str):
            quoted = f'"{shown(value)}"' if isinstance(value, (int, float)) and not isinstance(value, bool) else ""
            raise misfit(said(value), "text (put it in quotes if it looks like a number)", quoted)
        text = value.strip() if self.lines else value.strip(" ")
        bad = bad_character(text) or ("\n" if "\n" in text and not self.lines else "")
        if bad:
            name = "a line break" if bad == "\n" else f"the character U+{ord(bad):04X}"
            clean = "".join(c for c in text if not bad_character(c))
            raise misfit(f"text with {name} in it", "text without control characters", shown(clean))
        if not text:
            raise misfit("empty", self.allowed())
        if len(text) > self.longest:
            raise misfit(f"{len(text)} characters long", self.allowed(), f"a text of {self.longest} characters")
        return text

    def allowed(self) -> str:
        """What may be typed, in words."""
        return f"text of 1 to {self.longest} characters"

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "minLength": 1, "maxLength": self.longest + 20}


@dataclass(frozen=True)
class Pattern(Text):
    """Text of a certain form, which `form` says in words; `mend` makes the nearest good one."""

    pattern: str = ""
    form: str = ""
    mend: Callable[[str], str] = str

    def read(self, value: Any) -> str:
        text = Text.read(self, value)
        if re.fullmatch(self.pattern, text):
            return text
        way = self.mend(text)
        raise misfit(shown(text), self.form, way if re.fullmatch(self.pattern, way) else "")

    def allowed(self) -> str:
        return self.form


@dataclass(frozen=True)
class Count(Kind):
    """A whole number from `low` to `high`."""

    low: int
    high: int

    def read(self, value: Any) -> int:
        if isinstance(value, (int, float)) and not isinstance(value, bool) and value == value:
            near = min(max(value, self.low), self.high)
            if value == near and int(value) == value:
                return int(value)
            raise misfit(said(value), self.allowed(), str(round(near)))
        raise misfit(said(value), self.allowed(), value if str(value).isdecimal() and len(str(value)) < 5 else "")

    def allowed(self) -> str:
        """The range in words."""
        return f"a whole number from {self.low} to {self.high}"

    def schema(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.low, "maximum": self.high}
