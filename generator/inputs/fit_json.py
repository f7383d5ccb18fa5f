"""A JSON document against a model; places are told as paths, since those who write JSON count from 0."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import ValidationError

from generator.inputs.fault import Fault, shown
from generator.inputs.fields import Kind, Part, Text, misfit
from generator.inputs.fit import Error, Fitted, Partial, salvage
from generator.inputs.hints import allowed_by, hint_at, item_in, key_of, keys_of, model_in
from generator.inputs.read import Document
from generator.inputs.read_json import as_number, path_of
from generator.inputs.words import Loc

P = TypeVar("P", bound=Part)
MOST_ERRORS = 500


def said(value: object) -> str:
    """A JSON value in words, for "is …"."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        return f'the text "{shown(value)}"'
    if isinstance(value, dict):
        return "an object"
    return "a list" if isinstance(value, list) else plain(value)


def plain(number: Any) -> str:
    """A number as briefly as it can be told."""
    return f"{number + 0:.10g}"


@dataclass(frozen=True)
class Number(Kind):
    """A number from `low` to `high`, written without a unit."""

    low: float
    high: float

    def read(self, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            meant = as_number(value.strip()) if isinstance(value, str) else None
            fits = meant is not None and self.low <= meant <= self.high
            raise misfit(said(value), self.allowed(), plain(meant) if fits else "")
        if not self.low <= value <= self.high or not math.isfinite(value):
            raise misfit(plain(value), self.allowed(), plain(self.low if value < self.low else self.high))
        return float(value)

    def allowed(self) -> str:
        """The range in words."""
        return f"a number from {plain(self.low)} to {plain(self.high)}"

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True)
class Name(Text):
    """Text that a JSON file calls something by."""

    def read(self, value: Any) -> str:
        if not isinstance(value, str):
            number = isinstance(value, (int, float)) and not isinstance(value, bool)
            raise misfit(said(value), self.allowed(), f'"{plain(value)}"' if number else "")
        return Text.read(self, value)


def fit_json(model: type[P], document: Document) -> Fitted[P]:
    """`document` as `model`; its faults have the form of all others, of very many the first."""
    data = document.data
    if not isinstance(data, dict):
        fault = Fault(document.at(()), "the file", said(data), _allowed(model), "")
        faults = document.faults if () in document.unsound else (*document.faults, fault)
        return Fitted(document, None, Partial({}), faults)
    errors: list[Error] = []
    try:
        good = model.model_validate(data, by_alias=True, by_name=False)
        if not document.faults:
            return Fitted(document, good, good, ())
    except ValidationError as error:
        errors = [(tuple(found["loc"]), found) for found in error.errors(include_url=False) if _stands(found)]
    faults = (*document.faults, *_faults(model, document, errors[:MOST_ERRORS]))
    if len(errors) > MOST_ERRORS:
        return Fitted(document, None, Partial({}), faults)
    bad = document.unsound | {loc for loc, _ in errors}
    prefixes = frozenset(loc[:length] for loc in bad for length in range(len(loc) + 1))
    return Fitted(document, None, salvage(model, data, bad, prefixes), faults)


def _stands(error: Mapping[str, Any]) -> bool:
    """False for a list called too short only because some of its entries are bad."""
    return bool(error["type"] != "too_short" or len(error["input"]) < error["ctx"]["min_length"])


def _faults(model: type[Part], document: Document, errors: list[Error]) -> Iterator[Fault]:
    """One fault for each error; a key that is not known and the missing one that it was meant to be are one."""
    missing = {loc for loc, error in errors if error["type"] == "missing"}
    meant: set[Loc] = set()
    for loc, error in errors:
        if error["type"] == "extra_forbidden":
            group = model_in(hint_at(model, loc[:-1]))
            known = keys_of(group) if group else ()
            absent = [str(place[-1]) for place in missing - meant if place[:-1] == loc[:-1]]
            near = _most_like(str(loc[-1]), absent, 0.4) or _most_like(str(loc[-1]), known, 0.5)
            meant.add((*loc[:-1], near))
            yield Fault(document.at(loc), f"the key {path_of(loc)}", "not known", ", ".join(known), near)
    for loc, error in errors:
        if error["type"] == "extra_forbidden" or loc in meant:
            continue
        if not any(loc[:length] in document.unsound for length in range(len(loc) + 1)):
            yield _fault(model, document, loc, error)


def _most_like(written: str, names: Sequence[str], cutoff: float) -> str:
    """The name that is most like `written`, or ""."""
    folded = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(written[:80].casefold(), list(folded), n=1, cutoff=cutoff)
    return folded[close[0]] if close else ""


def _allowed(hint: Any) -> str:
    """What `hint` allows, in words; of an object the keys that it must have."""
    item = item_in(hint)
    group = model_in(hint if item is None else item)
    if group is None:
        return "a list of numbers" if item is not None else allowed_by(hint)
    needed = ", ".join(key_of(name, info) for name, info in group.model_fields.items() if info.is_required())
    return f"an object with {needed}" if item is None else f"a list of objects, each with {needed}"


def _fault(model: type[Part], document: Document, loc: Loc, error: Mapping[str, Any]) -> Fault:
    place, name, context = document.at(loc), path_of(loc), error.get("ctx", {})
    if error["type"] == "misfit":
        return Fault(place, name, context["found"], context["allowed"], context["nearest"])
    if error["type"] in {"too_short", "too_long"}:
        short = error["type"] == "too_short"
        most = context["min_length" if short else "max_length"]
        allowed = f"{'at least' if short else 'at most'} {most} {'entry' if most == 1 else 'entries'}"
        way = "adding what is missing" if short else f"leaving out {len(error['input']) - most}"
        return Fault(place, name, f"a list of {len(error['input'])}", allowed, way)
    allowed = _allowed(hint_at(model, loc))
    if error["type"] == "missing":
        return Fault(place, name, "missing", allowed, f"adding the key {shown(loc[-1])}")
    return Fault(place, name, said(error["input"]), allowed, "")
