"""What the guide says of the three rockers: the maker's rules for one builder, and what each rule does."""

import csv
import shutil
from types import SimpleNamespace

import numpy as np
import pytest

from generator.board.curve import fair_curve
from generator.figure_sets.rocker_advice import add_advice, advise
from generator.figures import FigureBook
from generator.inputs.builder import Surf
from generator.inputs.rocker_rules import CANDIDATES, RockerRules
from generator.inputs.site import read_builder
from tests.demos import DATA, SLUGS, figures_of

MARA, INES = read_builder(DATA, "mara"), read_builder(DATA, "ines")


def builder_with(inputs=MARA, **changes):
    """The same inputs with another builder; `surf` fields and fields of the builder by name."""
    surf = {name: changes.pop(name) for name in ("where", "how", "skill") if name in changes}
    changes["surf"] = Surf(**{**inputs.builder.surf.model_dump(), **surf})
    return _replaced(inputs, builder=inputs.builder.model_copy(update=changes))


def _replaced(inputs, **changes):
    fields = {name: getattr(inputs, name) for name in inputs.__slots__}
    return type(inputs)(**{**fields, **changes})


def told(inputs):
    """The figures of the advice alone."""
    book = FigureBook()
    add_advice(book, SimpleNamespace(inputs=inputs))
    return book.close()


def numbers(inputs):
    return {key: figure.value for key, figure in told(inputs).values.items()}


@pytest.fixture(scope="module")
def demos():
    return {slug: figures_of(slug) for slug in SLUGS}


def test_the_chosen_candidate_is_the_rocker_that_the_bench_is_set_to(demos):
    for slug, figures in demos.items():
        chosen = [row for row in figures.rows["candidates"] if row["chosen"]]
        assert len(chosen) == (slug != "ines")
        for row in chosen:
            assert row["name"] == figures.said["rocker_choice"]
            assert figures.curves[row["key"]].y == pytest.approx(figures.curves["rocker.wanted"].y, abs=1e-8)
            for part in ("tail", "nose", "flat", "flat_length", "tail_angle", "nose_angle"):
                own = figures.values[f"{row['key']}.{part}"].value
                assert own == pytest.approx(figures.values[f"rocker.{part}"].value, abs=1e-6)


def test_an_agreed_rocker_is_taken_untouched_and_no_rule_counts(demos):
    figures = demos["ines"]
    places, heights = zip(*((at.from_tail_mm, at.height_mm) for at in INES.builder.rocker), strict=True)
    bare = fair_curve(places, heights, length_mm=INES.board.length_mm).curve.from_low_point()
    wanted = figures.curves["rocker.wanted"]
    assert wanted.y == pytest.approx(bare.height_mm(wanted.x_mm), abs=1e-3)  # curves are kept to a micrometre
    assert [figures.values[f"rocker.shift_{part}"].value for part in ("tail", "nose", "flat")] == [0, 0, 0]
    assert advise(INES).agreed == INES.builder.rocker
    other = advise(builder_with(INES, body_mass_kg=120, skill="first season"))
    assert other.agreed == INES.builder.rocker
    assert "advice.rule.choice.tail" not in figures.values


def test_no_candidate_of_any_demo_is_hollow_or_misses_its_heights(demos):
    for slug, figures in demos.items():
        for row in figures.rows["candidates"]:
            assert np.all(np.diff(figures.curves[row["key"]].y, n=2) > -1e-6), (slug, row["name"])
        for candidate in advise(read_builder(DATA, slug)).candidates.values():
            assert candidate.fit.worst_mm < 1.01


def test_the_three_differ_as_their_names_promise(demos):
    for figures in demos.values():
        paddling, between, late = (
            {p: figures.values[f"{row['key']}.{p}"].value for p in ("flat", "nose", "nose_in")}
            for row in figures.rows["candidates"]
        )
        assert paddling["flat"] > between["flat"] > late["flat"]
        assert paddling["nose"] < between["nose"] < late["nose"]
        assert paddling["nose_in"] < between["nose_in"] < late["nose_in"]


def test_a_heavier_surfer_never_gets_a_shorter_flat_part():
    for key in ("paddling", "between", "late"):
        flat = [numbers(builder_with(body_mass_kg=kg))[f"advice.{key}.flat"] for kg in (45, 60, 75, 90, 110, 140)]
        assert flat == sorted(flat)
        assert flat[0] < flat[-1]


def test_less_practice_never_gets_a_shorter_flat_part():
    flat = [
        numbers(builder_with(skill=skill))["advice.between.flat"]
        for skill in ("confident", "some years", "first season")
    ]
    assert flat == sorted(flat)
    assert flat[0] < flat[-1]


def test_a_nose_rider_gets_a_lower_nose_than_one_who_cruises():
    rider, cruiser = (numbers(builder_with(how=how)) for how in ("nose riding", "cruising"))
    for key in ("advice.paddling", "advice.between", "advice.late"):
        assert rider[f"{key}.nose"] < cruiser[f"{key}.nose"]
        assert rider[f"{key}.nose_in"] < cruiser[f"{key}.nose_in"]


def test_a_beach_break_gets_a_higher_nose_than_a_point():
    beach, point = (numbers(builder_with(where=where)) for where in ("beach break", "point"))
    for key in ("advice.paddling", "advice.between", "advice.late"):
        assert beach[f"{key}.nose"] > point[f"{key}.nose"]


def test_the_rules_that_count_add_up_to_what_was_changed():
    for word in CANDIDATES:
        figures = told(builder_with(rocker=word, body_mass_kg=93.0))
        rules = [row["key"] for row in figures.rows["rocker_rules"] if row["slug"] != "length"]
        assert len(rules) == 5
        for end in ("tail", "nose"):
            parts = [figures.values[f"{key}.{end}"].value for key in rules]
            assert sum(parts) == pytest.approx(figures.values[f"rocker.shift_{end}"].value)
        left = [1 - figures.values[f"{key}.flat"].value / 100 for key in rules]
        assert 100 * (1 - np.prod(left)) == pytest.approx(figures.values["rocker.shift_flat"].value)


def test_a_longer_board_takes_more_of_each_rule_in_proportion():
    tobin = read_builder(DATA, "tobin")
    got, rule = numbers(tobin), tobin.rocker_rules.rule("how", "nose riding")
    assert got["advice.length_scale"] == pytest.approx(100 * 2750 / 2300)
    assert got["advice.rule.how.nose"] == pytest.approx(rule.nose_mm * 2750 / 2300)
    assert got["advice.rule.how.flat"] == pytest.approx(rule.flat_pct)


ROWS = MARA.rocker_rules.rows
OTHER = {"tail_mm": 1, "nose_mm": 1, "flat_pct": -1}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.factor}, {row.name}")
def test_every_rule_changes_a_figure_or_a_word(row):
    """Each column of each row, for a builder for whom it counts."""
    word = row.name if row.factor == "candidate" else "between"
    inputs = builder_with(rocker=word, **({row.factor: row.name} if row.factor in ("where", "how", "skill") else {}))
    before = told(inputs)
    changes = [{"why": "Another reason."}]
    if row.factor == "length":
        changes.append({"name": "2200 mm"})
    else:
        changes += [{column: getattr(row, column) + step} for column, step in OTHER.items()]
    if row.factor == "body mass":
        changes.append({"name": "80 kg"})
    for change in changes:
        other = type(row)(**{**{name: getattr(row, name) for name in row.__slots__}, **change})
        rules = RockerRules(tuple(other if one == row else one for one in ROWS))
        after = told(_replaced(inputs, rocker_rules=rules))
        numbers_change = (after.values, after.curves) != (before.values, before.curves)
        assert numbers_change if "why" not in change else after.rows != before.rows, change


@pytest.mark.parametrize(
    "change",
    [
        {"where": "reef"},
        {"how": "turning"},
        {"skill": "confident"},
        {"body_mass_kg": 69.0},
        {"rocker": "later take-off"},
    ],
    ids=str,
)
def test_every_answer_of_the_builder_changes_the_wanted_rocker(change):
    before, after = (advise(inputs).candidates[advise(inputs).chosen] for inputs in (MARA, builder_with(**change)))
    assert before.heights != after.heights


def test_an_edit_of_the_table_is_what_the_guide_shows(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    table = tmp_path / "data" / "rocker_rules.csv"
    lines = table.read_text("utf-8").splitlines()
    row = next(csv.reader([line for line in lines if line.startswith("where,beach break,")]))
    text = "\n".join(
        "where,beach break,7,9,1,As we like it." if line.startswith("where,beach") else line for line in lines
    )
    table.write_text(text + "\n", "utf-8")
    figures = told(read_builder(tmp_path / "data", "mara"))
    assert figures.values["advice.rule.where.tail"].value == 7 != float(row[2])
    assert figures.rows["rocker_rules"][0]["why"] == "As we like it."
