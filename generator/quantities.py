"""What all the sums share: read-only arrays and the standard acceleration of gravity."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

GRAVITY_M_S2 = 9.80665
"""Conventional value, 3rd CGPM (1901), from memory."""


def fixed(values: ArrayLike) -> Floats:
    """Read-only copy of `values` as float64, same shape."""
    out = np.array(values, dtype=np.float64)
    out.setflags(write=False)
    return out
