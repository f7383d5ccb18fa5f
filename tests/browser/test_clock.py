"""Clocks for glue and finish: absolute times that outlive the page, an end in words, a calendar entry, the screen."""

import datetime
import re

import pytest

SIX = datetime.datetime(2026, 11, 26, 18, 0, 0)
SETTLE_MS = 1000  # longer than the second tap of a gloved hand
PLACE = "#clock-glue-open"
WAKE = """
window.locks = [];
Object.defineProperty(navigator, "wakeLock", { configurable: true, value: { request: async (kind) => {
  const lock = new EventTarget();
  lock.kind = kind;
  lock.release = async () => { lock.released = true; lock.dispatchEvent(new Event("release")); };
  locks.push(lock);
  return lock;
} } });
window.seen = "visible";
Object.defineProperty(document, "visibilityState", { get: () => window.seen });
window.see = (how) => { window.seen = how; document.dispatchEvent(new Event("visibilitychange")); };
"""


def clocked(watched, address, *, at=SIX, script="", html=None):
    """A watched page with a clock of ours, on the address of a stage."""
    watch = watched(390)
    watch.page.clock.install(time=at)
    if script:
        watch.page.add_init_script(script)
    if html:
        watch.page.route(
            "**/glue.html", lambda route: route.fulfill(body=html(route.fetch().text()), content_type="text/html")
        )
    watch.open(address)
    return watch, watch.page


def says(page, place=PLACE):
    """What is seen of a clock, in one line."""
    return " ".join(page.locator(place).inner_text().split())


def tap(page, name, place=PLACE):
    page.clock.run_for(SETTLE_MS)
    page.locator(place).get_by_role("button", name=name, exact=True).click()


def test_a_clock_runs_through_lock_reload_and_another_page(watched, served):
    watch, page = clocked(watched, f"{served}/wen/glue.html")
    minutes = int(page.locator(PLACE).get_attribute("data-minutes"))
    assert f"{minutes} min" in says(page)
    assert "can't ring while the phone is locked" in says(page)
    start = page.locator(PLACE).get_by_role("button", name="Start", exact=True)
    assert start.bounding_box()["height"] >= 56
    tap(page, "Start")
    kept = page.evaluate("shed.kept('clocks')")["clock-glue-open"]
    began = datetime.datetime.fromtimestamp(kept["began"] / 1000)
    assert datetime.timedelta(0) <= began - SIX < datetime.timedelta(seconds=10)
    ends = began + datetime.timedelta(minutes=minutes)
    assert f"Until {ends:%H:%M}." in says(page)
    assert (kept["minutes"], kept["page"]) == (minutes, "glue.html")
    assert kept["label"] == "Open time: Bottom glue-up"

    page.clock.fast_forward(10 * 60_000)  # locked: nothing ticks, time passes
    page.goto(f"{served}/wen/rails.html")
    page.goto(f"{served}/wen/glue.html")
    assert f"{minutes - 11} min left" in says(page)
    assert f"Until {ends:%H:%M}." in says(page)
    page.clock.fast_forward((minutes - 12) * 60_000)
    page.clock.run_for(2000)
    assert re.search(r"\d+ s left", says(page))
    page.clock.run_for(2 * 60_000)
    assert f"Over Since {ends:%H:%M}" in says(page)
    assert "A joint closed too late lets go." in says(page)
    assert page.locator(f"{PLACE} a[href='#rescue']").is_visible()
    assert page.locator(f"{PLACE} [role=status]").text_content().startswith("Open time: over.")
    assert watch.said == []


def test_a_wrong_tap_is_undone_and_a_late_start_set_back(watched, served):
    watch, page = clocked(watched, f"{served}/wen/glue.html")
    minutes = int(page.locator(PLACE).get_attribute("data-minutes"))
    page.clock.run_for(SETTLE_MS)
    page.locator(PLACE).get_by_role("button", name="Start", exact=True).dblclick()
    assert "left" in says(page)  # the second tap of a doubled one stops nothing
    began = page.evaluate("shed.kept('clocks')['clock-glue-open'].began")
    tap(page, "Began 5 min earlier")
    assert page.evaluate("shed.kept('clocks')['clock-glue-open'].began") == began - 300_000
    assert f"{minutes - 6} min left" in says(page)
    assert "Began 17:55." in says(page)
    tap(page, "5 min later")
    assert page.evaluate("shed.kept('clocks')['clock-glue-open'].began") == began
    tap(page, "Stop")
    assert "Stopped At 18:00" in says(page)
    page.reload()
    tap(page, "Undo: go on")
    assert page.evaluate("shed.kept('clocks')['clock-glue-open']") == {
        "label": "Open time: Bottom glue-up", "page": "glue.html", "began": began, "minutes": minutes, "kind": "open"
    }  # fmt: skip
    assert "left" in says(page)
    assert watch.said == []


def test_a_phone_whose_clock_jumped_or_whose_store_is_odd_shows_no_nonsense(watched, served):
    watch, page = clocked(watched, f"{served}/wen/glue.html")
    tap(page, "Start")
    page.clock.set_fixed_time(SIX - datetime.timedelta(hours=3))
    page.reload()
    assert "The phone's clock was changed" in says(page)
    assert "-" not in page.locator(f"{PLACE} .clock-left").inner_text()
    page.locator(PLACE).get_by_role("button", name="It began just now").click()
    assert "left" in says(page)
    odd = ["'text'", "{began: 'x', minutes: 5}", "{began: 1e300, minutes: 5}", "{began: 1, minutes: -4}", "[]"]
    for one in odd:
        page.evaluate(f"shed.keep('clocks', {{'clock-glue-open': {one}}})")
        assert "Start it with the first glue" in says(page), one
    hostile = "<img src=x onerror=alert(1)>"
    page.evaluate(
        "label => shed.keep('clocks', {'clock-glue-open': {label, page: label, began: Date.now(), minutes: 5}})",
        hostile,
    )
    page.reload()
    assert page.locator("img[src=x]").count() == 0
    assert watch.said == []


def test_a_cure_ends_on_another_day_and_says_what_may_be_done(watched, served):
    watch, page = clocked(watched, f"{served}/wen/glue.html")
    place = "#clock-glue-cure"
    tap(page, "Start", place)
    minutes = int(page.locator(place).get_attribute("data-minutes"))
    ends = SIX + datetime.timedelta(minutes=minutes, seconds=1)
    assert f"{ends:%A} {ends.day} {ends:%B}, 18:01." in says(page, place)  # never earlier than it is
    assert "Put the end into your calendar" in says(page, place)
    page.clock.fast_forward((minutes + 5) * 60_000)
    page.clock.run_for(1000)
    assert 'First do the check "The glue has cured" below.' in says(page, place)
    page.goto(f"{served}/wen/seal.html")
    coat = "#clock-seal-coat"
    tap(page, "Start", coat)
    assert "Not before" in says(page, coat)
    assert "No later than" in says(page, coat)
    assert watch.said == []


def unfolded(text):
    """The lines of a calendar: CRLF, at most 75 octets, folded by a space. Source: RFC 5545, 3.1."""
    assert text.endswith(b"\r\n")
    assert b"\n" not in text.replace(b"\r\n", b"")
    assert all(len(line) <= 75 for line in text.split(b"\r\n"))
    return text.replace(b"\r\n ", b"").decode("utf-8").split("\r\n")[:-1]


def test_the_calendar_entry_is_what_the_standard_asks_for(watched, served):
    odd = "Härten, über Nacht; ein \\ und «viele» Wörter, die zusammen länger als eine Zeile sind: 木の板"
    watch, page = clocked(
        watched,
        f"{served}/wen/glue.html",
        html=lambda text: re.sub(r">Full cure[^<]*</p>", lambda _: f">{odd}</p>", text),
    )
    tap(page, "Start", "#clock-glue-cure")
    began = page.evaluate("shed.kept('clocks')['clock-glue-cure'].began")
    with page.expect_download() as got:
        tap(page, "Calendar entry", "#clock-glue-cure")
    assert got.value.suggested_filename == "clock-glue-cure.ics"
    with open(got.value.path(), "rb") as file:
        lines = unfolded(file.read())
    nest = [line for line in lines if line.startswith(("BEGIN:", "END:"))]
    assert nest == ["BEGIN:VCALENDAR", "BEGIN:VEVENT", "BEGIN:VALARM", "END:VALARM", "END:VEVENT", "END:VCALENDAR"]
    outer = dict(line.split(":", 1) for line in lines[: lines.index("BEGIN:VALARM")] if not line.startswith("BEGIN"))
    assert outer["VERSION"] == "2.0"
    assert outer["PRODID"]
    assert outer["UID"]
    stamp = r"\d{8}T\d{6}Z"
    assert all(re.fullmatch(stamp, outer[name]) for name in ("DTSTAMP", "DTSTART", "DTEND"))
    minutes = int(page.locator("#clock-glue-cure").get_attribute("data-minutes"))
    ends = datetime.datetime.fromtimestamp(began / 1000, datetime.UTC) + datetime.timedelta(minutes=minutes)
    start = datetime.datetime.strptime(outer["DTSTART"], "%Y%m%dT%H%M%SZ").replace(tzinfo=datetime.UTC)
    assert datetime.timedelta(0) <= start - ends <= datetime.timedelta(seconds=1)
    text = re.sub(r"\\([\\;,])", r"\1", outer["SUMMARY"])
    assert text == f"{odd}: Bottom glue-up: over"
    assert re.fullmatch(r"(?:[^\\;,]|\\[\\;,n])*", outer["SUMMARY"])  # 3.3.11: what must be escaped is
    alarm = lines[lines.index("BEGIN:VALARM") + 1 : lines.index("END:VALARM")]
    assert "ACTION:DISPLAY" in alarm
    assert "TRIGGER:PT0S" in alarm
    assert any(line.startswith("DESCRIPTION:") for line in alarm)
    assert watch.said == []


def test_the_screen_is_kept_on_for_open_time_and_for_nothing_else(watched, served):
    watch, page = clocked(watched, f"{served}/wen/glue.html", script=WAKE)
    tap(page, "Start", "#clock-glue-cure")
    assert page.evaluate("locks.length") == 0
    tap(page, "Start")
    page.clock.run_for(50)
    assert page.evaluate("locks.map(lock => lock.kind)") == ["screen"]
    assert "The screen stays on" in says(page)
    page.evaluate("locks[0].release(); see('hidden')")
    page.clock.run_for(5000)
    assert page.evaluate("locks.length") == 1
    page.evaluate("see('visible')")
    page.clock.run_for(50)
    assert page.evaluate("locks.length") == 2
    assert "The screen stays on" in says(page)
    tap(page, "Stop")
    assert page.evaluate("locks[1].released === true")
    assert "The screen stays on" not in says(page)
    assert watch.said == []


def test_a_phone_that_can_not_keep_the_screen_on_is_told_nothing_false(watched, served):
    refused = 'Object.defineProperty(navigator, "wakeLock", {value: {request: () => Promise.reject(new Error("no"))}})'
    watch, page = clocked(watched, f"{served}/wen/glue.html", script=refused)
    tap(page, "Start")
    page.clock.run_for(3000)
    assert "left" in says(page)
    assert "stays on" not in says(page)
    assert watch.said == []


def test_without_scripts_the_page_tells_the_time_in_words(chromium, served):
    context = chromium.new_context(java_script_enabled=False)
    try:
        page = context.new_page()
        page.goto(f"{served}/wen/glue.html")
        assert page.locator(PLACE).count() == 1
        assert not page.locator(PLACE).is_visible()
        assert not page.locator("[data-shed=measured]").first.is_visible()
        step = page.locator("#step-glue-close").inner_text()
        assert re.search(r"before \d+ min have passed", step)
    finally:
        context.close()


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_when_the_clocks_come_to_life(watched, served, width):
    watch = watched(width)
    watch.page.route("**/clock.js", lambda route: route.fulfill(body="", content_type="text/javascript"))
    heights = "all => all.map(one => one.getBoundingClientRect().height)"
    before = watch.open(f"{served}/wen/glue.html").locator(".clock").evaluate_all(heights)
    watch.page.unroute("**/clock.js")
    after = watch.open(f"{served}/wen/glue.html").locator(".clock").evaluate_all(heights)
    assert len(after) == 2
    assert min(after) > 150
    assert after == pytest.approx(before, abs=12)
    assert watch.said == []
