"""A script planted in any text that people type does not run, and what they typed stands on the page as text."""

import csv
import shutil

import pytest
import yaml

from generator.deliver.building import build_site
from generator.guides import make_guide
from tests.browser.conftest import DATA, pages_of, serving

FORMS = {
    "html": "zebra <img src=x onerror=planted.push('{}')><script>planted.push('{}')</script>",
    "closing": "zebra </title></script></svg>--><img src=x onerror=planted.push('{}')>",
    "markdown": "zebra ](javascript:planted.push('{}')) `x` **b** {{{{7*7}}}} {{: onclick=x }}",
}
SLUG = "mara"


def planted_data(folder, form):
    """The demo data with a script in each text field of one builder; the words that stand in each field."""
    shutil.copytree(DATA, folder, ignore=shutil.ignore_patterns("schema"))
    words = {}

    def plant(field):
        words[field] = form.format(*[field] * 2)[:80]
        return words[field]

    builder = yaml.safe_load((folder / "builders" / f"{SLUG}.yaml").read_text("utf-8"))
    maker = yaml.safe_load((folder / "maker.yaml").read_text("utf-8"))
    board_file = folder / "boards" / f"{builder['board']}.yaml"
    board = yaml.safe_load(board_file.read_text("utf-8"))

    builder["name"] = plant("builder")
    for kind in ("things", "clamps", "weights"):
        for number, thing in enumerate(builder[kind]):
            thing["name"] = plant(f"{kind}{number}")
    for part in ("glue", "finish", "foam"):
        builder[part]["name"] = plant(part)
    builder["notes"] = {slug: plant(f"note-{slug}") for slug in ("board", "bench", "glue", "numbers")}
    plant_rules(folder / "rocker_rules.csv", builder["surf"], plant)
    maker["name"] = plant("maker")
    board["name"] = plant("board")
    board["spine"]["material"] = plant("spine")
    board["ribs"]["material"] = plant("ribs")
    for path, content in (
        (folder / "builders" / f"{SLUG}.yaml", builder),
        (folder / "maker.yaml", maker),
        (board_file, board),
    ):
        path.write_text(yaml.safe_dump(content, allow_unicode=True, sort_keys=False, width=1000), "utf-8")
    return words


def plant_rules(table, surf, plant):
    """A script in each name and reason of the rules that count for the builder, and in what they say of themselves."""
    comments = [line for line in table.read_text("utf-8").splitlines() if line.startswith("#")]
    header, *rows = csv.reader(line for line in table.read_text("utf-8").splitlines() if not line.startswith("#"))
    for row in rows:
        factor, name = row[:2]
        if surf.get(factor) == name:
            row[1] = surf[factor] = plant(factor)
            row[5] = plant(f"why-{factor}")
    with table.open("w", encoding="utf-8", newline="") as file:
        file.write("".join(f"{line}\n" for line in comments))
        csv.writer(file, lineterminator="\n").writerows([header, *rows])


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS.keys())
def test_planted_scripts_stand_as_text_and_do_not_run(watched, tmp_path, form):
    words = planted_data(tmp_path / "data", form)
    site = tmp_path / "site"
    build_site(make_guide(tmp_path / "data", SLUG), out=site)
    watch = watched(390)
    watch.page.add_init_script("window.planted = []")
    seen = ""
    with serving(site) as address:
        for name in pages_of(site):
            page = watch.open(f"{address}/{name}")
            assert not watch.said, f"{name}: {watch.said}"
            assert page.evaluate("() => planted") == [], name
            assert page.locator("article [onerror], article [onclick], article a[href^=javascript]").count() == 0
            seen += page.title() + page.evaluate("() => document.body.textContent")
        page = watch.open(f"{address}/ready.html")
        for number in range(20):  # the things in the house: their names stand in what a tapped number says
            page.locator("article a.fig").nth(number).click()
            seen += page.locator("dialog[open]").inner_text()
            page.keyboard.press("Escape")
        assert page.evaluate("() => planted") == []
        page = watch.open(f"{address}/index.html")
        page.click(".md-header [data-way=search]")
        page.locator("input[name=query]").press_sequentially("zebra")
        page.wait_for_selector(".md-search-result__link", state="attached")
        assert page.evaluate("() => planted") == []
        assert not watch.said
    seen = " ".join(seen.split())
    missing = {field for field, text in words.items() if " ".join(text.split()) not in seen}
    unused = {field for field in missing if field.startswith(("things", "weights", "clamps"))}
    assert missing <= unused, missing - unused
    assert len(unused) < len(words) / 2
