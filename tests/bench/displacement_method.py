"""A second way to lay a beam on supports, for the tests.

It shares nothing with the product. The unknowns are heights and slopes of nodes: cubic elements, exact at their ends
where stiffness is constant and load and free curvature run linearly, in one banded system. It is condensed to the
supports with the outermost two held: if one of these has to pull, the beam tips over, since anything that bears between
them only makes it worse. Otherwise which supports bear is a linear complementarity problem, solved by pivots. At last
those that bear are held and the whole beam is solved again.

Sources: element and loads, first principles (virtual work with Hermite's cubics); complementary pivots, Lemke's scheme
I, from memory (Cottle, Pang and Stone, The Linear Complementarity Problem, chapter 4).
"""

from dataclasses import dataclass

import numpy as np
from scipy.linalg.lapack import dpbtrf, dpbtrs

TIPS_OVER = "tips over"
SHAPES = np.array([[1.0, 0, -3, 2], [0, 1, -2, 1], [0, 0, 3, -2], [0, 0, -1, 1]])
"""Powers of t = 0..1 in the cubics of height left, slope left (times size), height right, slope right (times size)."""
BENT = SHAPES[:, 2:] * [2.0, 6.0]
"""Their second derivatives, powers 0 and 1."""
MEANS = 1 / (np.arange(4)[:, None] + np.arange(4) + 1.0)
"""Integrals of t^p t^q from 0 to 1."""
STIFF = BENT @ MEANS[:2, :2] @ BENT.T


@dataclass(frozen=True)
class Bench:
    """Plain numbers in mm and N: (n+1,) breaks and (n,) E·I of pieces, (n, 2) load and free curvature at both ends of
    each, (p, 2) place and size of point loads, (s,) places and heights of supports."""

    breaks: np.ndarray
    stiffness: np.ndarray
    load: np.ndarray
    free: np.ndarray
    points: np.ndarray
    x: np.ndarray
    height: np.ndarray


@dataclass(frozen=True)
class Rest:
    """Status, (s,) loads and gaps at the supports, and places, heights, slopes and moments of the nodes.

    The moment is that just right of the node (just left of it at the nose).
    """

    status: str
    loads: np.ndarray
    gaps: np.ndarray
    nodes: np.ndarray
    heights: np.ndarray
    slopes: np.ndarray
    moments: np.ndarray


class _Line:
    """The elements of one bench; a node's two unknowns are its height and its slope times the beam's length."""

    def __init__(self, bench: Bench, nodes: np.ndarray) -> None:
        self.nodes, size = nodes, np.diff(nodes)
        piece = np.searchsorted(bench.breaks, nodes[:-1], side="right") - 1
        whole = np.diff(bench.breaks)[piece]
        along = np.stack([(nodes[:-1] - bench.breaks[piece]) / whole, size / whole])
        load, free = (
            [[1, 0]] * v[piece, :1] + (v[piece, 1:] - v[piece, :1]) * along.T for v in (bench.load, bench.free)
        )
        self.length, ei = bench.breaks[-1], bench.stiffness[piece]
        turn = np.stack([np.ones_like(size), size / self.length] * 2, axis=1)
        self.stiff = (ei / size**3)[:, None, None] * STIFF * turn[:, :, None] * turn[:, None, :]
        self.bends = (ei / size)[:, None] * (free @ MEANS[:2, :2] @ BENT.T) * turn
        self.given = self.bends - size[:, None] * (load @ MEANS[:2] @ SHAPES.T) * turn
        for place, newtons in bench.points:
            e = min(int(np.searchsorted(nodes, place, side="right")) - 1, size.size - 1)
            self.given[e] -= newtons * turn[e] * (SHAPES @ ((place - nodes[e]) / size[e]) ** np.arange(4))
        self.force = self._summed(self.given[:, :, None])[:, 0]

    def _summed(self, ends: np.ndarray) -> np.ndarray:
        """(2·nodes, c) sums over the elements of (elements, 4, c)."""
        out = np.zeros((2 * self.nodes.size, ends.shape[2]), dtype=ends.dtype)
        out[:-2] += ends[:, :2].reshape(-1, ends.shape[2])
        out[2:] += ends[:, 2:].reshape(-1, ends.shape[2])
        return out

    def _ends(self, shape: np.ndarray) -> np.ndarray:
        """(elements, 4, c) unknowns at the ends of each element."""
        pairs = shape.reshape(self.nodes.size, 2, -1)
        return np.concatenate([pairs[:-1], pairs[1:]], axis=1)

    def pushed(self, shape: np.ndarray) -> np.ndarray:
        """(2·nodes, c) forces that hold the beam in a shape, its loads left out."""
        return self._summed(self.stiff @ self._ends(shape))

    def moments(self, shape: np.ndarray) -> np.ndarray:
        """(nodes,) bending moments just right of the nodes, sag positive."""
        ends = (self.stiff @ self._ends(shape[:, None]))[..., 0] - self.given
        return np.append(-ends[:, 1], ends[-1, 3]) * self.length

    def held(self, at: np.ndarray, heights: np.ndarray, forces: np.ndarray) -> np.ndarray:
        """(2·nodes, c) shapes with some nodes held at (len(at), c) heights under (2·nodes, c) forces.

        Each is mended by what it still lacks, summed in long floats: elements of 1 mm beside those of 500 mm would
        otherwise leave an error of some thousandths of a millimetre.
        """
        band = np.zeros((4, 2 * self.nodes.size))
        for i in range(4):
            for j in range(i, 4):
                band[3 + i - j, j : band.shape[1] - 2 + j : 2] += self.stiff[:, i, j]
        rows = 2 * at
        for d in range(1, 4):
            band[3 - d, rows[rows + d < band.shape[1]] + d] = 0.0
            band[3 - d, rows] = 0.0
        band[3, rows] = 1.0
        factor, failed = dpbtrf(band)
        assert not failed
        shape = np.zeros((band.shape[1], heights.shape[1]), dtype=np.longdouble)
        shape[rows] = heights
        for _ in range(2):
            lacks = forces - self.pushed(shape)
            lacks[rows] = 0.0
            shape += dpbtrs(factor, lacks.astype(np.float64))[0]
        return shape


def pivoted(matrix: np.ndarray, q: np.ndarray) -> np.ndarray:
    """z ≥ 0 with w = matrix @ z + q ≥ 0 and z·w = 0."""
    n = q.size
    if q.min() >= 0:
        return np.zeros(n)
    table = np.hstack([np.eye(n), -matrix, -np.ones((n, 1)), q[:, None]])
    basis, row, enters = np.arange(n), int(np.argmin(q)), 2 * n
    for _ in range(20 * n + 100):
        line = table[row] / table[row, enters]
        table -= table[:, enters, None] * line
        table[row] = line
        leaves, basis[row] = int(basis[row]), enters
        if leaves == 2 * n:
            out = np.zeros(2 * n)
            out[basis] = table[:, -1]
            return out[n:]
        enters = leaves + n if leaves < n else leaves - n
        column = table[:, enters]
        rises = column > 1e-12
        assert rises.any(), "the pivots ended on a ray"
        ratio = np.where(rises, table[:, -1], np.inf) / np.where(rises, column, 1.0)
        row = int(np.argmin(ratio - 1e-12 * (basis == 2 * n)))
    raise AssertionError("the pivots did not end")


def rest(bench: Bench, *, extra: tuple[float, ...] = ()) -> Rest:
    """The bench at rest, nodes at `extra` places too; of supports at one place the first of the highest bears."""
    able = np.lexsort((-bench.height, bench.x))
    able = able[np.append(True, np.diff(bench.x[able]) > 0)]
    if able.size < 2:
        return Rest(TIPS_OVER, *[np.zeros(0)] * 6)
    line = _Line(bench, np.unique(np.concatenate([bench.breaks, bench.x, extra])))
    x, level = bench.x[able], float(bench.height[able].mean())
    height, node = bench.height[able] - level, np.searchsorted(line.nodes, bench.x[able])
    forces = np.zeros((line.force.size, able.size - 1))
    forces[2 * node[1:-1], np.arange(able.size - 2)] = 1.0
    forces[:, -1] = line.force
    outer = node[[0, -1]]
    share = np.stack([x[-1] - x[1:-1], x[1:-1] - x[0]], axis=1) / (x[-1] - x[0])
    shape = line.held(outer, np.zeros((2, able.size - 1)), forces).astype(np.float64)
    gives, hangs = shape[2 * node[1:-1], :-1], shape[2 * node[1:-1], -1]
    carried = (line.pushed(shape[:, -1:])[:, 0] - line.force)[2 * outer]
    if carried.min() < 0:
        return Rest(TIPS_OVER, *[np.zeros(0)] * 6)
    newton = carried.sum()
    mm = newton * gives.diagonal().max(initial=0.0) or 1.0
    matrix = np.zeros((able.size, able.size))
    matrix[:-2, :-2], matrix[:-2, -2:], matrix[-2:, :-2] = gives * newton / mm, share, -share.T
    found = pivoted(matrix, np.concatenate([(hangs + share @ height[[0, -1]] - height[1:-1]) / mm, carried / newton]))
    bears = np.concatenate([found[-2:-1] <= 0, found[:-2] > 0, found[-1:] <= 0])
    shape = line.held(node[bears], height[bears, None], line.force[:, None])
    loads = np.zeros(bench.x.size)
    loads[able[bears]] = (line.pushed(shape)[:, 0] - line.force)[2 * node[bears]]
    heights, slopes = shape.astype(np.float64)[:, 0].reshape(-1, 2).T
    heights = heights + level
    gaps = heights[np.searchsorted(line.nodes, bench.x)] - bench.height
    return Rest(
        "ok", loads, gaps, line.nodes, heights, slopes / line.length, line.moments(shape[:, 0]).astype(np.float64)
    )
