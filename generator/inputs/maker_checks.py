"""What must fit together inside the maker's file."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.board_checks import margin_faults
from generator.inputs.fault import Fault
from generator.inputs.fit import Fitted
from generator.inputs.maker import Maker
from generator.inputs.stages import BUILD_STAGES


def maker_faults(fitted: Fitted[Maker]) -> list[Fault]:
    """All faults between the fields of the maker's file."""
    blame = Blame(fitted.document)
    return run_checks([partial(_margins, fitted.sound, blame), partial(_photos, fitted.sound, blame)])


def _photos(maker: Any, blame: Blame) -> Iterator[Fault]:
    for at, slug in enumerate(maker.defaults.photo_first):
        yield from blame.known(("defaults", "photo_first", at), slug, BUILD_STAGES, "the list of stages")


def _margins(maker: Any, blame: Blame) -> list[Fault]:
    return list(margin_faults(maker.defaults.trace_margin, blame, ("defaults", "trace_margin")))
