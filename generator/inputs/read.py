"""YAML text into plain values that keep their lines; whatever could hurt or mislead is refused on the way.

The parser's events are looked at one by one: nothing is composed or constructed by the YAML library. Size, depth,
number of values, encoding, control characters, syntax and several documents end the reading; anchors, aliases, tags,
repeated keys and unusual numbers are reported together with the faults of the fields.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, NoReturn

import yaml

from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import MARK, bad_character
from generator.inputs.measure import Unread, measure
from generator.inputs.scalar import resolved, unusual_number
from generator.inputs.words import Loc, describe

MOST_BYTES = 64 * 1024
DEEPEST = 50
MOST_VALUES = 5000
AGAIN = f"{MARK}again"


@dataclass(frozen=True, slots=True)
class Document:
    """One file: `data` as plain values, and the line of each place in it.

    `faults` are those that reading could go on after; `unsound` are the places that they spoil.
    """

    place: str
    data: Any
    lines: Mapping[Loc, int]
    faults: tuple[Fault, ...]
    unsound: frozenset[Loc]

    def at(self, loc: Loc) -> str:
        """As in "boards/heron.yaml:7": the file and the line of `loc`, or of the nearest place above it."""
        while loc and loc not in self.lines:
            loc = loc[:-1]
        return f"{self.place}:{self.lines.get(loc, 1)}"


def read_document(raw: bytes, place: str) -> Document:
    """The one document in `raw`.

    Raises:
        BadInput: the file can't be read any further.
    """
    text = _text_of(raw, place)
    tree = _Tree(place)
    line = 1
    try:
        for event in yaml.parse(text, Loader=yaml.SafeLoader):
            line = event.start_mark.line + 1 if event.start_mark else line
            tree.take(event, line)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark
        _stop(place, line if mark is None else mark.line + 1, *_syntax(error))
    except (yaml.YAMLError, ValueError, OverflowError):
        _stop(place, line, "not readable as YAML from here on", "YAML 1.2 without unusual escapes", "")
    return Document(place, tree.data, tree.lines, tuple(tree.faults), frozenset(tree.unsound))


def _stop(place: str, line: int, found: str, allowed: str, nearest: str, *, name: str = "the file") -> NoReturn:
    raise BadInput([Fault(f"{place}:{line}", name, found, allowed, nearest)])


def _syntax(error: yaml.MarkedYAMLError) -> tuple[str, str, str]:
    problem = shown(error.problem or error.context or "unreadable")
    return f"no YAML here ({problem})", "lines like `key: value`, lists like `- item`", "a text editor that checks YAML"


def _text_of(raw: bytes, place: str) -> str:
    """The text of the file, with no character that could hide something."""
    if len(raw) > MOST_BYTES:
        most = f"{MOST_BYTES // 1024} KiB"
        _stop(place, 1, f"over {most} long", f"up to {most}", "leaving out long comments")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        _stop(place, line, "not in UTF-8 here", "text saved as UTF-8", "saving it again with the encoding UTF-8")
    text = text.replace("\r\n", "\n")
    for number, line_text in enumerate(text.split("\n"), 1):
        if "\t" in line_text:
            _stop(place, number, "a tab", "spaces", "two spaces instead", name="a character in this line")
        bad = bad_character(line_text) or next((c for c in line_text if unicodedata.category(c) == "Cn"), "")
        if bad:
            found = f"the control character U+{ord(bad):04X}"
            _stop(place, number, found, "text without control characters", "", name="a character in this line")
    return text


@dataclass(slots=True)
class _Open:
    """A mapping or list that is being filled."""

    loc: Loc
    items: dict[str, Any] | list[Any]
    line: int
    key: str | None = None


@dataclass(slots=True)
class _Tree:
    """Takes the parser's events one after another and keeps what they say."""

    place: str
    data: Any = None
    lines: dict[Loc, int] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    unsound: set[Loc] = field(default_factory=set)
    stack: list[_Open] = field(default_factory=list)
    values: int = 0
    documents: int = 0

    def take(self, event: yaml.Event, line: int) -> None:
        """One event."""
        if isinstance(event, yaml.DocumentStartEvent):
            self._start_document(event, line)
        elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
            self.stack.pop()
        elif isinstance(event, yaml.NodeEvent):
            self.values += 1
            if self.values > MOST_VALUES:
                self._stop(line, f"longer than {MOST_VALUES} values", f"up to {MOST_VALUES} values")
            self._node(event, line)

    def _start_document(self, event: yaml.DocumentStartEvent, line: int) -> None:
        self.documents += 1
        if self.documents > 1:
            self._stop(line, "made of more than one document", "one document", "taking out the line `---`")
        if event.version or event.tags:
            self._stop(line, "begun with a % line", "no lines that begin with %", "taking them out")

    def _node(self, event: yaml.NodeEvent, line: int) -> None:
        top = self.stack[-1] if self.stack else None
        if top is not None and isinstance(top.items, dict) and top.key is None:
            self._key(top, event, line)
            return
        loc = self._next_loc(top, line)
        self._refuse_marks(event, loc, line)
        if isinstance(event, yaml.ScalarEvent):
            self._put(top, self._scalar(event, loc, line))
        elif isinstance(event, yaml.AliasEvent):
            self._put(top, None)
        else:
            self._open(top, loc, event, line)

    def _open(self, top: _Open | None, loc: Loc, event: yaml.NodeEvent, line: int) -> None:
        if len(self.stack) >= DEEPEST:
            self._stop(line, f"nested deeper than {DEEPEST}", f"nesting of up to {DEEPEST}")
        items: dict[str, Any] | list[Any] = {} if isinstance(event, yaml.MappingStartEvent) else []
        self._put(top, items)
        self.stack.append(_Open(loc, items, line))

    def _key(self, top: _Open, event: yaml.NodeEvent, line: int) -> None:
        if not isinstance(event, yaml.ScalarEvent):
            self._stop(line, "broken by a list or group as a key", "keys that are names", "quotes round it")
        self._refuse_marks(event, (*top.loc, str(event.value)), line)
        if bad_character(event.value):
            self._stop(line, "spoilt by a key with a control character", "keys that are names", "typing the key again")
        top.key = event.value
        top.line = line

    def _next_loc(self, top: _Open | None, line: int) -> Loc:
        """Where the next value goes; a second value under the same key is set aside."""
        if top is None:
            loc: Loc = ()
        elif isinstance(top.items, list):
            loc = (*top.loc, len(top.items))
        else:
            assert top.key is not None
            loc, line = (*top.loc, top.key), top.line
            if top.key in top.items:
                found = f"given again (first in line {self.lines[loc]})"
                self._fault(line, f"the key `{shown(loc[-1])}`", found, "each key once", "taking out one of the two")
                self.unsound.add(loc)
                loc = (*loc, AGAIN)
                top.key = AGAIN
        self.lines[loc] = line
        return loc

    def _put(self, top: _Open | None, value: Any) -> None:
        if top is None:
            self.data = value
        elif isinstance(top.items, list):
            top.items.append(value)
        else:
            if top.key != AGAIN:
                top.items[str(top.key)] = value
            top.key = None

    def _scalar(self, event: yaml.ScalarEvent, loc: Loc, line: int) -> Any:
        text = str(event.value)
        value: Any = text
        if event.style in {None, ""}:
            try:
                value = resolved(text)
            except ValueError as error:
                self._spoil(loc, line, str(error), "a number of up to 40 characters", "")
                return text
            if unusual_number(text):
                self._spoil(loc, line, shown(text), "a plain number, written out", next(_written_out(text), ""))
        return value

    def _refuse_marks(self, event: yaml.NodeEvent, loc: Loc, line: int) -> None:
        allowed, nearest = "plain values", "writing the value out"
        if isinstance(event, yaml.AliasEvent):
            self._spoil(loc, line, f"an alias (*{shown(event.anchor)})", allowed, nearest)
        elif event.anchor is not None:
            self._spoil(loc, line, f"marked with an anchor (&{shown(event.anchor)})", allowed, nearest)
        tag = getattr(event, "tag", None)
        if tag is not None:
            self._spoil(loc, line, f"marked with a tag ({shown(tag)})", allowed, "taking out the mark with !")

    def _spoil(self, loc: Loc, line: int, found: str, allowed: str, nearest: str) -> None:
        self.unsound.add(loc)
        self._fault(line, describe(loc), found, allowed, nearest)

    def _fault(self, line: int, name: str, found: str, allowed: str, nearest: str) -> None:
        self.faults.append(Fault(f"{self.place}:{line}", name, found, allowed, nearest))

    def _stop(self, line: int, found: str, allowed: str, nearest: str = "") -> NoReturn:
        faults = [*self.faults, Fault(f"{self.place}:{line}", "the file", found, allowed, nearest)]
        raise BadInput(faults)


def _written_out(text: str) -> Iterator[str]:
    """Ways to write the number `text` without an exponent."""
    try:
        measure("length", text)
    except Unread as unread:
        yield from unread.candidates
