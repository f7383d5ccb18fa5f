"""Benches drawn at random, as plain numbers and for the product.

Supports and ends of pieces stand at whole millimetres. Pieces: 1 to 5 of E·I over two decades; 0 to 12 point loads;
2 to 8 supports up to 20 mm off a smooth curve; half of the benches have a free curvature. One in seven has two supports
1 to 10 mm apart, one in seven a support that just touches, one in seven rows of points as flat tops have them (up to 60
supports), the rest are plain.
"""

import numpy as np
from displacement_method import Bench, rest

from generator.bench.beam import Beam, PointLoad

KINDS = ("plain", "plain", "plain", "plain", "close pair", "just touching", "flat tops")


def drawn(rng: np.random.Generator) -> tuple[str, Bench]:
    """One bench and its kind."""
    length = float(rng.integers(1500, 3201))
    inner = np.unique(np.round(rng.uniform(0.03, 0.97, rng.integers(0, 5)) * length))
    breaks = np.concatenate([[0.0], inner, [length]])
    n, p = inner.size + 1, int(rng.integers(0, 13))
    kind = KINDS[rng.integers(len(KINDS))]
    if kind == "flat tops":
        x, height = _tops(rng, length)
    else:
        x = _places(rng, length, kind)
        height = _curve(x / length) + rng.uniform(-20, 20) * rng.random(x.size)
    bench = Bench(
        breaks,
        10 ** rng.uniform(7, 9, n),
        rng.uniform(0.005, 0.08, (n, 2)),
        rng.uniform(-5e-5, 2e-4, (n, 2)) * rng.integers(0, 2),
        np.stack([rng.uniform(0, length, p), rng.uniform(0, 40, p)], axis=1),
        x,
        height,
    )
    return kind, _just_touched(bench) if kind == "just touching" else bench


def _places(rng: np.random.Generator, length: float, kind: str) -> np.ndarray:
    x = np.round(rng.uniform(0, length, rng.integers(2, 9)))
    if rng.random() < 0.5:
        x[:2] = 0, length
    if kind == "close pair":
        near = x[0] + rng.integers(1, 11)
        x = np.append(x, near if near <= length else x[0] - rng.integers(1, 11))
    return x


def _tops(rng: np.random.Generator, length: float) -> tuple[np.ndarray, np.ndarray]:
    """Points 5 mm apart on two to five level tops 60 to 180 mm wide, at most 60, in any order."""
    middles = np.round(np.concatenate([[0.0, length], rng.uniform(0.1, 0.9, rng.integers(0, 4)) * length]))
    rows = [middle + np.arange(-rng.integers(6, 19), rng.integers(6, 19)) * 5.0 for middle in middles]
    levels = _curve(middles / length) + rng.uniform(-20, 20, middles.size)
    x, height = np.concatenate(rows), np.repeat(levels, [row.size for row in rows])
    some = rng.permutation(np.flatnonzero((x >= 0) & (x <= length)))[:60]
    return x[some], height[some]


def _curve(share: np.ndarray) -> np.ndarray:
    """A rocker of some 20 mm along the length."""
    return 60 * (share - 0.4) ** 2


def _just_touched(bench: Bench) -> Bench:
    """The bench with one support more, exactly as high as the beam lies there without it."""
    alone = rest(bench)
    if alone.status != "ok":
        return bench
    at = int(np.argmax(np.isin(alone.nodes, bench.x, invert=True)))
    x, height = np.append(bench.x, alone.nodes[at]), np.append(bench.height, alone.heights[at])
    return Bench(bench.breaks, bench.stiffness, bench.load, bench.free, bench.points, x, height)


def beam_of(bench: Bench) -> Beam:
    """The same numbers for the product."""
    return Beam(
        float(bench.breaks[-1]),
        bench.breaks,
        bench.stiffness,
        bench.load[:, 0],
        bench.load[:, 1],
        bench.free[:, 0],
        bench.free[:, 1],
        tuple(PointLoad(x, load) for x, load in bench.points.tolist()),
    )
