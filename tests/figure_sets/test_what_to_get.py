"""What the demo builders have to get, held against what their own files say they have."""

import pytest

from generator.build.works import GOES
from generator.inputs.site import builder_slugs, read_builder
from tests.demos import DATA, figures_of

INPUTS = {slug: read_builder(DATA, slug) for slug in builder_slugs(DATA)}


@pytest.fixture(scope="module")
def demos():
    return {slug: figures_of(slug) for slug in INPUTS}


def items(figures, name):
    return [item for group in figures.rows[name] for item in group["items"]]


@pytest.mark.parametrize("slug", INPUTS)
def test_every_amount_and_size_is_a_figure_above_nothing(slug, demos):
    figures = demos[slug]
    for item in [item for name in ("shop_buy", "shop_borrow", "shop_check") for item in items(figures, name)]:
        if item["amount"]:
            assert figures.values[item["amount"]].value > 0, item
        if item["size"]:
            assert item["size"] in figures.values or f"{item['size']}.width" in figures.values, item


@pytest.mark.parametrize("slug", INPUTS)
def test_lists_run_from_the_stage_that_the_builder_is_at(slug, demos):
    ahead = list(GOES)[list(GOES).index(INPUTS[slug].builder.stage) :]
    for name in ("shop_buy", "shop_borrow"):
        stages = [group["stage"] for group in demos[slug].rows[name]]
        assert stages == [stage for stage in ahead if stage in stages]


@pytest.mark.parametrize("slug", INPUTS)
def test_a_tool_is_missed_only_where_nothing_of_its_use_is_there_and_once_a_use(slug, demos):
    have = set(INPUTS[slug].builder.tools)
    uses = {tool.name.lower(): tool.use for tool in INPUTS[slug].tools}
    missed = [tool["name"].lower() for tool in demos[slug].rows["shop_tools"]]
    assert not {uses[name] for name in missed} & {uses[name] for name in have}
    assert len({uses[name] for name in missed}) == len(missed)


def test_a_builder_with_six_clamps_for_twelve_ribs_borrows_nine_pairs(demos):
    tobin = INPUTS["tobin"]
    assert (sum(clamp.count for clamp in tobin.builder.clamps), len(tobin.board.ribs.from_tail_mm)) == (6, 12)
    assert demos["tobin"].values["shop.clamp_pairs"].value == 9
    assert "Clamps" in [item["name"] for item in items(demos["tobin"], "shop_borrow")]


def test_what_no_label_has_told_is_asked_for_and_not_bought_by_guess(demos):
    asked = " ".join(row["what"] for row in demos["tobin"].rows["shop_ask"])
    for word in ("bottle", "spread rate", "oil, varnish or resin", "jigsaw"):
        assert word in asked
    glue = next(
        item for item in items(demos["tobin"], "shop_buy") if item["name"].lower() == INPUTS["tobin"].builder.glue.name
    )
    assert glue["unit"] == ""
    assert demos["mara"].rows["shop_ask"] == ()


def test_planks_to_buy_and_planks_to_use_are_those_of_the_panels(demos):
    for slug, figures in demos.items():
        bought = [item for item in items(figures, "shop_buy") if item["unit"] == "plank"]
        late = list(GOES).index(INPUTS[slug].builder.stage) > list(GOES).index("panels")
        wanted = 0 if late else figures.values["panel.buy"].value
        assert sum(figures.values[item["amount"]].value for item in bought) == wanted
