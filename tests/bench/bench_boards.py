"""Invented boards and household things for the bench tests, as plain numbers."""

import numpy as np

from generator.bench.assembly import ClampKind, OnBench, Sections, TableTop
from generator.bench.programme import Loose
from generator.bench.stack_list import Piece
from generator.quantities import Floats, fixed

THINGS = (
    Piece("large tin", "tin", 192, 180, 6, 80, 3),
    Piece("tin", "tin", 134, 160, 3, 60, 4),
    Piece("brick", "block", 65, 102, 2.8, 200, 6),
    Piece("offcut", "block", 47, 95, 0.5, 100, 5),
    Piece("thin offcut", "block", 30, 70, 0.3, 100, 4),
    Piece("shelf", "sheet", 18, 150, 1, 100, 4),
    Piece("ply", "sheet", 9, 140, 0.5, 100, 4),
    Piece("card", "shim", 1, 80, 0.01, 100, 20),
    Piece("batten", "crossbar", 21, 42, 0.4, 60, 4),
)
FIFTEEN = (
    Piece("large tin", "tin", 246, 256, 3.5, 60, 3),
    Piece("middle tin", "tin", 198, 178, 2.2, 50, 4),
    Piece("small tin", "tin", 121, 108, 1.1, 45, 3),
    Piece("brick", "block", 65, 102, 2.4, 200, 6),
    Piece("thick offcut", "block", 45, 95, 0.5, 200, 6),
    Piece("offcut", "block", 32, 95, 0.4, 200, 5),
    Piece("book", "sheet", 26, 150, 0.6, 100, 5),
    Piece("shelf", "sheet", 18, 150, 0.4, 120, 6),
    Piece("ply", "sheet", 12, 150, 0.25, 120, 5),
    Piece("thin ply", "sheet", 9, 150, 0.2, 120, 5),
    Piece("magazine", "sheet", 4, 150, 0.25, 60, 8),
    Piece("hardboard", "shim", 3, 100, 0.03, 80, 8),
    Piece("tile", "shim", 2, 100, 0.03, 80, 8),
    Piece("card", "shim", 1, 90, 0.01, 80, 10),
    Piece("batten", "crossbar", 34, 70, 0.6, 80, 4),
)
CLAMPS = (ClampKind("bar clamp", 120, 0.7, 170, 12), ClampKind("small clamp", 75, 0.5, 130, 10))
WEIGHTS = (Loose("paint", 5, 2), Loose("sand", 10, 2), Loose("water", 2, 4))
TABLE = TableTop(3000, 600, fixed([0, 1500, 3000]), fixed([0, 3, -2]))


def wanted_mm(x_mm: np.ndarray | float, length: float, tail: float, nose: float) -> Floats:
    """A wanted bottom: power curves of 2.3 either side of a low point at 0.45 of the length."""
    x, low = np.asarray(x_mm, dtype=np.float64), 0.45 * length
    return np.where(x < low, tail * np.abs((low - x) / low) ** 2.3, nose * np.abs((x - low) / (length - low)) ** 2.3)


def half_width_mm(x_mm: np.ndarray | float, length: float) -> Floats:
    """Half widths of a round-ended outline."""
    return 275 * np.sin(np.pi * np.clip(np.asarray(x_mm, dtype=np.float64) / length, 0.0, 1.0)) ** 0.5


def board(
    *,
    length: float = 2300.0,
    tail: float = 58.0,
    nose: float = 118.0,
    frame_n_mm2: float = 2.2e8,
    cut_to_rocker: float = 0.0,
) -> OnBench:
    """A board of 4.2 kg (frame and one panel) whose frame was cut straight (0) or to the rocker (1)."""
    breaks = np.linspace(0, length, 41)
    along = (breaks[1:] + breaks[:-1]) / 2 / length
    fullness = 0.2 + 0.8 * np.sin(np.pi * along) ** 0.7
    load = 42 / length * fullness / fullness.mean()
    panel_n_mm2 = 7.8e7
    share = cut_to_rocker * frame_n_mm2 / (frame_n_mm2 + panel_n_mm2)

    def curve(x: np.ndarray) -> np.ndarray:
        inside = np.clip(x, 1, length - 1)
        left, here, right = (wanted_mm(inside + s, length, tail, nose) for s in (-1, 0, 1))
        return share * np.maximum(left - 2 * here + right, 0)

    def sections(frame: float, panel: float) -> Sections:
        loose = (frame_n_mm2 * frame + panel_n_mm2 * panel) * fullness
        return Sections(
            fixed(breaks),
            fixed(loose),
            fixed(3 * loose),
            fixed(panel_n_mm2 * panel * fullness),
            fixed(60 * loose),
            fixed(load),
            fixed(load),
            fixed(0.45 * load),
            fixed(0.45 * load),
            fixed(curve(breaks[:-1])),
            fixed(curve(breaks[1:])),
        )

    ribs = np.arange(205.0, length - 100, 210)
    return OnBench(
        sections(0.75, 0.75),
        sections(1.0, 1.0),
        sections(1.25, 1.25),
        (sections(0.75, 1.0), sections(1.25, 1.0)),
        (sections(1.0, 0.75), sections(1.0, 1.25)),
        fixed(ribs),
        fixed(275 * (0.35 + 0.65 * np.sin(np.pi * ribs / length) ** 0.5)),
        fixed(np.full(ribs.size, 46.0)),
        lambda x: wanted_mm(x, length, tail, nose),
        lambda x: half_width_mm(x, length),
        0.45 * length,
    )


def eight_supports(least_base_mm: float = 120.0, spread_mm: float = 0.0, seed: int = 0) -> dict[str, object]:
    """Eight evenly spaced supports of a board of 2300 mm, as `pile` takes them; heights are spread at random."""
    share = np.linspace(0, 1, 8)
    spread = np.random.default_rng(seed).uniform(-spread_mm, spread_mm, 8)
    return {
        "x_per_length": share,
        "height_mm": wanted_mm(share * 2300, 2300, 58, 118) + spread,
        "table_mm": 0 * share,
        "load_n": 40 + 0 * share,
        "wants_bar": [True, *[False] * 6, True],
        "least_base_mm": least_base_mm,
    }
