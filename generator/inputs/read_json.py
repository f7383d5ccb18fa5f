"""JSON text into plain values that keep their lines, in the grammar of RFC 8259 (2017).

YAML readers stumble over real JSON: tabs, `1e8`, pairs of \\u escapes. Python's own reader keeps no lines, takes NaN
and numbers beyond the floating-point range, and lets the last of two equal keys win.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, NoReturn

from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import MARK
from generator.inputs.read import AGAIN, DEEPEST, Document
from generator.inputs.words import Loc

MOST_BYTES = 4 * 1024 * 1024
MOST_VALUES = 200_000
MOST_FAULTS = 100
LONGEST_INT = 15

_TOKEN = re.compile(
    r'[ \t\r\n]*+([\[\]{},:]|"[^"\\\x00-\x1f]*+(?:\\[^\x00-\x1f][^"\\\x00-\x1f]*+)*+"|[^\s\[\]{},:"]++)?'
)
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_WORDS = {"true": True, "false": False, "null": None}


def path_of(loc: Loc) -> str:
    """A place inside a file as programs write it, lists counted from 0: `cases[0].input.supports[1].x_mm`."""
    parts = (part for part in loc if not str(part).startswith(MARK))
    path = "".join(f"[{part}]" if isinstance(part, int) else f".{shown(part)}" for part in parts)
    return path.removeprefix(".") or "the file"


def first_of(faults: Sequence[Fault], *, more: bool = False) -> list[Fault]:
    """The first faults of one file, and word if there are more of them."""
    ordered = list(BadInput(faults).faults)
    if len(ordered) <= MOST_FAULTS and not more:
        return ordered
    found = f"wrong in more places than these {MOST_FAULTS}"
    rest = Fault(ordered[:MOST_FAULTS][-1].place, "the file", found, "what the other lines say", "mending those first")
    return [*ordered[:MOST_FAULTS], rest]


def read_json(raw: bytes, place: str) -> Document:
    """The one value in `raw`.

    Raises:
        BadInput: the file can't be read any further.
    """
    if len(raw) > MOST_BYTES:
        most = f"{MOST_BYTES // (1024 * 1024)} MiB"
        raise BadInput([Fault(f"{place}:1", "the file", f"over {most} long", f"up to {most}", "two files")])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        way = "saving it again with the encoding UTF-8"
        raise BadInput([Fault(f"{place}:{line}", "the file", "not in UTF-8 here", "text in UTF-8", way)]) from None
    reader = _Reader(text, place)
    data = reader.whole()
    return Document(place, data, reader.lines, tuple(reader.faults), frozenset(reader.unsound))


@dataclass(slots=True)
class _Reader:
    """Goes through the text once. `lines` holds a place only where its line is not that of the place above it."""

    text: str
    place: str
    at: int = 0
    start: int = 0
    line: int = 1
    depth: int = 0
    values: int = 0
    lines: dict[Loc, int] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    unsound: set[Loc] = field(default_factory=set)

    def whole(self) -> Any:
        """The value of the whole text."""
        token = self._next()
        if not token:
            self._stop("empty", "one JSON value", "")
        data = self._value(token, (), self.line, 1)
        if self._next():
            self._not_json("the end of the file")
        return data

    def _next(self) -> str:
        """The next token; "" at the end of the text."""
        found = _TOKEN.match(self.text, self.at)
        assert found is not None
        self.start = found.end() if found[1] is None else found.start(1)
        self.line += self.text.count("\n", self.at, self.start)
        self.at = found.end()
        if found[1] is None and self.at < len(self.text):
            char = self.text[self.at]
            unclosed = "text that ends with a double quote in the same line"
            self._not_json(unclosed if char == '"' else f"no U+{ord(char):04X} outside text")
        return found[1] or ""

    def _value(self, token: str, loc: Loc, line: int, line_above: int) -> Any:
        self.values += 1
        if self.values > MOST_VALUES:
            self._stop(f"longer than {MOST_VALUES} values", f"up to {MOST_VALUES} values", "two files")
        if line != line_above:
            self.lines[loc] = line
        if token in {"{", "["}:
            self.depth += 1
            if self.depth > DEEPEST:
                self._stop(f"nested deeper than {DEEPEST}", f"nesting of up to {DEEPEST}", "")
            items = self._group(loc, line) if token == "{" else self._list(loc, line)
            self.depth -= 1
            return items
        if token.startswith('"'):
            return self._text(token)
        if not token or token in "]},:":
            self._not_json("a value")
        return _WORDS[token] if token in _WORDS else self._number(token, loc)

    def _group(self, loc: Loc, line_above: int) -> dict[str, Any]:
        items: dict[str, Any] = {}
        token = self._next()
        while token != "}":
            if not token.startswith('"'):
                self._not_json("a key in double quotes" if items else "a key in double quotes or }")
            key, line = self._text(token), self.line
            place: Loc = (*loc, key)
            again = key in items
            if again:
                found = f"given again (first in line {self._line_of(place)})"
                self._spoil(place, f"the key {path_of(place)}", found, "each key once", "taking out one of the two")
                place = (*place, AGAIN)
            if self._next() != ":":
                self._not_json("a colon after the key")
            value = self._value(self._next(), place, line, line_above)
            if not again:
                items[key] = value
            token = self._after_item("}")
        return items

    def _list(self, loc: Loc, line_above: int) -> list[Any]:
        items: list[Any] = []
        token = self._next()
        while token != "]":
            items.append(self._value(token, (*loc, len(items)), self.line, line_above))
            token = self._after_item("]")
        return items

    def _after_item(self, closing: str) -> str:
        """The closing bracket, or the first token of the next item."""
        token = self._next()
        if token == closing:
            return token
        if token != ",":
            self._not_json(f"a comma or {closing}")
        token = self._next()
        if token in {"]", "}"}:
            self._not_json("another entry after the comma")
        return token

    def _text(self, token: str) -> str:
        if "\\" not in token:
            return token[1:-1]
        try:
            return str(json.loads(token))
        except ValueError:
            self._not_json('text whose backslashes stand before one of " \\ / b f n r t u')

    def _number(self, word: str, loc: Loc) -> int | float | None:
        if not loc:
            self._not_json("an object in {} or a list in []")
        good = _NUMBER.fullmatch(word)
        value = as_number(word)
        if good and value is not None:
            return value
        allowed = "a finite number like 0.5 or 1e8, text in double quotes, true, false or null"
        self._spoil(loc, path_of(loc), shown(word), allowed, "" if value is None else f"{value:.15g}")
        return None

    def _line_of(self, loc: Loc) -> int:
        while loc and loc not in self.lines:
            loc = loc[:-1]
        return self.lines.get(loc, 1)

    def _spoil(self, loc: Loc, name: str, found: str, allowed: str, nearest: str) -> None:
        if len(self.faults) == MOST_FAULTS:
            raise BadInput(first_of(self.faults, more=True))
        self.unsound.add(loc)
        self.faults.append(Fault(f"{self.place}:{self.line}", name, found, allowed, nearest))

    def _not_json(self, allowed: str) -> NoReturn:
        """Stop at the token that was read last."""
        column = self.start - self.text.rfind("\n", 0, self.start)
        rest = self.text[self.start : self.start + 20].split("\n")[0]
        self._stop(f"not JSON here (column {column}: {shown(rest) or 'the end'})", allowed, "")

    def _stop(self, found: str, allowed: str, nearest: str) -> NoReturn:
        raise BadInput([*self.faults, Fault(f"{self.place}:{self.line}", "the file", found, allowed, nearest)])


def as_number(word: str) -> int | float | None:
    """`word` as a finite number, if it is one in any common way of writing."""
    try:
        value = int(word) if len(word) <= LONGEST_INT and word.lstrip("-").isdecimal() else float(word)
    except ValueError:
        return None
    return value if math.isfinite(value) else None
