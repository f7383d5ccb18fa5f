"""What the maker says once for all builders: who they are, and their defaults."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.inputs.board import Name, TraceMargin
from generator.inputs.builder import Units
from generator.inputs.fields import Part, Pattern


def _with_https(text: str) -> str:
    return "https://" + text.split("://", 1)[-1].strip()


class Defaults(Part):
    """Used where a board or a builder does not say."""

    units: Units
    photo_first: Annotated[tuple[Name, ...], Field(max_length=20)] = ()
    trace_margin: TraceMargin


class Maker(Part):
    """The maker."""

    name: Name
    contact: Annotated[
        str,
        Pattern(
            longest=120,
            pattern=r"[^\s@<>\"'()]+@[^\s@<>\"'()]+\.[^\s@<>\"'().]+|\+?[0-9][0-9 ()/.-]{4,30}",
            form="a mail address or a phone number",
        ),
    ]
    site: Annotated[
        str,
        Pattern(
            longest=200,
            pattern=r"https://[A-Za-z0-9.-]+(?::[0-9]{1,5})?(?:/[A-Za-z0-9._~/-]*)?",
            form="an address that begins with https:// and has no spaces",
            mend=_with_https,
        ),
    ]
    defaults: Defaults
