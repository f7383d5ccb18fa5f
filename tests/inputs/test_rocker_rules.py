"""The maker's rules for rockers: how the table is read, and each thing that may be wrong with it by its line."""

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.rocker_rules import CANDIDATES, FACTORS, read_rocker_rules
from generator.inputs.site import read_builder, read_site

HEADER = "factor,name,tail_mm,nose_mm,flat_pct,why"
GOOD = (
    "where,point,0,0,0,w",
    "how,turning,5,2,-2,w",
    "skill,some years,0,0,0,w",
    "body mass,75 kg,0,0,2,w",
    "length,2.3 m,0,0,0,w",
    "candidate,easier paddling,-4,-12,8,w",
    "candidate,between,0,0,0,w",
    "candidate,later take-off,3,12,-5,w",
)


def read(*rows):
    return read_rocker_rules("\n".join((HEADER, *rows)).encode(), "t.csv")


def refused(*rows):
    with pytest.raises(BadInput) as bad:
        read(*rows)
    return [str(fault) for fault in bad.value.faults]


def changed(old, new):
    return [new if row == old else row for row in GOOD]


def test_the_rules_are_found_by_factor_and_name():
    rules = read(*GOOD, "where,reef,3,4,0,w")
    assert rules.names("where") == ("point", "reef")
    assert rules.rule("where", "reef").nose_mm == 4
    assert rules.body_mass.flat_pct == 2
    assert (rules.reference_mass_kg, rules.reference_length_mm) == (75, 2300)
    with pytest.raises(KeyError, match="where, beach"):
        rules.rule("where", "beach")


def test_references_may_be_written_in_other_units():
    rows = [row.replace("75 kg", "165 lb").replace("2.3 m", "7 ft 6 in") for row in GOOD]
    rules = read(*rows)
    assert rules.reference_mass_kg == pytest.approx(165 * 0.45359237)
    assert rules.reference_length_mm == pytest.approx(90 * 25.4)


def test_the_demo_table_has_a_reason_for_every_rule_and_what_is_common_practice_holds_in_it(data):
    rules = read_builder(data, "mara").rocker_rules
    assert {row.factor for row in rules.rows} == set(FACTORS)
    assert all(row.why.endswith(".") for row in rules.rows)
    where, how, skill = ({name: rules.rule(f, name) for name in rules.names(f)} for f in ("where", "how", "skill"))
    assert where["beach break"].nose_mm > where["point"].nose_mm  # late take-offs on steep waves want a higher nose
    assert how["nose riding"].nose_mm < how["cruising"].nose_mm  # standing on the nose wants it flat
    assert how["turning"].tail_mm > how["cruising"].tail_mm  # a tail that rises turns
    assert skill["first season"].flat_pct > skill["confident"].flat_pct  # beginners are helped by a flat middle
    assert rules.body_mass.flat_pct > 0  # and so are heavier surfers
    assert rules.rule("candidate", "later take-off").nose_mm > 0 > rules.rule("candidate", "easier paddling").nose_mm


@pytest.mark.parametrize(
    ("old", "new", "message", "way"),
    [
        (
            GOOD[0],
            "wher,point,0,0,0,w",
            "t.csv:2: the column `factor` is wher; allowed: one of where, how, skill,",
            "where",
        ),
        (GOOD[0], "where,point,0,60,0,w", "t.csv:2: the column `nose_mm` is 60; allowed: -40 to 40", "40"),
        (GOOD[0], "where,point,-41.5,0,0,w", "t.csv:2: the column `tail_mm` is -41.5; allowed: -40 to 40", "-40"),
        (GOOD[1], "how,turning,5,2,30,w", "t.csv:3: the column `flat_pct` is 30; allowed: -25 to 25", "25"),
        (GOOD[1], "how,turning,5,x,0,w", "t.csv:3: the column `nose_mm` is x; allowed: a number with a dot", ""),
        (GOOD[1], "how,turning,5,2,0,", "t.csv:3: the column `why` is empty; allowed: text", ""),
        (
            GOOD[1],
            f"how,{'t' * 99},5,2,0,w",
            "t.csv:3: the column `name` is 99 characters long",
            "a text of 80 characters",
        ),
        (
            GOOD[3],
            "body mass,750 kg,0,0,2,w",
            "t.csv:5: the column `name` is 750 kg; allowed: 30 kg to 150 kg",
            "150 kg",
        ),
        (GOOD[3], "body mass,heavy,0,0,2,w", "t.csv:5: the column `name` is heavy (", ""),
        (GOOD[3], "body mass,75 kg,0,0,9,w", "t.csv:5: the column `flat_pct` is 9; allowed: -5 to 5", "5"),
        (GOOD[3], "body mass,75 kg,0,12,2,w", "t.csv:5: the column `nose_mm` is 12; allowed: -10 to 10", "10"),
        (GOOD[4], "length,2.3 m,1,0,0,w", "t.csv:6: the column `tail_mm` is 1; allowed: 0 (this row only says", "0"),
        (
            GOOD[5],
            "candidate,easier paddlin,-4,-12,8,w",
            "t.csv:7: the column `name` is easier paddlin; allowed: one of easier paddling, between, later take-off",
            "easier paddling",
        ),
        (
            GOOD[7],
            "candidate,later take-off,3,0,-5,w",
            "t.csv:9: the column `nose_mm` is 0; allowed: more than 0 (the nose of between)",
            "1",
        ),
        (
            GOOD[6],
            "candidate,between,0,0,9,w",
            "t.csv:8: the column `flat_pct` is 9; allowed: at most 8 (as flat as easier paddling)",
            "8",
        ),
    ],
)
def test_a_bad_cell_is_a_fault_with_its_line(old, new, message, way):
    found = refused(*changed(old, new))
    assert len(found) == 1, found
    assert found[0].startswith(message)
    assert found[0].partition("; try ")[2] == way


@pytest.mark.parametrize("factor", FACTORS)
def test_every_factor_needs_a_row(factor):
    found = refused(*(row for row in GOOD if not row.startswith(f"{factor},")))
    assert len(found) == 1
    assert found[0].startswith(f"t.csv: the factor `{factor}` is without a row; allowed: one row or more for each of")
    assert found[0].endswith(f"try adding a row that begins with `{factor},`")


@pytest.mark.parametrize("name", CANDIDATES)
def test_every_candidate_needs_its_row(name):
    (found,) = refused(*(row for row in GOOD if f",{name}," not in row))
    assert found.startswith(f"t.csv: the candidate `{name}` is without a row; allowed: one row for each of")


def test_a_name_stands_once_for_each_factor():
    assert read(*GOOD, "how,point,1,0,0,w").names("how") == ("turning", "point")
    (found,) = refused(*GOOD, "where,point,1,0,0,w")
    assert found.startswith("t.csv:10: where, point is given again (first in line 2); allowed: each once")


@pytest.mark.parametrize("row", ["body mass,80 kg,0,0,1,w", "length,2 m,0,0,0,w"])
def test_a_reference_stands_once(row):
    (found,) = refused(*GOOD, row)
    assert "there again" in found
    assert found.startswith("t.csv:10: the factor `")


def test_all_that_is_wrong_comes_at_once():
    assert len(refused("where,point,99,99,99,w", *GOOD[1:], "what,is this,0,0,0,w")) == 4


def test_a_fault_in_the_table_is_told_for_the_site_and_for_each_builder(data, folder, edit):
    edit("rocker_rules.csv", ("where,reef,3,4,", "where,reef,3,400,"))
    for read_all in (lambda: read_site(folder), lambda: read_builder(folder, "mara")):
        with pytest.raises(BadInput, match=r"rocker_rules\.csv:\d+: the column `nose_mm` is 400; allowed: -40 to 40"):
            read_all()


@pytest.mark.parametrize(
    ("new", "message", "way"),
    [
        ("rocker: later takeoff", "allowed: one of easier paddling, between, later take-off", "later take-off"),
        ("rocker: 5", "the rocker is 5; allowed: one of easier paddling,", "easier paddling"),
        (
            "rocker: [{from_tail: 0, height: 9}]",
            "the rocker is a list of 1; allowed: at least 4 entries",
            "adding what is missing",
        ),
    ],
)
def test_a_builders_rocker_is_a_list_or_one_of_the_three_words(faults, new, message, way):
    found = faults("builders/wen.yaml", ("rocker: later take-off", new), builder="wen")
    assert message in found[0]
    assert found[0].partition("; try ")[2] == way


def test_a_builder_who_names_no_rocker_gets_the_one_between(data):
    assert [read_builder(data, slug).builder.rocker for slug in ("mara", "wen")] == ["between", "later take-off"]
    assert len(read_builder(data, "ines").builder.rocker) == 8


def test_a_makers_file_of_before_is_told_that_its_tuning_is_gone(faults):
    (found,) = faults("maker.yaml", ("defaults:", "tuning: {}\ndefaults:"))
    assert "the key `tuning` is not known; allowed: name, contact, site, defaults" in found
