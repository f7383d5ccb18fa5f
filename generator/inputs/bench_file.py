"""A file of benches to be solved, in the form of tests/published/data/bench_cases.json, for checks from outside.

Keys of the file carry their units; names here are spelt out (mm, N, N·mm², 1/mm). x runs from the tail to the nose;
loads press down, heights and curvature are up positive. What a file says about itself and what it expects is not looked
at.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field

from generator.inputs.bench_checks import bench_faults
from generator.inputs.fault import BadInput, Fault
from generator.inputs.fields import Part
from generator.inputs.fit_json import Name, Number, fit_json
from generator.inputs.read_json import MOST_BYTES, first_of, read_json

EXAMPLE = "the example in the README"

Place = Annotated[float, Number(-1e6, 1e6)]
Stiffness = Annotated[float, Number(1e-3, 1e15)]
SpreadLoad = Annotated[float, Number(-1e6, 1e6)]
Curvature = Annotated[float, Number(-1e3, 1e3)]
MOST_PIECES = 500


class StiffnessPiece(Part):
    """One stretch of the board with its bending stiffness E·I."""

    x0_mm: Place
    x1_mm: Place
    stiffness_n_mm2: Stiffness = Field(alias="EI")


class LoadPiece(Part):
    """A spread load, down positive, that runs linearly from one end of its stretch to the other."""

    x0_mm: Place
    x1_mm: Place
    load_start_n_mm: SpreadLoad = Field(alias="w0")
    load_end_n_mm: SpreadLoad = Field(alias="w1")


class CurvaturePiece(Part):
    """The curvature that nothing bends, rocker positive, linear in its stretch; 0 where no piece is given."""

    x0_mm: Place
    x1_mm: Place
    curvature_start_per_mm: Curvature = Field(alias="k0")
    curvature_end_per_mm: Curvature = Field(alias="k1")


class PointLoad(Part):
    """A load at one place, down positive."""

    x_mm: Place
    load_n: Annotated[float, Number(-1e9, 1e9)] = Field(alias="P_N")


class Support(Part):
    """A support that pushes and cannot pull, and the height of its top."""

    x_mm: Place
    height_mm: Annotated[float, Number(-1e6, 1e6)]


class Bench(Part):
    """The board, what loads it, what it lies on, and the places at which its curve is asked for."""

    length_mm: Annotated[float, Number(1e-3, 1e6)] = Field(alias="L_mm")
    stiffness: Annotated[tuple[StiffnessPiece, ...], Field(alias="EI_Nmm2", min_length=1, max_length=MOST_PIECES)]
    spread_loads: Annotated[tuple[LoadPiece, ...], Field(alias="distributed_load_N_per_mm", max_length=MOST_PIECES)]
    point_loads: Annotated[tuple[PointLoad, ...], Field(max_length=1000)]
    supports: Annotated[tuple[Support, ...], Field(min_length=1, max_length=500)]
    free_curvature: Annotated[
        tuple[CurvaturePiece, ...], Field(alias="stress_free_curvature_per_mm", max_length=MOST_PIECES)
    ]
    stations_mm: Annotated[tuple[Place, ...], Field(max_length=100_000)]


class Case(Part):
    """One bench and its name; the other keys are remarks."""

    name: Annotated[str, Name(200)]
    input: Bench
    why: Any = None
    expected: Any = None
    methods: Any = None
    agreement: Any = None


class BenchFile(Part):
    """The whole file; the keys beside `cases` are remarks."""

    cases: Annotated[tuple[Case, ...], Field(min_length=1, max_length=1000)]
    schema_name: Any = Field(default=None, alias="schema")
    units: Any = None
    conventions: Any = None
    tolerances: Any = None
    title: Any = None


@dataclass(frozen=True, slots=True)
class Benches:
    """The cases of a file, checked, and where each stands in it: "benches.json:4"."""

    cases: tuple[Case, ...]
    places: tuple[str, ...]


def read_benches(path: Path) -> Benches:
    """All cases of the file at `path`.

    Raises:
        BadInput: all that is wrong in the file, told with the path as given.
    """
    place = "".join(char if char.isprintable() else "\N{REPLACEMENT CHARACTER}" for char in str(path))
    raw = _bytes_of(path, place)
    if not raw.strip():
        raise BadInput([Fault(f"{place}:1", "the file", "empty", "an object with cases", EXAMPLE)])
    document = read_json(raw, place)
    fitted = fit_json(BenchFile, document)
    faults = [*fitted.faults, *bench_faults(fitted)]
    if faults or fitted.model is None:
        raise BadInput(first_of(faults))
    cases = fitted.model.cases
    return Benches(cases, tuple(document.at(("cases", number)) for number in range(len(cases))))


def _bytes_of(path: Path, place: str) -> bytes:
    """The file's bytes, one more than MOST_BYTES at the most."""
    try:
        if path.is_file():
            with path.open("rb") as file:
                return file.read(MOST_BYTES + 1)
        problem = "not a file" if path.exists() else "not there"
    except (OSError, ValueError) as error:
        problem = f"not readable ({getattr(error, 'strerror', None) or 'its name'})"
    raise BadInput([Fault(place, "the file", problem, "a file that can be read", EXAMPLE)])
