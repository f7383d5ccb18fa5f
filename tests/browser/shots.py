"""Pictures of every page of the guides, at two widths, light and dark, to be leafed through: `python3 run.py shots`."""

import html
import sys
import tempfile
import time
from pathlib import Path

from conftest import DATA, ROOT, SLUGS, SWITCHES, named_chromium, pages_of, serving
from playwright.sync_api import sync_playwright

from generator.deliver.building import build_site
from generator.deliver.swap import beside
from generator.guides import make_guide

WIDTHS = {390: 844, 1280: 900}
SCHEMES = ("light", "dark")
TALLEST = 16_000
"""Chromium cuts a picture off a little above this many px; taller pages come in parts."""

MOST_PARTS = 3
"""Only the page of all the numbers is longer, and it goes on as it began."""

BAR_AT_THE_END = "document.querySelectorAll('.reach').forEach((bar) => { bar.style.position = 'static'; })"
"""The bar at the foot of a phone would lie across the middle of a picture of the whole page."""

STYLE = """body { margin: 1rem; font: 16px system-ui, sans-serif; color: #222; background: #ddd; }
table { border-collapse: collapse; } th, td { padding: 0.4rem; text-align: left; vertical-align: top; }
img { display: block; max-height: 60vh; width: auto; max-width: 22vw; object-fit: cover; object-position: top; }"""


def shoot(page, folder, name):
    """The page as one picture or, if it is too tall for that, as parts; their paths."""
    tall = page.evaluate("document.scrollingElement.scrollHeight")
    wide = page.viewport_size["width"]
    parts = min(MOST_PARTS, max(1, -(-tall // TALLEST)))
    made = []
    for number in range(parts):
        top = number * TALLEST
        clip = {"x": 0, "y": top, "width": wide, "height": max(1, min(TALLEST, tall - top))}
        made.append(folder / (f"{name}.png" if parts == 1 else f"{name}-{number + 1}.png"))
        page.screenshot(path=made[-1], full_page=True, clip=clip, animations="disabled")
    return made


def all_shots(browser, address, pages, out):
    """The pictures of one guide, by page and look."""
    found = {}
    for width, height in WIDTHS.items():
        for scheme in SCHEMES:
            look = f"{width}-{scheme}"
            (out / look).mkdir(parents=True)
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme=scheme,
                reduced_motion="reduce",
                service_workers="block",
            )
            page = context.new_page()
            for file in pages:
                page.goto(f"{address}/{file}", wait_until="load")
                page.evaluate(BAR_AT_THE_END)
                found[file, look] = shoot(page, out / look, file.removesuffix(".html"))
            context.close()
    return found


def contact_sheet(slug, pages, found, out):
    """One page that shows all pictures side by side; each leads to its own in full."""
    looks = list(dict.fromkeys(look for _, look in found))
    rows = ["<tr><th></th>" + "".join(f"<th>{look}</th>" for look in looks) + "</tr>"]
    for file in pages:
        cells = []
        for look in looks:
            links = (path.relative_to(out).as_posix() for path in found[file, look])
            cells.append(
                "".join(f'<a href="{link}"><img loading="lazy" src="{link}" alt="{link}"></a>' for link in links)
            )
        rows.append(f"<tr><th>{html.escape(file)}</th>" + "".join(f"<td>{cell}</td>" for cell in cells) + "</tr>")
    head = f'<!doctype html><html lang="en-GB"><meta charset="utf-8"><title>{slug}</title><style>{STYLE}</style>'
    (out / "index.html").write_text(f"{head}<h1>{slug}</h1><table>{''.join(rows)}</table>\n", "utf-8")


def main(slugs):
    unknown = [slug for slug in slugs if slug not in SLUGS]
    if unknown:
        print(f"There is no builder {unknown[0]}; there are {', '.join(SLUGS)}.", file=sys.stderr)
        return 2
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as name:
        browser = playwright.chromium.launch(executable_path=named_chromium(), args=SWITCHES)
        with serving(Path(name)) as address:
            for slug in slugs or SLUGS:
                began = time.monotonic()
                build_site(make_guide(DATA, slug), out=Path(name) / slug)
                pages = pages_of(Path(name) / slug)
                with beside(ROOT / "shots" / slug) as place:
                    found = all_shots(browser, f"{address}/{slug}", pages, place.folder)
                    contact_sheet(slug, pages, found, place.folder)
                    place.keep()
                took = time.monotonic() - began
                print(f"shots/{slug}/index.html: {len(found)} pictures in {took:.0f} s", file=sys.stderr, flush=True)
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
