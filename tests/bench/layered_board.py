"""A board of three layers followed from the bench to the finished box, for the tests.

It shares nothing with the product. Every layer is two fibres a cross-section, a Gauss pair, so that sums over fibres
are the integrals of plane bending. A fibre keeps the stress that it has; what changes between two states is one
curvature for all layers and one stretch for each group of layers that is glued together. Along the board there are
cells of 1 mm; which supports bear is found by trying every set.
"""

from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

CELL_MM = 1.0
GAUSS = 1 / np.sqrt(3)


@dataclass(frozen=True)
class Layer:
    """E (MPa), width and lower and upper face (c,) at each cell, and the curvature (c,) that it was cut to."""

    e_mpa: float
    width_mm: np.ndarray
    low_mm: np.ndarray
    high_mm: np.ndarray
    cut_per_mm: np.ndarray

    def fibres(self) -> tuple[np.ndarray, np.ndarray]:
        """(2, c) heights and E × area of the two fibres."""
        middle, half = (self.low_mm + self.high_mm) / 2, (self.high_mm - self.low_mm) / 2
        return np.stack([middle - GAUSS * half, middle + GAUSS * half]), np.stack(
            [self.e_mpa * self.width_mm * half] * 2
        )

    def stiffness_n_mm2(self) -> np.ndarray:
        return self.e_mpa * self.width_mm * (self.high_mm - self.low_mm) ** 3 / 12


@dataclass(frozen=True)
class State:
    """Layers with their fibres' forces (layers, 2, c), in groups that are glued, at a common curvature (c,)."""

    layers: tuple[Layer, ...]
    groups: tuple[tuple[int, ...], ...]
    force_n: np.ndarray
    curvature_per_mm: np.ndarray

    def glued(self) -> "State":
        """The same with all layers in one group; no force changes."""
        return replace(self, groups=(tuple(range(len(self.layers))),))

    def with_layer(self, layer: Layer) -> "State":
        """Another layer laid on loose: it is bent to the curve that the others have."""
        count = len(self.layers)
        force = np.concatenate([self.force_n, _forced(layer, self.curvature_per_mm)[None]])
        return State((*self.layers, layer), (*self.groups, (count,)), force, self.curvature_per_mm)

    def moment(self) -> np.ndarray:
        """Bending moment of all fibres, positive where it adds rocker."""
        height = np.stack([layer.fibres()[0] for layer in self.layers])
        return -(self.force_n * height).sum(axis=(0, 1))

    def give_per_n_mm2(self) -> np.ndarray:
        """Curvature for one N·mm more."""
        stiff = 0.0
        for group in self.groups:
            height, area = self._of(group)
            axis = (area * height).sum(0) / area.sum(0)
            stiff = stiff + (area * (height - axis) ** 2).sum(0)
        return 1 / stiff

    def bent_to(self, moment: np.ndarray) -> "State":
        """The state under another moment (c,): one curvature more for all, and no force in any group."""
        more = (moment - self.moment()) * self.give_per_n_mm2()
        force = self.force_n.copy()
        for group in self.groups:
            height, area = self._of(group)
            axis = (area * height).sum(0) / area.sum(0)
            force[list(group)] += (-(height - axis) * more * area).reshape(len(group), 2, -1)
        return replace(self, force_n=force, curvature_per_mm=self.curvature_per_mm + more)

    def _of(self, group: tuple[int, ...]) -> tuple[np.ndarray, np.ndarray]:
        """(2·layers, c) heights and E × area of one group's fibres."""
        height, area = zip(*(self.layers[i].fibres() for i in group), strict=True)
        return np.concatenate(height), np.concatenate(area)


def loose(*layers: Layer) -> State:
    """Layers side by side, held straight."""
    straight = np.zeros(layers[0].width_mm.size)
    forces = np.stack([_forced(layer, straight) for layer in layers])
    return State(layers, tuple((i,) for i in range(len(layers))), forces, straight)


def _forced(layer: Layer, curvature: np.ndarray) -> np.ndarray:
    """Forces in a layer's fibres once it is bent from its own curvature to another."""
    height, area = layer.fibres()
    return -(height - height.mean(0)) * (curvature - layer.cut_per_mm) * area


def middles(length_mm: float) -> np.ndarray:
    """(c,) middles of the cells."""
    return (np.arange(round(length_mm / CELL_MM)) + 0.5) * CELL_MM


def heights(curvature: np.ndarray) -> np.ndarray:
    """(c + 1,) heights at the cells' ends from their curvature, level at the tail tip."""
    slope = np.append(0.0, np.cumsum(curvature) * CELL_MM)
    return np.append(0.0, np.cumsum(slope[:-1] * CELL_MM + curvature * CELL_MM**2 / 2))


def at_rest(
    state: State, weight_n_mm: np.ndarray, points: list[tuple[float, float]], supports: list[tuple[float, float]]
) -> tuple[State, np.ndarray, np.ndarray]:
    """The state on supports (x, height) under a spread weight (c,) and point loads (x, N).

    Returns:
        The state, the heights (c + 1,) and the loads on the supports.
    """
    length = weight_n_mm.size * CELL_MM
    x, ends = middles(length), np.arange(weight_n_mm.size + 1) * CELL_MM
    spread = weight_n_mm * CELL_MM
    below = np.cumsum(spread) - spread / 2
    hung = np.cumsum(below * CELL_MM) - below * CELL_MM / 2
    loads = -hung - sum(load * np.maximum(x - at, 0) for at, load in points)
    pushes = [np.maximum(x - at, 0) for at, _ in supports]
    base = state.curvature_per_mm - state.moment() * state.give_per_n_mm2()
    give = state.give_per_n_mm2()
    free = heights(base + loads * give)
    push = np.stack([heights(one * give) for one in pushes])
    where, wanted = (np.array(one) for one in zip(*supports, strict=True))
    at = np.round(where / CELL_MM).astype(int)
    total = spread.sum() + sum(load for _, load in points)
    turn = (spread * x).sum() + sum(load * place for place, load in points)
    for count in range(len(supports), 1, -1):
        for on in map(list, combinations(range(len(supports)), count)):
            scale = 1e-3
            matrix = np.zeros((count + 2, count + 2))
            matrix[:count, :count] = push[np.ix_(on, at[on])].T
            matrix[:count, count], matrix[:count, count + 1] = 1.0, where[on] * scale
            matrix[count, :count], matrix[count + 1, :count] = 1.0, where[on] * scale
            right = np.append(wanted[on] - free[at[on]], [total, turn * scale])
            answer = np.linalg.solve(matrix, right)
            lies = free + answer[:count] @ push[on] + answer[count] + answer[count + 1] * scale * ends
            if answer[:count].min() >= 0 and (lies[at] - wanted).min() >= -1e-6:
                reactions = np.zeros(len(supports))
                reactions[on] = answer[:count]
                moment = loads + sum(load * one for load, one in zip(reactions, pushes, strict=True))
                return state.bent_to(moment), lies, reactions
    raise AssertionError("no set of supports holds this board")


def above_tangent(curve: np.ndarray, low_point_mm: float) -> np.ndarray:
    """The same heights above the tangent at the low point."""
    at = round(low_point_mm / CELL_MM)
    slope = (curve[at + 1] - curve[at - 1]) / (2 * CELL_MM)
    return curve - curve[at] - slope * (np.arange(curve.size) * CELL_MM - low_point_mm)
