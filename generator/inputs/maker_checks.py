"""What must fit together inside the maker's file."""

from __future__ import annotations

from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.board_checks import margin_faults
from generator.inputs.fault import Fault
from generator.inputs.fit import Fitted
from generator.inputs.maker import Maker


def maker_faults(fitted: Fitted[Maker]) -> list[Fault]:
    """All faults between the fields of the maker's file."""
    blame = Blame(fitted.document)
    return run_checks([partial(_margins, fitted.sound, blame)])


def _margins(maker: Any, blame: Blame) -> list[Fault]:
    return list(margin_faults(maker.defaults.trace_margin, blame, ("defaults", "trace_margin")))
