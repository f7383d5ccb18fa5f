"""No field of the input files that changes nothing: each is varied, and a figure or a page must change."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from generator.deliver.sources import read_sources
from generator.drawings import DRAWINGS
from generator.figure_sets import make_figures
from generator.guide.pages import write_guide
from generator.inputs.fault import BadInput
from generator.inputs.site import read_builder

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "site_data"
BUILDERS = ("ines", "mara", "wen")
SOURCES = read_sources()
OTHER_WORDS = {
    "sizes": ("frame", "finished"),
    "tail": ("round", "pointed"),
    "nose": ("round", "pointed"),
    "open_to": ("top", "bottom"),
    "frame_bottom": ("straight", "to the rocker"),
    "timber": ("Balsa", "Western redcedar"),
    "units": ("inches", "metric"),
    "kind": ("crossbar", "block", "sheet", "shim", "extruded polystyrene", "polyurethane"),
    "type": ("thickened epoxy", "polyurethane", "pva", "varnish", "resin"),
    "water_class": ("D3", "D4"),
    "method": ("spread", "bead"),
    "stage": ("frame", "trace"),
    "off_bench_after": ("top panel", "bottom panel"),
    "days": ("Wednesday", "Friday"),
    "where": ("reef", "point"),
    "how": ("turning", "learning"),
    "skill": ("confident", "first season"),
    "rocker": ("easier paddling", "between"),
    "board": ("dunlin", "teal"),
    "holds": ("tail",),
    "built": ("laminations", "strips"),
    "water": ("fresh", "sea"),
    "tool": ("block plane", "scraper"),
    "photo_first": ("rails", "inside"),
    "tools": ("hand plane", "shop vacuum"),
    "contact": ("other@example.org",),
    "site": ("https://example.org/other/",),
    "start": ("2027-05-04",),
}
OTHER_DAYS = ("2027-02-09", "2027-02-11", "2027-02-13", "2027-01-20", "2027-01-29")
ADDED_TO = "mara.yaml"
ADDED = {
    "measured": {
        "panel_sag": {"apart": "1400", "weight": "2", "drop": "14"},
        "cured": [
            {"from_tail": place, "height": height}
            for place, height in (("0", "306"), ("400", "262"), ("1000", "246"), ("1600", "265"), ("2300", "365"))
        ],
        "with_top": [
            {"from_tail": place, "height": height}
            for place, height in (
                *(("0", "213"), ("415", "165"), ("835", "147"), ("1255", "148")),
                *(("1675", "167"), ("2095", "222"), ("2300", "273")),
            )
        ],
        "finished_mass": "9.4",
    }
}
"""What no demo builder has got to yet."""
SHARES = (1.05, 0.95, 1.2, 0.8, 1.002, 2.0, 0.5)


class Words(yaml.SafeLoader):
    """Every scalar as the text that was typed."""


class Plain(yaml.SafeDumper):
    """Every text as a plain scalar, unquoted wherever that can be."""


Words.yaml_implicit_resolvers = Plain.yaml_implicit_resolvers = {}


def load(path: Path):
    tree = yaml.load(path.read_text("utf-8"), Words)
    return tree | ADDED if path.name == ADDED_TO else tree


def copied(data: Path) -> Path:
    """The demo files, one builder's with all that can be measured."""
    shutil.copytree(DATA, data)
    write(data / "builders" / ADDED_TO, load(DATA / "builders" / ADDED_TO))
    return data


def leaves(node, path=()) -> Iterator[tuple]:
    """Paths to scalars; of a list only the second entry (or the only one) counts, the others are alike."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from leaves(value, (*path, key))
    elif isinstance(node, list):
        if node:
            yield from leaves(node[min(1, len(node) - 1)], (*path, min(1, len(node) - 1)))
    else:
        yield path


def at(node, path):
    for step in path:
        node = node[step]
    return node


def name_of(path) -> str:
    return next(step for step in reversed(path) if isinstance(step, str))


def others(path, typed: str) -> Iterator[str]:
    name = name_of(path)
    if name in OTHER_WORDS and not typed.lstrip("-")[0].isdigit():
        yield from (word for word in OTHER_WORDS[name] if word != typed)
    elif name in {"name", "material"} or "notes" in path:
        yield f"{typed} other"
    elif name == "start":
        yield from OTHER_WORDS["start"]
    elif re.fullmatch(r"\d{4}-\d\d-\d\d", typed):
        yield from OTHER_DAYS
    else:
        yield from other_numbers(typed)


def other_numbers(typed: str) -> Iterator[str]:
    number, _, unit = typed.partition(" ")
    if "/" in number:
        yield from ("0.4", "0.6")
        return
    value = float(number)
    if value == 0:
        yield from ("1", "2", "-1")
    elif value == int(value) and abs(value) < 20 and not unit:
        yield from (str(int(value) + step) for step in (1, -1, 2, -2))
    for share in SHARES:
        yield f"{value * share:.4f} {unit}".strip()


def told(data: Path, slug: str):
    figures = make_figures(read_builder(data, slug))
    return figures, write_guide(figures, dict.fromkeys(DRAWINGS, "<svg></svg>"), SOURCES)


@pytest.fixture(scope="module")
def plain(tmp_path_factory):
    data = copied(tmp_path_factory.mktemp("plain") / "data")
    return {slug: told(data, slug) for slug in BUILDERS}


def files_of(slug):
    builder = Path("builders") / f"{slug}.yaml"
    return (builder, Path("boards") / f"{load(DATA / builder)['board']}.yaml")


def cases():
    """Each named field once, with every (builder, file, path) in which it may show."""
    found: dict[tuple, list] = {}
    for slug in BUILDERS:
        for file in files_of(slug):
            for path in leaves(load(DATA / file)):
                shape = (str(file.parent), *(step for step in path if isinstance(step, str)))
                found.setdefault(shape, []).append((slug, file, path))
    for path in leaves(load(DATA / "maker.yaml")):
        found[("maker", *(step for step in path if isinstance(step, str)))] = [("mara", Path("maker.yaml"), path)]
    return [pytest.param(places, id="-".join(shape)) for shape, places in found.items()]


def changed(data: Path, slug: str, plain) -> bool | str:
    """Whether the guide changed, or why the file was refused."""
    try:
        figures = make_figures(read_builder(data, slug))
        before, pages = plain[slug]
        if (figures.values, figures.curves) != (before.values, before.curves):
            return True
        return write_guide(figures, dict.fromkeys(DRAWINGS, "<svg></svg>"), SOURCES) != pages
    except BadInput as bad:
        return str(bad)


def unsay_what_overrides(data: Path, slug: str) -> None:
    """A default counts only where the files say nothing."""
    builder, board = files_of(slug)
    for file, key in ((builder, "units"), (board, "trace_margin")):
        tree = load(data / file)
        tree.pop(key, None)
        write(data / file, tree)


def write(path: Path, tree) -> None:
    path.write_text(yaml.dump(tree, Dumper=Plain, width=10_000), "utf-8")


@pytest.mark.parametrize("places", cases())
def test_varying_a_field_changes_a_figure_or_a_page(places, tmp_path, plain):
    answers = []
    for number, (slug, file, path) in enumerate(places):
        typed_before = at(load(DATA / file), path)
        data = copied(tmp_path / str(number))
        if "defaults" in path:
            unsay_what_overrides(data, slug)
        tree = load(DATA / file)
        for other in others(path, at(tree, path)):
            at(tree, path[:-1])[path[-1]] = other
            if name_of(path) == "holds":  # each block stands there once: the two change places
                at(tree, path[:-2])[0]["holds"] = typed_before
            if path == ("length",):  # the rocker must reach from tip to tip
                tree["rocker"][-1]["from_tail"] = other
            write(data / file, tree)
            answers.append((slug, other, changed(data, slug, plain)))
            refused = str(answers[-1][-1])
            if answers[-1][-1] is True or (name_of(path) == "holds" and "its block" in refused):
                return
    pytest.fail(f"{places}: tried {answers}")
