"""A guide that was opened once opens without a network, changes over only when asked, and is never half of two."""

import contextlib
import http.server
import json
import shutil
from dataclasses import replace

import pytest

from generator.deliver.building import build_site
from generator.deliver.offline import add_offline, no_worker
from generator.guide.needs import EVERY_PAGE
from tests.browser.conftest import Quiet, made_once, pages_of
from tests.browser.test_every_page import findings
from tests.deliver.small_guide import small_guide
from tests.hosts import running

KEPT = "The whole guide is on this phone now. It opens without a network."
GONE = "No network. The guide is all here."
NEWER = "There is a newer version of this guide."
CACHES = "async () => (await caches.keys()).sort()"


class Host(http.server.ThreadingHTTPServer):
    """A host that remembers what it was asked for and can be told to answer badly; `bad` is by the end of a path."""

    def __init__(self, folder):
        self.folder, self.asked, self.bad, self.short, self.heads = folder, [], {}, False, []
        super().__init__(("127.0.0.1", 0), Answer)
        self.origin = f"http://127.0.0.1:{self.server_port}"

    def names(self):
        return {path.rpartition("/")[2] for path in self.asked}


class Answer(Quiet):
    def __init__(self, request, client, server):
        super().__init__(request, client, server, directory=str(server.folder))

    def do_GET(self):  # noqa: N802
        host, path = self.server, self.path.partition("?")[0]
        host.asked.append(path)
        host.heads.append(dict(self.headers))
        bad = next((bad for end, bad in host.bad.items() if path.endswith(end)), None)
        if isinstance(bad, int):
            self.send_error(bad)
        elif bad is not None:
            bad(self)
        elif host.short and path.endswith(".html"):
            self.send_response(308)
            self.send_header("Location", path.removesuffix(".html"))
            self.end_headers()
        else:
            if host.short and "." not in path and not path.endswith("/"):
                self.path = f"{path}.html"
            super().do_GET()

    def do_POST(self):  # noqa: N802
        self.server.asked.append(f"POST {self.path}")
        self.send_response(204)
        self.end_headers()

    def end_headers(self):
        self.send_header("Vary", "*")  # some hosts do; a response that says so can't be kept as it is
        super().end_headers()


def sign_in(answer):
    """What the network of a café says to everything until somebody has signed in."""
    answer.send_response(200)
    answer.send_header("Content-Type", "text/html")
    answer.end_headers()
    answer.wfile.write(b"<title>Welcome</title>Sign in to go on")


def moved(answer):
    answer.send_response(301)
    answer.send_header("Location", f"/elsewhere{answer.path}")
    answer.end_headers()


@pytest.fixture(scope="module")
def small_site(tmp_path_factory):
    """The small guide, built, not to be changed."""
    guide = small_guide()
    guide = replace(guide, pages=tuple(replace(page, needs=EVERY_PAGE) for page in guide.pages))
    return made_once(tmp_path_factory, "small_kept", lambda folder: build_site(guide, out=folder))


@pytest.fixture
def host(small_site, tmp_path):
    """A host with a copy of the small guide under /guides/one/ (also as `one`) that may be changed."""
    shutil.copytree(small_site, tmp_path / "guides" / "one")
    with hosting(tmp_path) as host:
        host.one = tmp_path / "guides" / "one"
        host.address = f"{host.origin}/guides/one/"
        yield host


@contextlib.contextmanager
def hosting(folder):
    host = Host(folder)
    with running(host):
        yield host


def rewrite(folder, old, new, *, key=""):
    """Change the guide in `folder` as a new build of it would."""
    page = folder / "bench.html"
    text = page.read_text("utf-8")
    assert old in text
    page.write_text(text.replace(old, new), "utf-8")
    add_offline(folder, title="Demo&#58; Dunlin", key=key)


def says(page, words):
    page.wait_for_function("words => document.querySelector('.strip__said')?.textContent.includes(words)", arg=words)


def until(page, asked):
    """Wait until the asynchronous function `asked` says yes; Playwright's own waiting takes any promise for a yes."""
    for _ in range(200):
        if page.evaluate(asked):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"it never came: {asked}")


def first_visit(watch, address):
    """Open the guide there and wait until all of it is kept."""
    page = watch.open(address)
    says(page, KEPT)
    page.evaluate("() => navigator.serviceWorker.getRegistration().then((found) => found.update())")  # one at a time
    return page


def strip(page):
    return page.locator(".strip__said").inner_text()


def complaints(watch):
    """What was complained of, but for what the browser was still fetching when the network went."""
    return [line for line in watch.said if "ERR_INTERNET_DISCONNECTED" not in line]


def opens_offline(watch, address, words="Stretch the string"):
    """The bench page comes without a network, whole and without complaint."""
    watch.page.context.set_offline(True)
    page = watch.open(f"{address}bench.html")
    assert words in page.locator("article").inner_text()
    assert not watch.said
    page.context.set_offline(False)


def test_after_one_visit_every_page_opens_without_a_network(watched, demo_sites):
    watch = watched(390, offline=True)
    with hosting(demo_sites) as host:
        page = first_visit(watch, f"{host.origin}/mara/")
        assert not watch.said
        page.reload()
        assert strip(page) == "", "it is said once"
        page.context.set_offline(True)
        host.asked.clear()
        for name in pages_of(demo_sites / "mara"):
            watch.open(f"{host.origin}/mara/{name}")
            assert not watch.said, f"{name}: {watch.said}"
            assert page.locator("h1").count() == 1
        says(page, GONE)
        for odd in ("", "?from=message", "bench.html?a=1&b#checks", "bench"):
            watch.open(f"{host.origin}/mara/{odd}")
            assert not watch.said, f"{odd}: {watch.said}"
        assert host.names() <= {"worker.js"}, "the browser itself may look for a newer one"
        page.locator(".strip__close").click()
        watch.open(f"{host.origin}/mara/ready.html")
        assert strip(page) == "", "put away is put away"
        page.context.set_offline(False)
        page.context.set_offline(True)
        says(page, GONE)
        page.set_viewport_size({"width": 1280, "height": 844})
        page.locator("input[name=query]").press_sequentially("winding sticks")
        page.wait_for_selector(".md-search-result__link[href*='frame.html']", state="attached")
        assert not complaints(watch)


def test_a_newer_version_is_offered_and_comes_whole_when_it_is_asked_for(watched, host):
    watch = watched(390, offline=True)
    page = first_visit(watch, f"{host.address}bench.html")
    page.evaluate("() => shed.keep('ticks', {'tick-string': 1})")
    other = page.context.new_page()
    other.goto(host.address)
    (before,) = page.evaluate(CACHES)
    rewrite(host.one, "Stretch the string", "Pull the cord")
    host.asked.clear()
    watch.open(f"{host.address}bench.html")
    says(page, NEWER)
    assert "Stretch the string" in page.locator("article").inner_text(), "old pages stay together"
    assert host.names() == {"worker.js", "bench.html"}, "only what has changed is fetched"
    loads = []
    page.on("load", lambda: loads.append(page.url))
    other_loads = []
    other.on("load", lambda: other_loads.append(other.url))
    page.get_by_role("button", name="Change over").click()
    page.wait_for_function("() => document.querySelector('article').textContent.includes('Pull the cord')")
    page.wait_for_function("() => navigator.serviceWorker.controller?.state === 'activated'")
    assert strip(page) == ""
    assert page.evaluate("() => shed.kept('ticks')") == {"tick-string": 1}
    (after,) = page.evaluate(CACHES)
    assert after != before
    opens_offline(watch, host.address, "Pull the cord")
    assert loads == [f"{host.address}bench.html"] * 2, "one load by changing over, one by opening it again"
    assert other_loads == [host.address], "the other page goes with it"
    assert not watch.said


def test_a_page_that_stays_open_hears_of_a_newer_version(watched, host):
    page = first_visit(watched(390, offline=True), f"{host.address}bench.html")
    rewrite(host.one, "Stretch the string", "Pull the cord")
    page.evaluate("() => document.dispatchEvent(new Event('visibilitychange'))")
    says(page, NEWER)
    page.locator(".strip__close").click()
    assert strip(page) == ""


ATTEMPT = """async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const ended = (worker) => new Promise((done) => worker.addEventListener("statechange", () => done(worker.state)));
    if (registration.installing) await ended(registration.installing);
    const end = new Promise((done) => {
        registration.addEventListener("updatefound", () => ended(registration.installing).then(done));
        setTimeout(() => done("nothing happened"), 10_000);
    });
    return registration.update().then(() => end, () => "no worker came");
}"""
BAD = {
    "a page is not there": ({"bench.html": 404}, "redundant"),
    "an error of the host": ({"bench.html": 500}, "redundant"),
    "half of it is up": ({"bench.html": sign_in}, "redundant"),
    "a network that wants a password": ({"": sign_in}, "no worker came"),
    "the guide has moved": ({"": moved}, "no worker came"),
    "the host is taken down": ({"": 404}, "no worker came"),
}


def test_a_version_that_does_not_come_whole_changes_nothing(watched, host):
    watch = watched(390, offline=True)
    page = first_visit(watch, f"{host.address}bench.html")
    (before,) = page.evaluate(CACHES)
    rewrite(host.one, "Stretch the string", "Pull the cord")
    for what, (bad, end) in BAD.items():
        host.bad = bad
        assert page.evaluate(ATTEMPT) == end, what
        assert NEWER not in strip(page), what
        assert before in page.evaluate(CACHES), what
        assert "Stretch" in page.evaluate("() => fetch('bench.html').then((response) => response.text())"), what
    opens_offline(watch, host.address)
    host.bad = {}
    host.asked.clear()
    watch.open(f"{host.address}bench.html")
    says(page, NEWER)
    assert host.names() == {"worker.js", "bench.html"}


def test_a_full_phone_keeps_the_old_version(watched, host):
    watch = watched(390, offline=True)
    page = first_visit(watch, f"{host.address}bench.html")
    before = page.evaluate(CACHES)
    rewrite(host.one, "Stretch the string", "Pull the cord" + " and again" * 200_000)
    session = page.context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": host.origin, "quotaSize": 1_600_000})
    assert page.evaluate(ATTEMPT) == "redundant"
    assert page.evaluate(CACHES) == before, "no half a guide lies about"
    opens_offline(watch, host.address)
    session.send("Storage.overrideQuotaForOrigin", {"origin": host.origin})
    watch.open(f"{host.address}bench.html")
    says(page, NEWER)


def test_two_guides_at_one_host_leave_each_other_alone(watched, host, small_site):
    two = host.one.parent / "two"
    within = host.one / "inner"
    for place in (two, within):
        shutil.copytree(small_site, place)
        add_offline(place, title="Demo", key="")
    add_offline(host.one, title="Demo", key="")
    shutil.copytree(small_site, host.one, dirs_exist_ok=True)
    watch = watched(390, offline=True)
    addresses = [host.address, f"{host.origin}/guides/two/", f"{host.address}inner/"]
    page = watch.open(addresses[0])
    for number, address in enumerate(addresses):
        watch.open(address)
        until(page, f"async () => (await caches.keys()).length === {number + 1}")
        page.wait_for_function("() => navigator.serviceWorker.controller?.state === 'activated'")
    caches = set(page.evaluate(CACHES))
    rewrite(host.one, "Stretch the string", "Pull the cord")
    watch.open(f"{host.address}bench.html")
    says(page, NEWER)
    page.get_by_role("button", name="Change over").click()
    page.wait_for_function("() => document.querySelector('article').textContent.includes('Pull the cord')")
    assert len(caches & set(page.evaluate(CACHES))) == 2
    for address, words in zip(addresses, ("Pull the cord", "Stretch the string", "Stretch the string"), strict=True):
        opens_offline(watch, address, words)


def test_a_host_that_leaves_out_the_ends_of_names(watched, host):
    host.short = True
    watch = watched(390, offline=True)
    first_visit(watch, f"{host.address}bench.html")
    opens_offline(watch, host.address)
    watch.page.context.set_offline(True)
    page = watch.open(f"{host.address}bench")
    page.get_by_role("link", name="All the numbers").last.click()
    page.wait_for_url("**/numbers.html")
    assert page.locator("h1").inner_text() == "All the numbers"
    assert not watch.said


def test_only_whole_files_of_the_guide_are_answered_from_the_phone(watched, host):
    page = first_visit(watched(390, offline=True), host.address)
    (host.folder / "guides" / "other.txt").write_text("outside")
    (host.one / "later.txt").write_text("not in the list")
    host.asked.clear()
    host.heads.clear()
    page.evaluate(
        "async () => { await fetch('mark.svg', {headers: {Range: 'bytes=0-9'}});"
        " await fetch('mark.svg', {method: 'POST'}); await fetch('../other.txt'); await fetch('later.txt');"
        " await fetch('mark.svg?size=2'); await fetch('shed.js'); }"
    )
    assert host.asked == [
        "/guides/one/mark.svg",
        "POST /guides/one/mark.svg",
        "/guides/other.txt",
        "/guides/one/later.txt",
    ]
    assert host.heads[0].get("Range") == "bytes=0-9"


def test_what_the_browser_threw_away_comes_back_or_is_missed_honestly(watched, host):
    watch = watched(390, offline=True)
    page = first_visit(watch, host.address)
    lose = (
        "async () => { for (const name of await caches.keys()) await (await caches.open(name)).delete('bench.html'); }"
    )
    page.evaluate(lose)
    page.context.set_offline(True)
    watch.open(host.address)
    says(page, "not all on this phone")
    page.context.set_offline(False)
    watch.open(host.address)
    until(page, "async () => Boolean(await caches.match('bench.html'))")
    opens_offline(watch, host.address)


def test_without_workers_the_guide_reads_on_and_says_what_it_can_not(watched, host):
    watch = watched(390)
    page = watch.open(host.address)
    assert strip(page) == ""
    page.context.set_offline(True)
    says(page, "not all on this phone")
    page.context.set_offline(False)
    says(page, "")
    assert not complaints(watch)


def test_from_a_folder_there_is_no_worker_and_no_word_of_one(watched, small_site):
    watch = watched(390, offline=True)
    page = watch.open((small_site / "index.html").as_uri())
    assert page.locator(".strip, link[rel=manifest]").count() == 0
    assert not watch.said


def test_a_preview_lets_go_of_what_a_guide_kept_at_its_address(watched, host):
    watch = watched(390, offline=True)
    page = first_visit(watch, f"{host.address}bench.html")
    (host.one / "worker.js").write_text(no_worker(), "utf-8")
    text = (host.one / "bench.html").read_text("utf-8").replace("Stretch the string", "Pull the cord")
    (host.one / "bench.html").write_text(text.replace("shedbook-worker", "none"), "utf-8")
    watch.open(f"{host.address}bench.html")
    page.wait_for_function("() => document.querySelector('article')?.textContent.includes('Pull the cord')")
    until(page, "async () => !(await navigator.serviceWorker.getRegistration())")
    assert page.evaluate(CACHES) == []


def test_the_browser_takes_the_manifest(watched, host):
    page = first_visit(watched(390, offline=True), host.address)
    session = page.context.new_cdp_session(page)
    found = session.send("Page.getAppManifest")
    assert found["errors"] == []
    assert json.loads(found["data"])["name"] == "Demo: Dunlin"
    assert found["url"] == f"{host.address}manifest.webmanifest"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_strip_moves_nothing_keeps_clear_of_the_bar_and_is_open_to_all(watched, host, scheme):
    page = watched(390, scheme, offline=True).open(f"{host.address}bench.html")
    top = page.evaluate("() => document.querySelector('h1').getBoundingClientRect().top")
    page.evaluate("() => document.documentElement.style.setProperty('--sb-bar', '56px')")
    says(page, KEPT)
    box = page.locator(".strip").bounding_box()
    assert box["y"] + box["height"] <= 844 - 56
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 390
    assert page.evaluate("() => document.querySelector('h1').getBoundingClientRect().top") == top
    sizes = page.locator(".strip__close").bounding_box()
    assert min(sizes["width"], sizes["height"]) >= 44
    rewrite(host.one, "Stretch the string", "Pull the cord")
    page.evaluate("() => document.dispatchEvent(new Event('visibilitychange'))")
    says(page, NEWER)
    assert [found for found in findings(page) if "strip" in found] == []
    page.evaluate("() => scrollTo({top: 1e6, behavior: 'instant'})")
    foot = page.locator(".sb-foot__words p").first.bounding_box()
    assert foot["y"] + foot["height"] <= page.locator(".strip").bounding_box()["y"], "the last line can be read"
