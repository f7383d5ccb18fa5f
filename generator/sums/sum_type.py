"""One sum that can be asked for by itself: what it takes, what it gives, where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from generator.figures import Kind
from generator.inputs.tables import Species


@dataclass(frozen=True, slots=True)
class Takes:
    """One thing that a sum takes: a number from `low` to `high` in `unit`, or one of `words`.

    `key` carries its unit ("width_mm"). `species` marks a name of the timber table. `usual` is taken where nothing is
    typed; None means that it must be typed.
    """

    key: str
    about: str
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    words: tuple[str, ...] = ()
    species: bool = False
    usual: float | str | None = None


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed, checked: numbers and words by key, the timber where one was named."""

    numbers: Mapping[str, float]
    words: Mapping[str, str]
    species: Species | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """The value with its range, in the sum's unit; without a range of its own, low and high are the value.

    `kind` is None where it is the sum's own; an answer that rests on something less certain says so.
    """

    value: float
    low: float
    high: float
    kind: Kind | None = field(default=None, kw_only=True)

    @classmethod
    def exact(cls, value: float) -> Answer:
        """A value without a range."""
        return cls(value, value, value)


class OutOfRange(ValueError):
    """Raised by a sum whose inputs each fit but not together; `key` is the one to change, `allowed` says to what."""

    def __init__(self, key: str, allowed: str, nearest: str) -> None:
        super().__init__(f"{key}: {allowed}")
        self.key, self.allowed, self.nearest = key, allowed, nearest


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum by name. `range_of_use` says in words where it holds."""

    name: str
    about: str
    takes: tuple[Takes, ...]
    unit: str
    kind: Kind
    source: str
    range_of_use: str
    does: Callable[[Typed], Answer]
