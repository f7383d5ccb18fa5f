"""What a plain YAML scalar means: the core schema of YAML 1.2, in which `no` is a word and `010` is ten.

Source: YAML 1.2.2 (2021), section 10.3.2, tag resolution of the core schema (from memory).
"""

from __future__ import annotations

import re

LONGEST_NUMBER = 40

_NULL = frozenset({"", "~", "null", "Null", "NULL"})
_BOOL = {word: word.lower() == "true" for word in ("true", "True", "TRUE", "false", "False", "FALSE")}
_DECIMAL = re.compile(r"[-+]?[0-9]+")
_OCTAL = re.compile(r"0o[0-7]+")
_HEX = re.compile(r"0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
_INFINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")


def resolved(text: str) -> bool | int | float | str | None:
    """The value of the plain scalar `text`; quoted and block scalars are text and do not come here.

    Raises:
        ValueError: a number of more than 40 characters.
    """
    if text in _NULL:
        return None
    if text in _BOOL:
        return _BOOL[text]
    number = _number(text)
    if number is None:
        return text
    return number


def unusual_number(text: str) -> bool:
    """True for a number that no measure is written as: an exponent, an infinity or not-a-number."""
    written_out = _DECIMAL.fullmatch(text) or _OCTAL.fullmatch(text) or _HEX.fullmatch(text)
    exponent = _FLOAT.fullmatch(text) and "e" in text.casefold()
    return not written_out and bool(exponent or _INFINITE.fullmatch(text))


def _number(text: str) -> int | float | None:
    for pattern, base in ((_DECIMAL, 10), (_OCTAL, 8), (_HEX, 16)):
        if pattern.fullmatch(text):
            _check_length(text)
            return int(text[2:] if base != 10 else text, base)
    if _FLOAT.fullmatch(text):
        _check_length(text)
        return float(text)
    return float(text.replace(".", "", 1)) if _INFINITE.fullmatch(text) else None


def _check_length(text: str) -> None:
    if len(text) > LONGEST_NUMBER:
        raise ValueError(f"a number of {len(text)} characters")
