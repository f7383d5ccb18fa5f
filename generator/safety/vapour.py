"""How long a room takes to clear of what floats in it, once nothing more is given off."""

from __future__ import annotations

import math

WORST_MIXING = 10.0
"""By how much longer it may take where the air mixes badly: CDC, MMWR 43 (RR-13), 1994, Table S3-1, note."""


def cleared_min(*, changes_per_h: float, left_pct: float) -> float:
    """Minutes of airing until no more than a share of dust or vapour is left.

        t = −60 ln(left) / n

    Perfect mixing: air that lies still in corners takes longer, up to ten times. It holds once nothing more is given
    off; glue and finish go on giving off vapour until they have cured.

    Args:
        changes_per_h: How often the air of the room is changed in an hour, above 0.
        left_pct: Share that may be left, %, above 0 and up to 100.

    Raises:
        ValueError: outside these.

    Source: CDC, MMWR 43 (RR-13), 1994, Table S3-1 and its formula.
    """
    if not (0 < changes_per_h < math.inf and 0 < left_pct <= 100):
        raise ValueError("air changes must be above 0 and the share left above 0 and up to 100 %")
    return 60 * math.log(100 / left_pct) / changes_per_h
