"""What becomes of the curve once the glue is hard: clamps off, lifted off, or kept until the top panel is on too."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from generator.bench.assembly import Sections
from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import Bent
from generator.bench.springback import SpringBack, lost_rocker, spring_back
from generator.bench.tops import OnTops, Top, rest_on
from generator.quantities import Floats, fixed

STATIONS, NEAR_SHARE = 241, 1e-6
Route = Literal["bottom panel", "top panel"]
"""The panel whose glue must be hard before the board comes off the bench.

After the bottom panel, these sums take the top panel as flat and glued on with the board lying free, and set the bench
over for that. In the shed the board goes back onto the bench for it and is held to heights of its own (`top_on`), which
lead to the wanted rocker from wherever the bottom has got to; the nearer that is, the less has to press.
"""
BOTTOM: Route = "bottom panel"
TOP: Route = "top panel"


@dataclass(frozen=True, slots=True, eq=False)
class Released:
    """Rocker lost by each way on from the cured bottom panel.

    Attributes:
        lifted: lifted off as soon as the bottom panel's glue is hard.
        free_top: the same, and then the top panel is glued on with the board lying free: being flat, it pulls the
            board straighter.
        kept: left in place, the top panel glued on with the same clamps and weights, then lifted off.
        with_top: the board on the bench while the top panel's glue sets.
    """

    lifted: SpringBack
    free_top: SpringBack
    kept: SpringBack
    with_top: OnTops

    def lost(self, route: Route) -> SpringBack:
        """What the finished board has lost by one way."""
        return self.free_top if route == BOTTOM else self.kept


@dataclass(frozen=True, slots=True, eq=False)
class Cured:
    """The bottom panel glued to the frame, in pieces (m+1,) and (m,), with the curvature that it now has by itself."""

    breaks_mm: Floats
    glued_n_mm2: Floats
    panel_n_mm2: Floats
    free_start_per_mm: Floats
    free_end_per_mm: Floats


def released(
    bent: Bent, sections: Sections, tops: Sequence[Top], point_loads: Sequence[PointLoad], *, low_point_mm: float
) -> Released:
    """Follow the board from the bent, loose pair to the finished box.

    While loose, k = M/E·I + k_free. Once glued, the pair has the curvature f = k − M/E·I_glued by itself, and bends on
    from there with E·I_glued. The top panel is flat and comes on loose, so that both together have
    E·I_glued·f / (E·I_glued + E·I_panel) by themselves; when its glue is hard the box is released from that state's
    moment with E·I_closed. Plane sections and linear elasticity throughout; creep and slip are left out.

    Args:
        bent: the loose pair at rest on `tops` with `point_loads` (clamps and weights) on it.
    """
    x = _stations_mm(sections)
    piece = sections.piece_at(x)
    moment, curvature = bent.moment_n_mm(x), bent.curvature_per_mm(x)
    glued, panel = sections.glued_n_mm2[piece], sections.panel_n_mm2[piece]
    lifted = spring_back(
        x_mm=x, curvature_per_mm=curvature, moment_n_mm=moment, glued_n_mm2=glued, low_point_mm=low_point_mm
    )
    own = curvature - moment / glued
    straightened = own * panel / (glued + panel)
    with_top = rest_on(with_top_panel(cured(bent, sections), sections, point_loads), tops)
    left = with_top.bent.curvature_per_mm(x) - with_top.bent.moment_n_mm(x) / sections.closed_n_mm2[piece]
    free_top, kept = (
        lost_rocker(x_mm=x, curvature_per_mm=curvature, lost_per_mm=lost, low_point_mm=low_point_mm)
        for lost in (moment / glued + straightened, curvature - left)
    )
    return Released(lifted, free_top, kept, with_top)


def _stations_mm(sections: Sections) -> Floats:
    """Even stations, and both sides of every break, where the curvature jumps."""
    breaks = sections.breaks_mm
    even = np.linspace(0.0, float(breaks[-1]), STATIONS)
    return np.unique(np.concatenate([even, breaks, breaks[1:] - NEAR_SHARE * np.diff(breaks)]))


def clamps_off(bent: Bent, sections: Sections, tops: Sequence[Top]) -> OnTops:
    """The cured bottom on the same supports with nothing but its own weight on it."""
    pair = cured(bent, sections)
    load = _own_weight(pair, sections, top_panel=False)
    return rest_on(
        Beam(
            float(pair.breaks_mm[-1]),
            pair.breaks_mm,
            pair.glued_n_mm2,
            *load,
            pair.free_start_per_mm,
            pair.free_end_per_mm,
        ),
        tops,
    )


def cured(bent: Bent, sections: Sections) -> Cured:
    """The glued pair in the pieces between all breaks, loads and supports; its own curvature linear in each."""
    shape = bent.columns
    if shape is None:
        raise ValueError("a board that tips over has no curve")
    breaks = np.append(shape.starts_mm, shape.starts_mm[-1] + shape.sizes_mm[-1])
    piece = sections.piece_at(shape.starts_mm)
    glued = sections.glued_n_mm2[piece]
    power = shape.sizes_mm[:, None] ** np.arange(4)
    coefficients = bent.curvature_coefficients
    # M = E·I·(k − k_free): from the curvature itself, so that both sides of a jump are right.
    moments = shape.stiffness_n_mm2[:, None] * coefficients
    moments[:, :2] -= shape.stiffness_n_mm2[:, None] * shape.free
    own = coefficients - moments / glued[:, None]
    return Cured(
        fixed(breaks), fixed(glued), fixed(sections.panel_n_mm2[piece]), fixed(own[:, 0]), fixed((own * power).sum(1))
    )


def _own_weight(pair: Cured, sections: Sections, *, top_panel: bool) -> tuple[Floats, Floats]:
    """Weight per mm at the start and the end of each of the pair's pieces."""
    at = sections.piece_at(pair.breaks_mm[:-1])
    start, size = sections.breaks_mm[at], np.diff(sections.breaks_mm)[at]
    first, last = sections.load_start_n_mm, sections.load_end_n_mm
    if top_panel:
        first, last = first + sections.panel_load_start_n_mm, last + sections.panel_load_end_n_mm
    shares = [(x - start) / size for x in (pair.breaks_mm[:-1], pair.breaks_mm[1:])]
    begin, end = (first[at] + share * (last - first)[at] for share in shares)
    return fixed(begin), fixed(end)


def with_top_panel(pair: Cured, sections: Sections, point_loads: Sequence[PointLoad]) -> Beam:
    """The glued pair and the loose top panel side by side."""
    both = pair.glued_n_mm2 + pair.panel_n_mm2
    share = pair.glued_n_mm2 / both
    load = _own_weight(pair, sections, top_panel=True)
    return Beam(
        float(pair.breaks_mm[-1]),
        pair.breaks_mm,
        both,
        *load,
        share * pair.free_start_per_mm,
        share * pair.free_end_per_mm,
        tuple(point_loads),
    )


def foreseen_loss(
    sections: Sections, *, x_mm: Floats, wanted_per_mm: Floats, route: Route, low_point_mm: float
) -> SpringBack:
    """What a bench that is set over for it will lose, place by place, before any bench is planned.

    With s the stiffness of what is bent loose over that of what is released, k_bench = (k_released − s·k_free) /
    (1 − s). What is released is the finished box or, off after the bottom panel, the glued pair, whose curvature the
    flat top panel then lessens by its share.

    Args:
        wanted_per_mm: (len(x),) wanted curvature.
    """
    piece = sections.piece_at(x_mm)
    start, end = sections.free_curvature_start_per_mm, sections.free_curvature_end_per_mm
    size = np.diff(sections.breaks_mm)
    free = start[piece] + (end - start)[piece] * (x_mm - sections.breaks_mm[piece]) / size[piece]
    loose, glued, panel = (one[piece] for one in (sections.loose_n_mm2, sections.glued_n_mm2, sections.panel_n_mm2))
    if route == TOP:
        both, let_go = loose + panel, wanted_per_mm
        share, free = both / sections.closed_n_mm2[piece], free * loose / both
    else:
        share, let_go = loose / glued, wanted_per_mm * (glued + panel) / glued
    bench = (let_go - share * free) / (1 - share)
    return lost_rocker(x_mm=x_mm, curvature_per_mm=bench, lost_per_mm=bench - wanted_per_mm, low_point_mm=low_point_mm)
