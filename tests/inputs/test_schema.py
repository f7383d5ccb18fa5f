"""JSON Schemas: the demo files fit, the written files are current, and editors are told of slips."""

import json

import jsonschema
import pytest

from generator.inputs.read import read_document
from generator.inputs.schema import schemas

FILES = ("maker.yaml", *(f"boards/{b}.yaml" for b in ("dunlin", "heron", "teal")))
BUILDERS = tuple(f"builders/{b}.yaml" for b in ("ines", "mara", "tobin", "wen"))
KIND = {"boards": "board", "builders": "builder", "maker.yaml": "maker"}


def typed(data, name):
    return read_document((data / name).read_bytes(), name).data


def checker(name):
    schema = schemas()[KIND[name.split("/")[0]]]
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.mark.parametrize("name", [*FILES, *BUILDERS])
def test_a_demo_file_fits_its_schema_and_names_it(data, name):
    checker(name).validate(typed(data, name))
    first = (data / name).read_text("utf-8").splitlines()[0]
    up = "../" if "/" in name else ""
    assert first == f"# yaml-language-server: $schema={up}schema/{KIND[name.split('/')[0]]}.json"


@pytest.mark.parametrize("name", [*FILES, *BUILDERS])
def test_a_demo_file_is_marked_as_invented(data, name):
    assert (data / name).read_text("utf-8").splitlines()[1].startswith("# Invented for the demo")


@pytest.mark.parametrize("kind", ["board", "builder", "maker"])
def test_the_written_schema_is_current(data, kind):
    """Renew with: python -m generator schema"""
    assert json.loads((data / "schema" / f"{kind}.json").read_text("utf-8")) == schemas()[kind]


@pytest.mark.parametrize(
    ("name", "path", "value"),
    [
        ("boards/dunlin.yaml", ("length",), 60_000),
        ("boards/dunlin.yaml", ("length",), True),
        ("boards/dunlin.yaml", ("tail",), "pointy"),
        ("boards/dunlin.yaml", ("frame_bottom",), "strait"),
        ("boards/dunlin.yaml", ("lenght",), 2300),
        ("boards/dunlin.yaml", ("spine", "stiffness"), {"value": 6500}),
        ("builders/mara.yaml", ("things",), []),
        ("builders/mara.yaml", ("helpers",), 1.5),
        ("builders/mara.yaml", ("glue", "type"), "PVA"),
        ("builders/mara.yaml", ("start",), "3.2.2027"),
        ("maker.yaml", ("defaults", "units"), "feet"),
    ],
)
def test_a_slip_is_seen_by_the_schema(data, name, path, value):
    document = typed(data, name)
    group = document
    for part in path[:-1]:
        group = group[part]
    group[path[-1]] = value
    assert not checker(name).is_valid(document)


@pytest.mark.parametrize("length", ["9 ft 2 in", "2.3 m", "7' 6 1/2\"", 2300, 2300.5])
def test_units_may_be_written(data, length):
    document = typed(data, "boards/dunlin.yaml")
    document["length"] = length
    checker("boards/dunlin.yaml").validate(document)
