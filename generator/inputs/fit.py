"""A document against a model: the finished model, or all the faults of its fields and what is sound of the rest."""

from __future__ import annotations

import difflib
import functools
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.inputs.fault import Fault, shown
from generator.inputs.fields import Part, said
from generator.inputs.hints import allowed_by, hint_at, hint_of, item_in, key_of, keys_of, model_in, value_in
from generator.inputs.read import Document
from generator.inputs.words import Loc, describe, real

P = TypeVar("P", bound=Part)
Error = tuple[Loc, Mapping[str, Any]]
_NOTHING = object()


class UnsoundError(Exception):
    """A check asked for a field that is not there or not good; the check is left out."""


class Partial:
    """What is sound of a model: attributes as in the model, and `UnsoundError` for those that are not sound."""

    def __init__(self, sound: Mapping[str, Any]) -> None:
        self.__dict__.update(sound)

    def __getattr__(self, name: str) -> Any:
        raise UnsoundError(name)


@dataclass(frozen=True, slots=True)
class Fitted(Generic[P]):
    """`model` if all is well, else None; `sound` is the model or what can be used of it; `faults` is what is wrong."""

    document: Document
    model: P | None
    sound: Any
    faults: tuple[Fault, ...]


def fit(model: type[P], document: Document) -> Fitted[P]:
    """`document` as `model`, by the keys of the file."""
    if not isinstance(document.data, dict):
        found = "empty" if document.data is None else said(document.data)
        allowed = f"fields by name: {', '.join(keys_of(model))}"
        fault = Fault(document.at(()), "the file", found, allowed, "starting from a copy of a demo file")
        faults = document.faults if () in document.unsound else (*document.faults, fault)
        return Fitted(document, None, Partial({}), faults)
    data = _without_blanks(model, document.data)
    errors: list[Error] = []
    try:
        good = model.model_validate(data, by_alias=True, by_name=False)
        if not document.faults:
            return Fitted(document, good, good, ())
    except ValidationError as error:
        errors = [(real(tuple(found["loc"])), found) for found in error.errors(include_url=False) if _stands(found)]
    meant = _meant(model, errors)
    bad = document.unsound | {loc for loc, _ in errors} | {(*loc[:-1], name) for loc, name in meant.items()}
    prefixes = frozenset(loc[:length] for loc in bad for length in range(len(loc) + 1))
    faults = (*document.faults, *_faults(model, document, errors, meant))
    return Fitted(document, None, salvage(model, data, bad, prefixes), faults)


def _stands(error: Mapping[str, Any]) -> bool:
    """False for a list called too short only because some of its entries are bad."""
    return bool(error["type"] != "too_short" or len(error["input"]) < error["ctx"]["min_length"])


def _without_blanks(model: type[Part], data: Mapping[str, Any]) -> dict[str, Any]:
    """`data` without the keys that may be missing and have nothing after them."""
    optional = {key_of(name, info) for name, info in model.model_fields.items() if not info.is_required()}
    return {key: value for key, value in data.items() if not (value is None and key in optional)}


def _meant(model: type[Part], errors: Iterable[Error]) -> dict[Loc, str]:
    """For each key that is not known the name that was most likely meant, missing ones first; "" if none is like it."""
    missing: dict[Loc, list[str]] = {}
    for loc, error in errors:
        if error["type"] == "missing":
            missing.setdefault(loc[:-1], []).append(str(loc[-1]))
    meant: dict[Loc, str] = {}
    for loc, error in errors:
        if error["type"] == "extra_forbidden":
            group = model_in(hint_at(model, loc[:-1]))
            known = keys_of(group) if group else ()
            written = str(loc[-1])[:80].casefold().replace(" ", "_").replace("-", "_")
            close = difflib.get_close_matches(written, missing.get(loc[:-1], []), n=1, cutoff=0.55)
            close = close or difflib.get_close_matches(written, known, n=1, cutoff=0.5)
            meant[loc] = close[0] if close else ""
    return meant


def _faults(
    model: type[Part], document: Document, errors: Iterable[Error], meant: Mapping[Loc, str]
) -> Iterator[Fault]:
    """One fault for each error; a key that is not known and the missing one that it was meant to be are one."""
    covered = {(*loc[:-1], name) for loc, name in meant.items()}
    halves = {loc: half for loc in meant if (half := _before_comma(document, loc))}
    for loc, error in errors:
        if loc in halves.values() or any(loc[:length] in document.unsound for length in range(len(loc) + 1)):
            continue
        if loc in halves:
            yield _split_by_comma(document, halves[loc], loc)
        elif loc in meant:
            yield _unknown(model, document, loc, meant[loc])
        elif error["type"] != "missing":
            yield _misfit(model, document, loc, error)
        elif loc not in covered:
            allowed = allowed_by(hint_at(model, loc))
            yield Fault(document.at(loc), describe(loc), "missing", allowed, f"adding the line `{loc[-1]}: …`")


def _unknown(model: type[Part], document: Document, loc: Loc, meant: str) -> Fault:
    group = model_in(hint_at(model, loc[:-1]))
    owner = f" of {describe(loc[:-1])}" if loc[:-1] else ""
    allowed = ", ".join(keys_of(group)) if group else "no keys"
    return Fault(document.at(loc), f"the key `{shown(loc[-1])}`{owner}", "not known", allowed, meant or "taking it out")


def _before_comma(document: Document, loc: Loc) -> Loc | None:
    """The field that a key which is not known is the rest of: `{height: 1,5}` means a height of 1 and a key `5`."""
    group = _value_at(document, loc[:-1])
    keys = list(group)
    at = keys.index(loc[-1])
    is_rest = at > 0 and group[loc[-1]] is None and re.match("[0-9]", str(loc[-1]))
    return (*loc[:-1], keys[at - 1]) if is_rest else None


def _split_by_comma(document: Document, loc: Loc, rest: Loc) -> Fault:
    before, after = shown(_value_at(document, loc)), shown(rest[-1])
    found = f"{before},{after} (written with a comma)"
    return Fault(document.at(rest), describe(loc), found, "decimals with a dot", f"{before}.{after}")


def _value_at(document: Document, loc: Loc) -> Any:
    value: Any = document.data
    for part in loc:
        value = value[part]
    return value


def _misfit(model: type[Part], document: Document, loc: Loc, error: Mapping[str, Any]) -> Fault:
    context = error.get("ctx", {})
    place, name = document.at(loc), describe(loc)
    if error["type"] == "misfit":
        return Fault(place, name, context["found"], context["allowed"], context["nearest"])
    if error["type"] in {"too_short", "too_long"}:
        short = error["type"] == "too_short"
        most = context["min_length" if short else "max_length"]
        allowed = f"{'at least' if short else 'at most'} {most} {'entry' if most == 1 else 'entries'}"
        nearest = "adding what is missing" if short else "leaving out what matters least"
        return Fault(place, name, f"a list of {len(error['input'])}", allowed, nearest)
    return Fault(place, name, said(error["input"]), allowed_by(hint_at(model, loc)), "the form of a demo file")


def salvage(
    model: type[BaseModel], data: Mapping[str, Any], bad: frozenset[Loc], prefixes: frozenset[Loc], loc: Loc = ()
) -> Partial:
    """What of `data` is sound, where `bad` are the places of errors and `prefixes` all places at or above one."""
    sound: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        key = key_of(name, info)
        place = (*loc, key)
        if key in data:
            value = _sound_value(hint_of(info), data[key], bad, prefixes, place)
            if value is not _NOTHING:
                sound[name] = value
        elif not info.is_required() and place not in bad:
            sound[name] = info.get_default(call_default_factory=True, validated_data={})
    return Partial(sound)


def _sound_value(hint: Any, value: Any, bad: frozenset[Loc], prefixes: frozenset[Loc], loc: Loc) -> Any:
    if loc in bad:
        return _NOTHING
    if loc not in prefixes:
        return _adapter(hint).validate_python(value, by_alias=True, by_name=False)
    group, item, inner = model_in(hint), item_in(hint), value_in(hint)
    if group is not None and isinstance(value, dict):
        return salvage(group, value, bad, prefixes, loc)
    if item is not None and model_in(item) is not None and isinstance(value, list):
        entries = (_sound_value(item, entry, bad, prefixes, (*loc, at)) for at, entry in enumerate(value))
        return tuple(Partial({}) if entry is _NOTHING else entry for entry in entries)
    if inner is not None and isinstance(value, dict):
        kept = {name: _sound_value(inner, entry, bad, prefixes, (*loc, name)) for name, entry in value.items()}
        return {name: Partial({}) if entry is _NOTHING else entry for name, entry in kept.items()}
    return _NOTHING


@functools.cache
def _adapter(hint: Any) -> TypeAdapter[Any]:
    return TypeAdapter(hint)
