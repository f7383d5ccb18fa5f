"""What a guide costs a phone: bytes and requests, time to the first paint, and how far anything jumps while it loads.

Bytes are of each file compressed by gzip (level 6), as a host sends them, and the same on every machine. Times are of
a phone that the browser itself slows down: six times slower than this machine, 1.6 Mbit/s, 150 ms to the host.
Layout shift is the browser's own figure (Layout Instability, W3C): nothing may move.
"""

import contextlib
import gzip
import http.server
import os
import shutil
import statistics
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from rows import Row

from tests.hosts import running

FIRST_KB, WHOLE_KB = 250.0, 2500.0
SLOWER, BITS_PER_S, DELAY_MS = 6, 1.6e6, 150
TRIES = 3
WIDTHS = (390, 1280)
SETTLED_MS = 300
PACKED = frozenset({".html", ".css", ".js", ".json", ".svg", ".webmanifest"})
SWITCHES = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
WATCH_SHIFTS = """
    window.shifted = 0;
    new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) if (!entry.hadRecentInput) window.shifted += entry.value;
    }).observe({type: "layout-shift", buffered: true});
"""


def packed(file: Path) -> int:
    """Bytes of the file as a host sends it."""
    content = file.read_bytes()
    return len(gzip.compress(content, 6, mtime=0)) if file.suffix in PACKED else len(content)


def whole_kb(folder: Path) -> float:
    """All files of a guide, kB compressed."""
    return sum(packed(file) for file in folder.rglob("*") if file.is_file()) / 1000


def asked_by(page: Any, folder: Path, address: str, name: str) -> list[Path]:
    """The files below `folder` that the page `name` asks for until it is quiet, itself among them."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{address}/{name}", wait_until="networkidle")
    return [folder / url.removeprefix(f"{address}/").partition("?")[0] for url in dict.fromkeys(asked)]


def shift_of(page: Any, address: str) -> float:
    """How far things on the page jumped while it loaded; the page must have been given WATCH_SHIFTS before."""
    page.goto(address, wait_until="load")
    page.wait_for_timeout(SETTLED_MS)
    return float(page.evaluate("() => window.shifted"))


def first_paint_s(context: Any, address: str) -> float:
    """Seconds until a slow phone that comes for the first time sees something."""
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.setCacheDisabled", {"cacheDisabled": True})
    speed = {"downloadThroughput": BITS_PER_S / 8, "uploadThroughput": BITS_PER_S / 8}
    session.send("Network.emulateNetworkConditions", {"offline": False, "latency": DELAY_MS, **speed})
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(address, wait_until="load")
    page.wait_for_function("() => performance.getEntriesByName('first-contentful-paint').length")
    painted = page.evaluate("() => performance.getEntriesByName('first-contentful-paint')[0].startTime")
    page.close()
    return float(painted) / 1000


class Packing(http.server.SimpleHTTPRequestHandler):
    """A host that compresses what it sends."""

    root = ""

    def do_GET(self) -> None:
        file = Path(self.root, self.path.partition("?")[0].lstrip("/"))
        if not file.is_file():
            return self.send_error(404)
        content = file.read_bytes()
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(file.name))
        if file.suffix in PACKED:
            content = gzip.compress(content, 6, mtime=0)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)
        return None

    def log_message(self, *args: object) -> None:
        pass


def hosted(folder: Path) -> contextlib.AbstractContextManager[str]:
    """The address of a host for the folder."""
    handler = type("Here", (Packing,), {"root": str(folder)})
    return running(http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler))


def measured(browser: Any, folder: Path) -> Iterator[Row]:
    """The rows for one built guide."""
    with hosted(folder) as address, contextlib.closing(browser.new_context(service_workers="block")) as context:
        asked = asked_by(context.new_page(), folder, address, "index.html")
        first = sum(map(packed, asked)) / 1000
        took = f"{first:.0f} kB in {len(asked)} requests"
        yield Row("first page with all it loads, compressed", took, f"{FIRST_KB:.0f} kB", first <= FIRST_KB)
        whole, count = whole_kb(folder), sum(file.is_file() for file in folder.rglob("*"))
        took = f"{whole:.0f} kB in {count} files"
        yield Row("whole guide, compressed", took, f"{WHOLE_KB:.0f} kB", whole <= WHOLE_KB)
        paint = statistics.median(first_paint_s(context, f"{address}/index.html") for _ in range(TRIES))
        yield Row("first paint on a slow phone, first visit", f"{paint:.1f} s")
        page = context.new_page()
        page.add_init_script(WATCH_SHIFTS)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 844})
            names = sorted(file.name for file in folder.glob("*.html"))
            shifts = {name: shift_of(page, f"{address}/{name}") for name in names}
            worst = max(names, key=lambda name: shifts[name])
            took = f"{shifts[worst]:.4f}" + (f" on {worst}" if shifts[worst] else "")
            yield Row(f"largest layout shift, all pages, {width} px wide", took, "0", shifts[worst] == 0)


def rows(data: Path, slug: str) -> Iterator[Row]:
    """The rows for the guide of one builder, or one that says what is missing."""
    from playwright.sync_api import Error, sync_playwright

    from generator.deliver.building import build_site
    from generator.guides import make_guide

    named = os.environ.get("SHEDBOOK_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(executable_path=named, args=SWITCHES)
        except Error:
            yield Row("pages on a phone", "not measured: no Chromium here")
            return
        build_site(make_guide(data, slug), out=Path(place) / slug)
        yield from measured(browser, Path(place) / slug)
        browser.close()
