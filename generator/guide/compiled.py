"""Compiled templates, kept for the next guide of the same run: compiling costs ten times what rendering does.

Only code is kept, never a builder's words or numbers. For that, every filter that looks into the figures must be
wrapped in `never_folded`: Jinja works out a filter of a constant while it compiles, and the result would be kept.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import jinja2
from jinja2.bccache import Bucket, BytecodeCache
from jinja2.runtime import Context


class CompiledTemplates(BytecodeCache):
    """Compiled code by template name, in memory; a changed text replaces its older code."""

    def __init__(self) -> None:
        self._code: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        if bucket.key in self._code:
            bucket.bytecode_from_string(self._code[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        self._code[bucket.key] = bucket.bytecode_to_string()

    def clear(self) -> None:
        """Forget all compiled code."""
        self._code.clear()


def never_folded(function: Callable[..., Any]) -> Callable[..., Any]:
    """The filter, called each time a page is rendered and never while a template is compiled."""

    @jinja2.pass_context
    def call(_: Context, *args: Any, **kwargs: Any) -> Any:
        return function(*args, **kwargs)

    return call


COMPILED = CompiledTemplates()
