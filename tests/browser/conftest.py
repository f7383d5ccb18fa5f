"""A real Chromium, the demo guides built once, and a server for them."""

import contextlib
import fcntl
import functools
import http.server
import os
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Error, sync_playwright

from generator.deliver.building import build_site
from generator.guides import make_guide
from generator.inputs.site import builder_slugs
from tests.hosts import running

ROOT = Path(__file__).resolve().parents[2]
DATA = ROOT / "site_data"
SLUGS = builder_slugs(DATA)
NAMES = ("chromium", "chromium-browser", "google-chrome")
SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


WITHOUT_WORKERS = "Object.defineProperty(Navigator.prototype, 'serviceWorker', {get: () => undefined})"


def pytest_collection_modifyitems(items):
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


def named_chromium():
    """The browser named by the user, else the machine's own, else None: Playwright's own, if it is there."""
    wanted = os.environ.get("SHEDBOOK_CHROMIUM")
    return next((path for path in map(shutil.which, (wanted, *NAMES) if wanted else NAMES) if path), None)


@pytest.fixture(scope="session")
def chromium():
    """The running browser."""
    with sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(executable_path=named_chromium(), args=SWITCHES)
        except Error as missing:
            first = str(missing).strip().splitlines()[0]
            pytest.fail(f"no Chromium for the browser tests: install one or set SHEDBOOK_CHROMIUM ({first})", False)
        yield browser
        browser.close()


@contextlib.contextmanager
def only_one_worker(lock):
    """Hold `lock` so that parallel test processes make shared things once."""
    with lock.open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def made_once(tmp_path_factory, name, make):
    """The folder `name` that `make` fills, once for all test processes."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if os.environ.get("PYTEST_XDIST_WORKER") else base
    folder, done = shared / name, shared / f"{name}.done"
    with only_one_worker(shared / f"{name}.lock"):
        if not done.exists():
            make(folder)
            done.touch()
    return folder


@pytest.fixture(scope="session")
def demo_sites(tmp_path_factory):
    """The folder with every demo guide, built once for all test processes, by slug."""

    def build(folder):
        for slug in SLUGS:
            build_site(make_guide(DATA, slug), out=folder / slug)

    return made_once(tmp_path_factory, "demo_sites", build)


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args):
        pass


def serving(folder):
    """The address of a server for `folder` on this machine."""
    return running(http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder))))


@pytest.fixture(scope="session")
def served(demo_sites):
    """The address below which each demo guide stands under its slug."""
    with serving(demo_sites) as address:
        yield address


class Watch:
    """A page that remembers all it complained of and all it asked for."""

    def __init__(self, context):
        self.page = context.new_page()
        self.said, self.asked = [], []
        self.page.on("console", lambda m: self.said.append(m.text) if m.type in {"error", "warning"} else None)
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("response", lambda r: self.said.append(f"{r.status} {r.url}") if r.status >= 400 else None)
        self.page.add_init_script(
            "addEventListener('securitypolicyviolation',"
            " event => console.error('blocked: ' + event.violatedDirective + ' ' + event.blockedURI))"
        )

    def open(self, address):
        """Go there; what was said and asked before is forgotten."""
        self.said.clear()
        self.asked.clear()
        self.page.goto(address, wait_until="load")
        return self.page


@pytest.fixture
def watched(chromium):
    """Make a watched page of a given width and colour scheme, without a service worker unless `offline` asks for it."""
    with contextlib.ExitStack() as contexts:

        def make(width, scheme="light", *, offline=False):
            context = chromium.new_context(
                viewport={"width": width, "height": 844},
                color_scheme=scheme,
                service_workers="allow" if offline else "block",
            )
            contexts.callback(context.close)
            if not offline:  # as in a browser that has none: Playwright itself would warn of each that it stops
                context.add_init_script(WITHOUT_WORKERS)
            return Watch(context)

        yield make


def pages_of(folder):
    """The file names of a guide's pages, the first page first."""
    names = sorted(path.name for path in folder.glob("*.html"))
    return sorted(names, key=lambda name: (name != "index.html", name))
