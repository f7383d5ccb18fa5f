"""What the models expect at a place inside a file, read off the models themselves."""

from __future__ import annotations

import collections.abc
import types
from collections.abc import Iterator
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from generator.inputs.fields import Kind
from generator.inputs.words import Loc


def key_of(name: str, info: FieldInfo) -> str:
    """The key in the file of the attribute `name`."""
    return info.alias or name


def keys_of(model: type[BaseModel]) -> tuple[str, ...]:
    """All keys that a group in the file may have."""
    return tuple(key_of(name, info) for name, info in model.model_fields.items())


def hint_of(info: FieldInfo) -> Any:
    """The full annotation of a field, limits included."""
    return Annotated[(info.annotation, *info.metadata)] if info.metadata else info.annotation


def members(hint: Any) -> Iterator[Any]:
    """The bare types that `hint` allows, without None."""
    origin = get_origin(hint)
    if origin is Annotated:
        yield from members(get_args(hint)[0])
    elif origin in {Union, types.UnionType}:
        for member in get_args(hint):
            yield from members(member)
    elif hint is not type(None):
        yield hint


def model_in(hint: Any) -> type[BaseModel] | None:
    """The model that `hint` asks for, if it asks for one."""
    return next((m for m in members(hint) if isinstance(m, type) and issubclass(m, BaseModel)), None)


def item_in(hint: Any) -> Any:
    """What each entry of the list that `hint` asks for must be; None if it asks for no list."""
    return next((get_args(m)[0] for m in members(hint) if get_origin(m) is tuple), None)


def value_in(hint: Any) -> Any:
    """What each value under a free name must be; None if `hint` asks for no such group."""
    mapping = collections.abc.Mapping
    return next((get_args(m)[1] for m in members(hint) if get_origin(m) is mapping), None)


def hint_at(model: type[BaseModel], loc: Loc) -> Any:
    """What is expected at `loc`; None where nothing is."""
    hint: Any = model
    for part in loc:
        group = model_in(hint)
        if isinstance(part, int):
            hint = item_in(hint)
        elif group is not None:
            fields = group.model_fields.items()
            hint = next((hint_of(info) for name, info in fields if key_of(name, info) == part), None)
        else:
            hint = value_in(hint)
        if hint is None:
            return None
    return hint


def allowed_by(hint: Any) -> str:
    """What `hint` allows, in words."""
    kind = _kind_in(hint)
    group, item = model_in(hint), item_in(hint)
    words = [kind.allowed()] if kind else []
    if item is not None:
        words.append(f"a list, each with {', '.join(keys_of(inner))}" if (inner := model_in(item)) else "a list")
    if group is not None:
        words.append(f"a group with {', '.join(keys_of(group))}")
    return " or ".join(words) or "names with a value each"


def _kind_in(hint: Any) -> Kind | None:
    if get_origin(hint) is Annotated:
        own = next((m for m in get_args(hint)[1:] if isinstance(m, Kind)), None)
        return own or _kind_in(get_args(hint)[0])
    if get_origin(hint) in {Union, types.UnionType}:
        return next(filter(None, map(_kind_in, get_args(hint))), None)
    return None
