"""JSON Schemas of the input files, for editors: keys, allowed words, ranges, and text where a unit may be written."""

from __future__ import annotations

from typing import Any

from generator.inputs.bench_file import BenchFile
from generator.inputs.board import Board
from generator.inputs.builder import Builder
from generator.inputs.fields import Part
from generator.inputs.maker import Maker

_MODELS: dict[str, type[Part]] = {"board": Board, "builder": Builder, "maker": Maker, "bench-cases": BenchFile}


def schemas() -> dict[str, dict[str, Any]]:
    """The schema of each kind of file, by the file name without `.json`."""
    return {
        name: {"$schema": "https://json-schema.org/draft/2020-12/schema", **model.model_json_schema()}
        for name, model in _MODELS.items()
    }
