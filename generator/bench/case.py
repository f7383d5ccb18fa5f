"""A bench from a file, solved: numbers in the file's own words and order, ready to be printed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import TIPS_OVER, Bent, solve
from generator.inputs.bench_checks import SLACK_SHARE
from generator.inputs.bench_file import Bench, Benches, Case
from generator.inputs.fault import BadInput, Fault
from generator.quantities import Floats

SAME_PER_MM = 1e-10
SAME_PLACE_MM = 0.5
TRUSTED_MM = 0.01
TRUSTED_SHARE = 1e-6


def solved_cases(benches: Benches) -> list[dict[str, Any]]:
    """Each case as `solved` gives it.

    Raises:
        BadInput: a fault for each case whose numbers are too far apart for floating-point sums.
    """
    answers: list[dict[str, Any]] = []
    faults: list[Fault] = []
    for number, (case, place) in enumerate(zip(benches.cases, benches.places, strict=True)):
        try:
            answers.append(solved(case))
        except (ArithmeticError, np.linalg.LinAlgError):
            allowed = "lengths, stiffness and loads as benches have them"
            faults.append(Fault(place, f"cases[{number}].input", "too extreme to be solved exactly", allowed, ""))
    if faults:
        raise BadInput(faults)
    return answers


def solved(case: Case) -> dict[str, Any]:
    """What the bench of one case does.

    Lists are in the order of the case's stations and supports; a support that nothing rests on is open, counted from 0.
    Curvature at a station where it jumps is that of the nose side (at the nose tip, of the tail side). The place of the
    least curvature is None where it is reached at places more than 0.5 mm apart (equal within 1e-10 per mm, or within
    1e-9 of the largest curvature if that is more).

    Raises:
        ArithmeticError, LinAlgError: the numbers are too far apart for floating-point sums.
    """
    given = case.input
    supports_mm = _on_the_board(given, [support.x_mm for support in given.supports])
    heights_mm = np.array([support.height_mm for support in given.supports])
    with np.errstate(divide="raise", over="raise", invalid="raise"):
        bent = solve(beam_of(given), x_mm=supports_mm, height_mm=heights_mm)
        if bent.status == TIPS_OVER:
            return {
                "name": case.name,
                "status": "tips_over",
                "resultant_x_mm": bent.resultant_x_mm,
                "total_load_N": bent.total_load_n,
            }
        _trusted(bent, supports_mm, heights_mm)
        stations_mm = _on_the_board(given, given.stations_mm)
        least, place = _least_curvature(bent)
        return {
            "name": case.name,
            "status": "ok",
            "heights_mm": _told(bent.heights_mm(stations_mm)),
            "curvature_per_mm": _told(bent.curvature_per_mm(stations_mm)),
            "reactions_N": _told(bent.reactions_n),
            "gaps_mm": _told(bent.gaps_mm),
            "open_supports": [at for at, bears in enumerate(bent.touching) if not bears],
            "min_curvature_per_mm": least,
            "min_curvature_at_mm": place,
            "total_load_N": bent.total_load_n,
        }


def beam_of(given: Bench) -> Beam:
    """The board and its loads as a beam, cut wherever one of the lists has an end."""
    length = given.length_mm
    lists: tuple[Sequence[Any], ...] = (given.stiffness, given.spread_loads, given.free_curvature)
    ends = sorted({end for pieces in lists for piece in pieces for end in (piece.x0_mm, piece.x1_mm)})
    breaks = [0.0]
    for end in ends:
        if end - breaks[-1] > SLACK_SHARE * length < length - end:
            breaks.append(end)
    breaks_mm = np.array([*breaks, length])
    stiffness = [(p.x0_mm, p.x1_mm, p.stiffness_n_mm2, p.stiffness_n_mm2) for p in given.stiffness]
    loads = [(p.x0_mm, p.x1_mm, p.load_start_n_mm, p.load_end_n_mm) for p in given.spread_loads]
    free = [(p.x0_mm, p.x1_mm, p.curvature_start_per_mm, p.curvature_end_per_mm) for p in given.free_curvature]
    places_mm = _on_the_board(given, [load.x_mm for load in given.point_loads])
    points = (PointLoad(x, load.load_n) for x, load in zip(places_mm.tolist(), given.point_loads, strict=True))
    return Beam(
        length,
        breaks_mm,
        _at_both_ends(stiffness, breaks_mm)[0],
        *_at_both_ends(loads, breaks_mm),
        *_at_both_ends(free, breaks_mm),
        tuple(points),
    )


def _at_both_ends(pieces: Sequence[tuple[float, float, float, float]], breaks_mm: Floats) -> tuple[Floats, Floats]:
    """(n,) values of a quantity at the start and the end of each stretch; 0 where it has no piece."""
    starts, ends = np.zeros(breaks_mm.size - 1), np.zeros(breaks_mm.size - 1)
    middles = (breaks_mm[:-1] + breaks_mm[1:]) / 2
    for x0, x1, first, last in pieces:
        inside = (x0 <= middles) & (middles <= x1)
        slope = (last - first) / (x1 - x0)
        starts[inside] = first + slope * (breaks_mm[:-1][inside] - x0)
        ends[inside] = last - slope * (x1 - breaks_mm[1:][inside])
    return starts, ends


def _on_the_board(given: Bench, x_mm: Sequence[float]) -> Floats:
    """Places as given; those within rounding of a tip are put on it."""
    return np.clip(np.asarray(x_mm, dtype=np.float64), 0.0, given.length_mm)


def _least_curvature(bent: Bent) -> tuple[float, float | None]:
    """The least curvature (1/mm) and its place (mm), or None where far places share it."""
    least, place = bent.least_curvature
    values, places_mm = _extremes(bent)
    same = max(SAME_PER_MM, 1e-9 * float(np.abs(values).max()))
    sharing = np.append(places_mm[values <= least + same], place)
    return least + 0.0, None if np.ptp(sharing) > SAME_PLACE_MM else place


def _extremes(bent: Bent) -> tuple[Floats, Floats]:
    """Curvature at both ends of each segment and wherever in it the curvature is stationary, and those places."""
    assert bent.columns is not None
    starts, sizes, c = bent.columns.starts_mm, bent.columns.sizes_mm, bent.curvature_coefficients
    inside = [np.zeros_like(sizes), sizes]
    a, b, d = 3 * c[:, 3], 2 * c[:, 2], c[:, 1]
    half = -(b + np.copysign(np.sqrt(np.maximum(b**2 - 4 * a * d, 0)), b)) / 2
    for top, bottom in ((half, a), (d, half)):
        reached = np.abs(bottom) * sizes > np.abs(top)
        inside.append(np.clip(np.divide(top, bottom, out=np.zeros_like(sizes), where=reached), 0, sizes))
    s = np.concatenate(inside)
    values = (np.tile(c, (4, 1)) * s[:, None] ** np.arange(4)).sum(-1)
    return values, np.tile(starts, 4) + s


def _trusted(bent: Bent, supports_mm: Floats, heights_mm: Floats) -> None:
    """Ask the curve itself whether it lies on its supports and whether they carry the load."""
    off = np.abs(bent.heights_mm(supports_mm) - heights_mm - bent.gaps_mm)
    missing = abs(float(bent.reactions_n.sum()) - bent.total_load_n)
    if not (
        off.max() < TRUSTED_MM and bent.gaps_mm.min() > -TRUSTED_MM and missing < TRUSTED_SHARE * bent.total_load_n
    ):
        raise ArithmeticError("the sums lost their precision")


def _told(values: Floats) -> list[float]:
    """The numbers as a list, without minus zero."""
    out: list[float] = (values + 0.0).tolist()
    return out
