"""The data folder as a whole."""

import os

import pytest

from generator.guide.stages import BUILD_STAGES, STAGES
from generator.inputs import stages
from generator.inputs.fault import BadInput, Fault
from generator.inputs.site import builder_slugs, misnamed, read_builder, read_site


def refused(read, *args):
    with pytest.raises(BadInput) as bad:
        read(*args)
    return [str(fault) for fault in bad.value.faults]


def test_a_site_has_its_maker_its_boards_and_its_builders(data):
    site = read_site(data)
    assert set(site.boards) == {"dunlin", "heron", "teal"}
    assert site.builder_slugs == ("ines", "mara", "tobin", "wen") == builder_slugs(data)
    assert site.maker.defaults.trace_margin.tips_mm == 30


def test_a_builder_comes_with_all_that_they_refer_to(data):
    inputs = read_builder(data, "tobin")
    assert (inputs.slug, inputs.board_slug, inputs.board.name) == ("tobin", "heron", "Heron")
    assert inputs.species.name == inputs.board.panel.timber == "Paulownia"
    assert {tool for tool in inputs.builder.tools} <= {tool.name for tool in inputs.tools}
    assert inputs.builder.body_mass_kg == pytest.approx(190 * 0.45359237, abs=1e-12)
    assert inputs.builder.table.readings[1].from_tail_mm == pytest.approx(914.4, abs=1e-12)
    assert inputs.builder.glue.lowest_c == 10
    assert inputs.builder.evenings.days == (5, 6)
    assert inputs.builder.measured.panel_mass_kg is None
    assert inputs.builder.rocker == "between"


def test_a_bare_stiffness_gets_an_assumed_range_and_a_given_range_is_kept(data):
    panel, spine = read_builder(data, "tobin").board.panel.stiffness_mpa, read_builder(data, "mara").board.spine
    assert (panel.value, panel.low, panel.high, panel.kind) == (4300, 3225, 5375, "assumed")
    stiffness = spine.stiffness_mpa
    assert (stiffness.value, stiffness.low, stiffness.high) == (6500, 5000, 8000)
    assert stiffness.kind == "maker's choice"


def test_an_unknown_builder_is_refused_with_the_nearest(data):
    assert refused(read_builder, data, "marra") == [
        "builders/marra.yaml: the builder is not there; allowed: ines, mara, tobin, wen; try mara"
    ]


@pytest.mark.parametrize("slug", ["", "../maker", "mara.yaml", "Mara", "a/b", "\x1b[31m"])
def test_a_slug_never_leads_out_of_the_folder(data, slug):
    (message,) = refused(read_builder, data, slug)
    assert "the builder is not there" in message
    assert message.isprintable()


def test_a_folder_without_files_says_what_belongs_there(tmp_path):
    assert builder_slugs(tmp_path) == ()
    found = refused(read_site, tmp_path)
    assert any(f.startswith("maker.yaml: the file is not there") for f in found)
    assert any(f.startswith("boards: the folder of boards is empty") for f in found)


@pytest.mark.parametrize(
    "name",
    ["maker.yaml", "timber.csv", "practice.csv", "household.csv", "rocker_rules.csv", "boards/dunlin.yaml"],
)
def test_a_missing_file_is_a_fault(folder, name):
    (folder / name).unlink()
    found = refused(read_builder, folder, "mara")
    assert len(found) == 1
    assert name in found[0] or "the board is dunlin; allowed: a name in the folder `boards`: heron, teal" in found[0]


def test_a_folder_in_the_place_of_a_file_is_a_fault(folder):
    (folder / "maker.yaml").unlink()
    (folder / "maker.yaml").mkdir()
    (message,) = refused(read_builder, folder, "mara")
    assert message.startswith("maker.yaml: the file is not a file")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_in_the_place_of_a_file_is_a_fault_and_does_not_wait(folder):
    (folder / "maker.yaml").unlink()
    os.mkfifo(folder / "maker.yaml")
    assert len(refused(read_builder, folder, "mara")) == 1


def test_file_names_that_are_no_slugs_are_named_with_the_nearest(folder):
    for name in ("Ann Smith.yaml", "bo.yml", "été.yaml", ".hidden"):
        (folder / "builders" / name).write_text("name: x\n", "utf-8")
    ways = {fault.found: fault.nearest for fault in misnamed(folder)}
    assert ways == {"Ann Smith.yaml": "ann-smith.yaml", "bo.yml": "bo.yaml", "été.yaml": "t.yaml"}
    assert builder_slugs(folder) == ("ines", "mara", "tobin", "wen")
    assert len(refused(read_site, folder)) == 3


def test_one_bad_builder_does_not_touch_another(folder):
    (folder / "builders" / "wen.yaml").write_text("[", "utf-8")
    assert read_builder(folder, "mara").builder.name == "Mara Quill"
    assert refused(read_builder, folder, "wen")[0].startswith("builders/wen.yaml:1: ")


def test_reading_is_the_same_twice(data):
    assert read_builder(data, "ines") == read_builder(data, "ines")


def test_what_was_read_cannot_be_changed(data):
    inputs = read_builder(data, "mara")
    with pytest.raises(Exception, match="frozen"):
        inputs.board.length_mm = 1
    with pytest.raises(TypeError):
        read_site(data).boards["x"] = inputs.board


def test_the_stages_of_the_files_are_those_of_the_guide():
    assert tuple(stage.slug for stage in BUILD_STAGES) == stages.BUILD_STAGES
    assert {stage.slug for stage in STAGES} == set(stages.NOTED_STAGES)


def test_faults_sort_by_file_and_line_and_come_once():
    a, b, c = Fault("x:10", "f", "a", "b", "c"), Fault("x:9", "f", "a", "b", ""), Fault("w", "f", "a", "b", "c")
    bad = BadInput([a, b, a, c])
    assert bad.faults == (c, b, a)
    assert str(bad) == "w: f is a; allowed: b; try c\nx:9: f is a; allowed: b\nx:10: f is a; allowed: b; try c"
