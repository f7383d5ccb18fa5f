"""A plate by finite differences: an independent way to the same equation.

Dx w_xxxx + 2 H w_xxyy + Dy w_yyyy + k w = q on a grid of square-ish cells, edges held, free to turn or fixed.
"""

import numpy as np
from scipy.sparse import diags, identity, kron
from scipy.sparse.linalg import spsolve


def _second(n, step):
    return diags([1.0, -2.0, 1.0], [-1, 0, 1], shape=(n, n)) / step**2


def _fourth(n, step, *, fixed):
    main = np.full(n, 6.0)
    main[[0, -1]] += 1.0 if fixed else -1.0  # the point beyond the edge mirrors the first one inside, with its sign
    return diags([1.0, -4.0, main, -4.0, 1.0], [-2, -1, 0, 1, 2], shape=(n, n)) / step**4


def _spread(n, step, size, load_size):
    """Share of each cell about a grid point that a load in the middle covers."""
    at = step * np.arange(1, n + 1)
    low, high = (size - load_size) / 2, (size + load_size) / 2
    return np.clip(np.minimum(at + step / 2, high) - np.maximum(at - step / 2, low), 0, step) / step


def middle_deflection(*, length, width, dx, dy, h, fixed, load_n, patch, bed=0.0, cells=80):
    """Deflection in the middle under `load_n` over `patch` (length, width) in the middle, on an even bed or none."""
    n, (sx, sy) = cells - 1, (length / cells, width / cells)
    fourth_x, fourth_y = _fourth(n, sx, fixed=fixed), _fourth(n, sy, fixed=fixed)
    one = identity(n)
    operator = dx * kron(fourth_x, one) + dy * kron(one, fourth_y) + 2 * h * kron(_second(n, sx), _second(n, sy))
    operator = (operator + bed * identity(n * n)).tocsc()
    q = load_n / (min(patch[0], length) * min(patch[1], width))
    loads = q * np.outer(_spread(n, sx, length, patch[0]), _spread(n, sy, width, patch[1])).ravel()
    return spsolve(operator, loads).reshape(n, n)[n // 2, n // 2]
