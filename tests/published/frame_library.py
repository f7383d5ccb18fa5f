"""A bench as a model of PyNiteFEA, a structural frame library: for checks and as a yardstick of speed."""

import itertools

import numpy as np
from Pynite import FEModel3D

from generator.bench.beam import Beam


def frame_model(beam: Beam, x_mm: np.ndarray, height_mm: np.ndarray) -> tuple[FEModel3D, np.ndarray]:
    """The beam held at these places and heights, and the model's nodes.

    Bending is about z, y is up; E is 1, so the section's inertia is E·I. The library knows no free curvature k0; it is
    given as the forces at nodes that do the same work, ∫ EI k0 δy'' = [EI k0 δy'] − [(EI k0)' δy] for each member.
    """
    model = FEModel3D()
    model.add_material("wood", 1.0, 1.0, 0.3, 0.0)
    for j, stiffness in enumerate(beam.stiffness_n_mm2):
        model.add_section(f"piece {j}", 1e6, float(stiffness), float(stiffness), 1e6)
    nodes = np.unique(np.concatenate([beam.breaks_mm, x_mm, [p.x_mm for p in beam.point_loads]]))
    force, turn = np.zeros(nodes.size), np.zeros(nodes.size)
    for i, place in enumerate(nodes):
        model.add_node(f"{i}", float(place), 0.0, 0.0)
        model.def_support(f"{i}", i == 0, bool(np.isin(place, x_mm)), True, True, True, False)
    for i, ends in enumerate(itertools.pairwise(nodes)):
        j = int(np.searchsorted(beam.breaks_mm, ends[0], side="right")) - 1
        piece = beam.breaks_mm[j : j + 2]
        load = np.interp(ends, piece, [beam.load_start_n_mm[j], beam.load_end_n_mm[j]])
        free = np.interp(ends, piece, [beam.free_curvature_start_per_mm[j], beam.free_curvature_end_per_mm[j]])
        model.add_member(f"{i}", f"{i}", f"{i + 1}", "wood", f"piece {j}")
        model.add_member_dist_load(f"{i}", "FY", -float(load[0]), -float(load[1]))
        bends = beam.stiffness_n_mm2[j] * free
        turn[i : i + 2] += bends * [-1, 1]
        force[i : i + 2] += (bends[1] - bends[0]) / (ends[1] - ends[0]) * np.array([1, -1])
    for point in beam.point_loads:
        force[np.searchsorted(nodes, point.x_mm)] -= point.load_n
    for i in range(nodes.size):
        if force[i]:
            model.add_node_load(f"{i}", "FY", float(force[i]))
        if turn[i]:
            model.add_node_load(f"{i}", "MZ", float(turn[i]))
    for place, level in zip(x_mm, height_mm, strict=True):
        model.def_node_disp(f"{int(np.searchsorted(nodes, place))}", "DY", float(level))
    return model, nodes
