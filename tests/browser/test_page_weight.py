"""How much a page loads, and that nothing on it jumps meanwhile. Bytes are the same on every machine."""

import sys

import pytest

from generator.deliver.building import build_site
from tests.browser.conftest import ROOT, SLUGS
from tests.deliver.small_guide import small_guide

sys.path.append(str(ROOT / "tests" / "speed"))

import page_speed
from page_speed import FIRST_KB, WATCH_SHIFTS, WHOLE_KB, asked_by, packed, shift_of, whole_kb

SLUG = SLUGS[0]
PAGES = ("index.html", "bench.html", "rocker.html", "safety.html")


def test_the_first_page_is_light_with_all_that_it_loads(watched, served, demo_sites):
    folder = demo_sites / SLUG
    asked = asked_by(watched(390).page, folder, f"{served}/{SLUG}", "index.html")
    assert {"index.html", "shed.js", "search_index.json"} <= {file.name for file in asked}
    weights = {file.name: packed(file) for file in asked}
    assert sum(weights.values()) <= FIRST_KB * 1000, weights


@pytest.mark.parametrize("slug", SLUGS)
def test_a_whole_guide_fits_a_poor_connection(demo_sites, slug):
    assert 300 < whole_kb(demo_sites / slug) <= WHOLE_KB


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_jumps_while_a_page_loads(watched, served, width):
    page = watched(width).page
    page.add_init_script(WATCH_SHIFTS)
    shifts = {name: shift_of(page, f"{served}/{SLUG}/{name}") for name in PAGES}
    assert max(shifts.values()) < 0.005, shifts  # a hair, where a page is painted before all of it has come


def test_a_jump_is_seen(watched, served):
    page = watched(390).page
    page.add_init_script(WATCH_SHIFTS)
    page.add_init_script(
        "addEventListener('load', () => requestAnimationFrame(() => document.querySelector('article').prepend("
        "Object.assign(document.createElement('p'), {textContent: 'late '.repeat(99)}))))"
    )
    assert shift_of(page, f"{served}/{SLUG}/bench.html") > 0.01


def test_the_speed_table_tells_what_a_guide_costs(chromium, tmp_path, monkeypatch):
    monkeypatch.setattr(page_speed, "TRIES", 1)
    build_site(small_guide(), out=tmp_path / "small")
    rows = list(page_speed.measured(chromium, tmp_path / "small"))
    assert [row.met for row in rows] == [True, True, None, True, True]
    first, whole, paint, *_ = (row.took for row in rows)
    assert 50 < float(first.split()[0]) < float(whole.split()[0])
    assert 0.3 < float(paint.split()[0]) < 60, "two round trips of 150 ms lie before it at least"
