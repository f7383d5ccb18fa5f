"""Ticks that stay, however the guide changes; progress carried to another phone; Tonight, which knows what comes."""

import json
import re
import shutil
from pathlib import Path

import pytest

from tests.browser.conftest import serving
from tests.browser.test_every_page import findings

SLUG = "mara"
SHIFTS = (
    "window.shifted = 0; new PerformanceObserver(list => list.getEntries().forEach(one => {"
    " if (!one.hadRecentInput) window.shifted += one.value; })).observe({type: 'layout-shift', buffered: true});"
)
KEPT = "() => Object.fromEntries(Object.entries(localStorage).filter(([name]) => name.startsWith('shedbook:')).sort())"
SHOWN = (
    "() => [...document.querySelectorAll('.tonight-stage')]"
    ".filter(one => one.checkVisibility()).map(one => one.dataset.stage)"
)


@pytest.fixture(scope="module")
def site(demo_sites, tmp_path_factory):
    """A copy of one guide that a test may change, and its address."""
    folder = tmp_path_factory.mktemp("progress") / "site"
    shutil.copytree(demo_sites / SLUG, folder)
    with serving(folder) as address:
        yield folder, address


@pytest.fixture(scope="module")
def stages(site):
    text = (site[0] / "index.html").read_text("utf-8")
    return json.loads(re.search(r'id="guide-boxes">(.*?)</script>', text)[1])["stages"]


def ids(stage):
    return [id_ for id_, _ in stage["boxes"]]


def keep(page, **kept):
    page.evaluate("kept => Object.entries(kept).forEach(([name, value]) => shed.keep(name, value))", kept)


def kept(page, name):
    return page.evaluate("name => shed.kept(name)", name)


def ticked(page):
    return page.eval_on_selector_all(".tick-box:checked", "boxes => boxes.map(box => box.dataset.tick)")


def progress_file(page, kept, **head):
    """The bytes of a saved file, as this guide would write it."""
    own = {"shedbook": 1, "guide": page.evaluate("() => shed.guide"), "saved": "2027-03-01T20:00:00.000Z"}
    return json.dumps(own | {"kept": kept} | head).encode()


def bring(page, content, name="progress.json"):
    told = page.locator(".carry__told")
    page.evaluate("() => document.querySelector('.carry__told').replaceChildren()")
    page.locator(".carry input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/json", "buffer": content}
    )
    page.wait_for_function("() => document.querySelector('.carry__told').textContent")
    return told.text_content()


def test_a_tick_stays_and_other_open_pages_follow(watched, site, stages):
    watch = watched(390)
    watch.page.add_init_script(SHIFTS)
    page = watch.open(f"{site[1]}/frame.html")
    front = page.context.new_page()
    front.goto(f"{site[1]}/index.html")
    frame = next(stage for stage in stages if stage["slug"] == "frame")
    assert page.locator(".tick-count").inner_text() == f"0 of {len(frame['boxes'])} done"
    began = page.evaluate("() => Date.now()")
    page.locator(f"label[for=tick-{ids(frame)[1]}]").click()
    page.locator(f"label[for=tick-{ids(frame)[0]}]").click()
    page.locator(f"label[for=tick-{ids(frame)[0]}]").click()
    assert list(kept(page, "ticks")) == [ids(frame)[1]]
    assert began <= kept(page, "ticks")[ids(frame)[1]] <= began + 60000
    front.wait_for_function("() => document.querySelector('.how-far__bar').value === 1")
    assert "Next box: " in front.locator(".how-far__next").inner_text()
    page.reload(wait_until="load")
    assert ticked(page) == [ids(frame)[1]]
    assert page.locator(".tick-count").inner_text() == f"1 of {len(frame['boxes'])} done"
    assert not page.locator(".keeps-nothing").is_visible()
    assert page.evaluate("() => shifted") < 0.01
    front.evaluate("() => shed.forget('ticks')")
    page.wait_for_function("() => !document.querySelector('.tick-box:checked')")
    assert not watch.said


def test_ticks_hang_on_their_boxes_however_the_guide_changes(watched, site, stages):
    folder, address = site
    page = watched(390).open(f"{address}/keying.html")
    keying = next(stage for stage in stages if stage["slug"] == "keying")
    first, second, third, *_ = ids(keying)
    for id_ in (first, second):
        page.locator(f"label[for=tick-{id_}]").click()
    before = (folder / "keying.html").read_text("utf-8")
    try:
        found = re.findall(r'(<li class="step" id="(step-keying-[a-z]+)".*?</li>)', before, re.DOTALL)
        items = {id_: item for item, id_ in found}
        title = keying["boxes"][1][1]
        added = items[third].replace(third, "step-keying-new").replace(keying["boxes"][2][1], "A new step")
        changed = before.replace(items[first], "").replace(title, "Another title")
        changed = changed.replace(items[third], items[third] + added)
        changed = changed.replace(f"{items[third]}{added}", "")
        changed = changed.replace('<ol class="steps">', f'<ol class="steps">{items[third]}{added}', 1)
        assert "Another title" in changed
        assert "step-keying-new" in changed
        (folder / "keying.html").write_text(changed, "utf-8")
        page.goto(f"{address}/keying.html?changed")  # not the copy that the browser still has
        assert ticked(page) == [second], "the tick went with a place or a title"
        assert page.locator(f"#tick-{first}").count() == 0
        assert page.locator(".tick-count").inner_text() == f"1 of {len(keying['boxes'])} done"
        page.locator("label[for=tick-step-keying-new]").click()
        assert set(kept(page, "ticks")) == {first, second, "step-keying-new"}
    finally:
        (folder / "keying.html").write_text(before, "utf-8")
    page.goto(f"{address}/keying.html?back")
    assert ticked(page) == [first, second], "the tick of a box that came back is gone"


def test_the_front_page_says_how_far_what_is_next_and_what_waits(watched, site, stages):
    watch = watched(390)
    watch.page.add_init_script(SHIFTS)
    page = watch.open(f"{site[1]}/index.html")
    ready, panels = stages[:2]
    count = sum(len(stage["boxes"]) for stage in stages)
    assert page.locator(".how-far__line").inner_text().startswith(f"None of the {count} boxes is ticked yet.")
    assert page.locator(".how-far__next a").get_attribute("href") == f"ready.html#{ids(ready)[0]}"
    assert page.locator(".how-far__differs").inner_text() == ""
    now = page.evaluate("() => Date.now()")
    clock = {"page": "frame.html", "began": now - 7_200_000}
    keep(
        page,
        ticks=dict.fromkeys([*ids(ready), ids(panels)[0]], now),
        clocks={
            "over": clock | {"label": "Ribs", "minutes": 60},
            "runs": clock | {"label": "Strips", "minutes": 600, "to": 900},
            "earliest": clock | {"label": "Joins", "minutes": 60, "to": 900},
            "stopped": clock | {"label": "Nothing", "minutes": 600, "stopped": now},
            "long over": clock | {"label": "Last week", "minutes": 60, "began": now - 7 * 86_400_000},
        },
    )
    page.reload(wait_until="load")
    done = len(ready["boxes"]) + 1
    assert page.locator(".how-far__line").inner_text() == f"{done} of {count} boxes are ticked."
    assert page.evaluate("() => document.querySelector('.how-far__bar').position") == pytest.approx(done / count)
    assert page.locator(".how-far__next a").get_attribute("href") == f"panels.html#{ids(panels)[1]}"
    done_by_file = '[{slug: "a", done: true, boxes: [["x", "X"]]}, {slug: "b", boxes: [["y", "Y"]]}]'
    assert page.evaluate(f"() => shed.coming({done_by_file}).slug") == "b", "what the file counts as done is not next"
    differs = page.locator(".how-far__differs").inner_text()
    assert differs.startswith("Your file says Getting ready, your ticks say Deck panels. Tell ")
    waits = page.locator(".how-far__waits li").all_inner_texts()
    assert [text.split(":")[0] for text in waits] == ["Ribs", "Joins", "Strips"]
    ends = page.evaluate(
        "all => all.map(ms => new Date(Math.ceil(ms / 60000) * 60000).toTimeString().slice(0, 5))",
        [now + minutes * 60_000 for minutes in (-60, -60, 780, 480, 780)],
    )
    assert re.findall(r"\d\d:\d\d", " ".join(waits)) == ends
    assert [re.findall(r"over since|or lasts up to|until|or up to", text) for text in waits] == [
        ["over since"],
        ["over since", "or lasts up to"],
        ["until", "or up to"],
    ]
    assert page.locator(".how-far__stages li").count() == len(stages)
    page.locator(".how-far__each summary").click()
    page.locator(".carry summary").click()
    assert page.locator(".how-far__stages .is-next").inner_text().startswith("Deck panels")
    assert not findings(page)
    sizes = page.eval_on_selector_all(
        ".how-far__stages a, .how-far summary, .carry summary, .carry button",
        "all => all.map(one => [one.getBoundingClientRect().width, one.getBoundingClientRect().height])",
    )
    assert min(min(size) for size in sizes) >= 44
    assert page.evaluate("() => shifted") < 0.01
    page.locator(".how-far__next a").click()
    page.wait_for_url(f"**/panels.html#{ids(panels)[1]}")


def test_progress_goes_to_another_phone_and_both_are_kept(watched, site, stages, tmp_path):
    phone = watched(390)
    phone.page.add_init_script(
        "navigator.canShare = ({files}) => files[0].type === 'text/plain';"
        "navigator.share = async ({files}) => { window.sent = [files[0].name, await files[0].text()]; };"
    )
    old = phone.open(f"{site[1]}/index.html")
    a, b, c, *_ = ids(stages[0])
    clock = {"label": "Ribs", "page": "frame.html", "minutes": 600}
    keep(
        old,
        ticks={a: 1000, b: 5000},
        clocks={"ribs": clock | {"began": 9000}, "strips": clock | {"began": 100}},
        measured={"low": {"text": "12", "at": 700}, "high": {"text": "20", "at": 10}},
        stage={"slug": "frame", "at": 50},
    )
    old.locator(".carry summary").click()
    with old.expect_download() as saving:
        old.get_by_role("button", name="Save progress to a file").click()
    saved = tmp_path / "saved.json"
    saving.value.save_as(saved)
    name = saving.value.suggested_filename
    assert re.fullmatch(r"shedbook-progress-dunlin-\d{4}-\d\d-\d\d\.json", name)
    content = json.loads(saved.read_text("utf-8"))
    assert set(content) == {"shedbook", "guide", "saved", "kept"}
    assert content["kept"]["ticks"] == {a: 1000, b: 5000}
    assert "Quill" not in saved.read_text("utf-8")
    old.get_by_role("button", name="Send progress").click()
    sent_as, sent = old.wait_for_function("() => window.sent").json_value()
    assert sent_as == name.replace(".json", ".txt")
    assert json.loads(sent)["kept"] == content["kept"]

    watch = watched(390)
    new = watch.open(f"{site[1]}/index.html")
    keep(
        new,
        ticks={b: 9000, c: 1},
        clocks={"ribs": clock | {"began": 1}},
        measured={"low": {"text": "old", "at": 1}, "high": {"text": "21", "at": 900}},
        stage={"slug": "glue", "at": 70},
    )
    told = bring(new, saved.read_bytes())
    assert told.startswith("Brought in. 1 tick is new")
    assert kept(new, "ticks") == {a: 1000, b: 9000, c: 1}
    assert {id_: one["began"] for id_, one in kept(new, "clocks").items()} == {"ribs": 9000, "strips": 100}
    assert {id_: one["text"] for id_, one in kept(new, "measured").items()} == {"low": "12", "high": "21"}
    assert kept(new, "stage") == {"slug": "glue", "at": 70}
    assert new.locator(".how-far__line").inner_text().startswith("3 of ")
    assert bring(new, saved.read_bytes()).startswith("Brought in. 0 ticks are new")
    assert not watch.said


REFUSED = {
    "another guide": ({"ticks": {}}, {"guide": "0123456789abcdef"}),
    "not JSON": (b"{oh", {}),
    "no object": (b"[1]", {}),
    "no saved progress": (b'{"kept": {}}', {}),
    "a newer kind": ({"ticks": {}}, {"shedbook": 2}),
    "nothing kept": (None, {}),
    "ticks in a list": ({"ticks": ["step-a-b"]}, {}),
    "a tick that is a word": ({"ticks": {"step-a-b": "yes"}}, {}),
    "a tick before time": ({"ticks": {"step-a-b": -1}}, {}),
    "an odd id": ({"ticks": {"__proto__x": 1, "<b>": 2}}, {}),
    "a clock without a beginning": ({"ticks": {"step-a-b": 1}, "clocks": {"a": {"label": "A", "minutes": 1}}}, {}),
    "a measured number": ({"ticks": {"step-a-b": 1}, "measured": {"a": 3}}, {}),
    "a stage that is a number": ({"ticks": {"step-a-b": 1}, "stage": 3}, {}),
    "a label too long": ({"clocks": {"a": {"label": "x" * 501, "minutes": 1, "began": 1}}}, {}),
    "too large": (b" " * 1_000_001, {}),
    "deep": (b'{"a":' * 100_000, {}),
}


def test_files_that_are_refused_change_nothing(watched, site, stages):
    watch = watched(390)
    page = watch.open(f"{site[1]}/index.html")
    keep(page, ticks={ids(stages[0])[0]: 1000}, stage={"slug": "frame", "at": 50})
    before = page.evaluate(KEPT)
    page.locator(".carry summary").click()
    for why, (content, head) in REFUSED.items():
        told = bring(page, content if isinstance(content, bytes) else progress_file(page, content, **head))
        assert re.fullmatch(r"This file [^.]+\. Nothing was changed\.", told), f"{why}: {told}"
        assert page.evaluate(KEPT) == before, why
    assert bring(page, progress_file(page, {"ticks": {"step-ready-x": 4}})).startswith("Brought in.")
    assert page.evaluate(KEPT) != before
    assert not watch.said


def test_scripts_planted_in_a_progress_file_stay_words(watched, site):
    watch = watched(390)
    watch.page.add_init_script("window.planted = []")
    page = watch.open(f"{site[1]}/index.html")
    planted = "<img src=x onerror=planted.push(1)><script>planted.push(2)</script>"
    now = page.evaluate("() => Date.now()")
    clock = {"label": planted, "page": "javascript:planted.push(3)", "began": now, "minutes": 5, "to": None}
    content = {
        "clocks": {"a": clock},
        "measured": {"b": {"text": planted, "at": 1}},
        "tuning": {"note": planted, "at": 1},
        "stage": {"slug": planted, "at": 1},
    }
    assert bring(page, progress_file(page, content)).startswith("Brought in.")
    assert planted in page.locator(".how-far__waits").text_content()
    assert page.locator(".how-far__waits a, .how-far img").count() == 0
    for name in ("tonight.html", "rocker.html", "glue.html", "index.html"):
        watch.open(f"{site[1]}/{name}")
        assert page.evaluate("() => planted") == [], name
        assert page.locator("article [onerror]").count() == 0
        assert not watch.said, name


def test_ticks_are_forgotten_after_two_taps_and_not_after_one(watched, site, stages):
    page = watched(390).open(f"{site[1]}/index.html")
    keep(page, ticks=dict.fromkeys(ids(stages[0])[:3], 1000), stage={"slug": "frame", "at": 50})
    page.locator(".carry summary").click()
    page.get_by_role("button", name="Forget all ticks on this phone").click()
    assert "All 3 ticks will be gone" in page.locator(".carry__forget").inner_text()
    assert page.evaluate("() => document.activeElement.textContent") == "Keep them"
    page.get_by_role("button", name="Keep them").click()
    assert len(kept(page, "ticks")) == 3
    page.get_by_role("button", name="Forget all ticks on this phone").click()
    page.get_by_role("button", name="Yes, forget them").click()
    assert kept(page, "ticks") is None
    assert kept(page, "stage") == {"slug": "frame", "at": 50}
    assert page.locator(".how-far__line").inner_text().startswith("None of the ")


def test_tonight_shows_what_was_chosen_else_what_is_ticked_else_what_is_planned(watched, site, stages):
    watch = watched(390)
    watch.page.add_init_script(SHIFTS)
    page = watch.open(f"{site[1]}/tonight.html")
    planned = page.locator(".tonight-stage.by-plan").get_attribute("data-stage")
    why = page.locator(".tonight-why")
    assert page.evaluate(SHOWN) == [planned]
    assert why.inner_text().startswith("This stage is next. Your plan has it on ")
    keep(page, ticks=dict.fromkeys([*ids(stages[0]), *ids(stages[1]), ids(stages[2])[0], ids(stages[5])[0]], 1000))
    assert page.evaluate(SHOWN) == [stages[2]["slug"]], "an open page follows the ticks"
    assert stages[2]["boxes"][1][1] in why.inner_text()
    page.select_option("#tonight-chooser", "top-deck")
    assert page.evaluate(SHOWN) == ["top-deck"]
    page.reload(wait_until="load")
    assert page.evaluate(SHOWN) == ["top-deck"]
    assert why.inner_text().startswith("You chose this stage yourself.")
    assert page.evaluate("() => shifted") < 0.01
    page.evaluate("() => { location.hash = '#tonight-fin-dry'; }")
    page.wait_for_function("() => document.querySelector('.chosen').dataset.stage === 'fin'")
    assert kept(page, "stage")["slug"] == "top-deck", "a link is no choice"
    page.select_option("#tonight-chooser", "")
    assert kept(page, "stage") is None
    assert page.evaluate(SHOWN) == [stages[2]["slug"]]
    keep(page, ticks=dict.fromkeys((id_ for stage in stages for id_ in ids(stage)), 1000))
    assert page.evaluate(SHOWN) == [stages[-1]["slug"]]
    page.emulate_media(media="print")
    assert page.evaluate(SHOWN) == [stage["slug"] for stage in stages], "on paper every stage"
    assert not watch.said


def test_without_scripts_everything_can_be_read(chromium, site, stages):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site[1]}/tonight.html")
    assert page.locator(".tonight-stage:visible").count() == len(stages)
    assert page.locator("article [data-shed]:visible").count() == 0
    for name in ("index.html", "frame.html"):
        page.goto(f"{site[1]}/{name}")
        assert page.locator("article [data-shed]:visible").count() == 0, name
        assert page.locator(".tick-box:visible").count() > 5
    context.close()


def test_a_browser_that_keeps_nothing_is_said_once_beside_the_boxes(watched, site):
    watch = watched(390)
    watch.page.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); }")
    page = watch.open(f"{site[1]}/frame.html")
    assert page.locator(".keeps-nothing:visible").count() == 1
    page.locator(".tick label").first.click()
    assert page.locator(".tick-count").inner_text().startswith("1 of ")
    assert not watch.said


def test_a_browser_that_fills_up_later_says_so_too(watched, site):
    page = watched(390).open(f"{site[1]}/frame.html")
    assert not page.locator(".keeps-nothing").is_visible()
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new Error('full'); }; }")
    page.locator(".tick label").first.click()
    assert page.locator(".keeps-nothing").is_visible()
    assert page.locator(".tick-box").first.is_checked()


def test_progress_is_saved_and_brought_from_a_folder_too(watched, site, stages, tmp_path):
    watch = watched(390)
    page = watch.open(Path(site[0], "index.html").as_uri())
    keep(page, ticks={ids(stages[0])[0]: 1000})
    page.locator(".carry summary").click()
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save progress to a file").click()
    saving.value.save_as(tmp_path / "saved.json")
    page.evaluate("() => shed.forget('ticks')")
    assert bring(page, (tmp_path / "saved.json").read_bytes()).startswith("Brought in. 1 tick is new")
    assert not watch.said


ODD = (
    "[null, 5]",
    "{x: null, y: 5, 'clock-glue-open': {label: 5, began: 'x', minutes: {}}, plan: 5, readings: null, slug: {}}",
    "{x: {label: {toString: null}, began: Date.now(), minutes: 9}, y: {label: 'Odd', began: Date.now(), minutes: 9,"
    " page: {toString: null}}, z: {label: 'Odd', began: Date.now(), minutes: 8, to: 1e300, page: 'javascript:a()'},"
    " v: {label: 'Odd', began: Date.now(), minutes: 1e13}, w: {label: 'Odd', began: 8e15, minutes: 1e300}}",
)


def test_a_damaged_store_breaks_no_page_and_is_not_carried_on(watched, site):
    watch = watched(390)
    page = watch.open(f"{site[1]}/index.html")
    mend = [{"clock-glue-open": {"label": "Open", "began": 1, "minutes": 5}}, {"frame_mass": {"text": "2", "at": 5}}]
    for odd in ODD:
        page.evaluate(
            "odd => ['ticks', 'clocks', 'measured', 'tuning', 'stage'].forEach(name => shed.keep(name, odd))",
            page.evaluate(f"() => ({odd})"),
        )
        for name in ("glue", "rocker", "index"):
            page.goto(f"{site[1]}/{name}.html", wait_until="load")
            assert page.locator("a[href*='script:'], a[href*='undefined'], a[href*='object']").count() == 0
        assert page.locator(".how-far__line").inner_text()
        told = bring(page, progress_file(page, {"ticks": {"a": 5}, "clocks": mend[0], "measured": mend[1]}))
        assert told.startswith("Brought in.")
        assert kept(page, "clocks")["clock-glue-open"] == mend[0]["clock-glue-open"]
        assert kept(page, "measured")["frame_mass"] == mend[1]["frame_mass"]
        assert "x" not in kept(page, "measured")
    assert not watch.said


def test_a_store_that_was_full_before_is_still_read(watched, site, stages):
    page = watched(390).open(f"{site[1]}/frame.html")
    page.locator(".tick label").first.click()
    page.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); }")
    page.reload(wait_until="load")
    assert page.locator(".tick-box").first.is_checked()
    assert page.locator(".keeps-nothing:visible").count() == 1


def test_a_page_that_lay_asleep_or_whose_store_was_cleared_looks_again(watched, site):
    page = watched(390).open(f"{site[1]}/frame.html")
    page.evaluate(
        "() => { window.heard = []; shed.heed('ticks', () => heard.push('t')); shed.heed('a', () => heard.push('a')); }"
    )
    page.evaluate("() => dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))")
    assert page.evaluate("() => heard.splice(0)") == ["t", "a"]
    page.evaluate("() => dispatchEvent(new StorageEvent('storage', {key: null}))")
    assert page.evaluate("() => heard") == ["t", "a"]


OLD = """
for (const name of ["localStorage", "sessionStorage"]) {
  Object.defineProperty(window, name, {configurable: true, get() { throw new DOMException("no", "SecurityError"); }});
}
delete Object.hasOwn;
delete Array.prototype.at;
delete HTMLElement.prototype.inert;
for (const name of ["HTMLDialogElement", "AudioContext", "structuredClone"]) delete window[name];
for (const name of ["wakeLock", "share", "canShare", "clipboard", "vibrate"]) delete Navigator.prototype[name];
"""


def test_a_phone_of_2021_that_may_keep_nothing_reads_ticks_and_follows_links(watched, site):
    watch = watched(390)
    watch.page.add_init_script(OLD)
    page = watch.page
    for name in ("glue", "rocker", "frame"):
        page.goto(f"{site[1]}/{name}.html", wait_until="load")
    page.locator(".tick label").first.click()
    assert page.locator(".tick-count").inner_text().startswith("1 of ")
    assert page.locator(".keeps-nothing").is_visible()
    page.locator("a.fig:visible").first.click()
    page.wait_for_url("**/numbers.html#*")
    assert not watch.said
