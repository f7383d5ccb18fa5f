"""How long one step of the tuning place takes on a slow phone: Chromium with its processor slowed six times.

A step is the script (solve and drawing), style and layout: all but painting. A slowed processor stops and goes, so a
figure is the mean of twelve steps, and of six such the least, since whatever else the machine does only adds to it.
"""

import tempfile
from pathlib import Path
from typing import Any

from page_speed import SLOWER, SWITCHES
from rows import Row

SLUG, RUNS, STEPS, GOAL_MS = "mara", 6, 12, 16.0
STEP = """steps => {
  const place = document.querySelector('[data-shed=tuning]');
  const up = place.querySelector('[aria-label^="Middle 2:"][aria-label$="higher"]');
  const down = place.querySelector('[aria-label^="Middle 2:"][aria-label$="lower"]');
  const start = performance.now();
  for (let i = 0; i < steps; i += 1) {
    (2 * i < steps ? up : down).click();
    place.getBoundingClientRect();
  }
  return (performance.now() - start) / steps;
}"""


def step_ms(browser: Any, address: str) -> float:
    """One step on the rocker page at `address`, ms."""
    page = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    page.goto(address, wait_until="load")
    page.locator("#try").scroll_into_view_if_needed()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.evaluate(STEP, STEPS)
    took = min(float(page.evaluate(STEP, STEPS)) for _ in range(RUNS))
    page.context.close()
    return took


def rows(site_data: Path) -> list[Row]:
    """The row for `bench_speed.py`'s table; says so where there is no browser."""
    from playwright.sync_api import Error, sync_playwright

    from generator.deliver.building import build_site
    from generator.guides import make_guide
    from tests.browser.conftest import named_chromium

    what = f"a step of tuning, processor slowed {SLOWER} times"
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(executable_path=named_chromium(), args=SWITCHES)
        except Error:
            return [Row(what, "no Chromium here", f"under {GOAL_MS:.0f} ms")]
        build_site(make_guide(site_data, SLUG), out=Path(folder) / SLUG)
        took = step_ms(browser, (Path(folder) / SLUG / "rocker.html").as_uri())
        browser.close()
    return [Row(what, f"{took:.1f} ms", f"under {GOAL_MS:.0f} ms", took < GOAL_MS)]
