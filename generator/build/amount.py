"""An amount with its range."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Amount:
    """A value with the lowest and the highest that it may be, all in one unit and none below 0.

    Raises:
        ValueError: not 0 ≤ low ≤ value ≤ high (nan included).
    """

    value: float
    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 <= self.low <= self.value <= self.high:
            raise ValueError(f"{self.value} is not within {self.low} to {self.high}, or below 0")

    @classmethod
    def exact(cls, value: float) -> Amount:
        """One value without a range."""
        return cls(value, value, value)

    def __add__(self, other: Amount) -> Amount:
        """Both together; the lows and the highs are taken to fall together."""
        return Amount(self.value + other.value, self.low + other.low, self.high + other.high)

    def times(self, other: Amount | float) -> Amount:
        """The product with another amount, or with a number that is not below 0."""
        by = other if isinstance(other, Amount) else Amount.exact(other)
        return Amount(self.value * by.value, self.low * by.low, self.high * by.high)
