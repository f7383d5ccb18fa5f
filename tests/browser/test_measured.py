"""What was measured: judged by the guide's limits, kept, sent as text, and read back as the builder's file."""

import itertools
import shutil
import urllib.parse

import pytest

from generator.figure_sets import make_figures
from generator.guides import read_figures
from generator.inputs.measure import Unread, measure
from generator.inputs.site import read_builder

SHED = "shed: {temperature: 70 F, night_low: 61 F, humidity: 45}"
HOSTILE = '"><img src=x onerror=alert(1)>\n measured: {a: !!python/object:x}'


def entry(page, name):
    return page.locator(f"[id='typed-{name}']")


def put(page, name, text):
    entry(page, name).fill(text)
    entry(page, name).blur()


def said(page, name):
    return page.locator(f"[id='said-{name}']").inner_text()


def sent(page):
    return page.locator(".send-text").input_value()


def test_a_typed_measure_means_what_the_builders_file_makes_of_it(watched, served):
    """Whatever the page takes, `measure` reads as the same, from the text that is sent."""
    page = watched(390).open(f"{served}/wen/frame.html")
    numbers = ["0.69", ".5", "12.", "1 3/16", "11/16", "1-3/16", "½", "2 ⅞", "0,69", "007", "3"]
    numbers += ["1 17/16", "1/0", "3/", "1 2", "e5", "1e3", "1,234", "٣", "", " ", "--1", "9" * 41, HOSTILE]
    lengths = ["", " mm", "in", '"', " ft 2 in", "' 3 1/2\"", " ft 13 in"]
    tails = {"length": lengths, "mass": ["", "kg", " lb 14 oz", "oz"], "temperature": ["", " C", "°F"]}
    units = {"length": ("mm", "in"), "mass": ("kg", "lb"), "temperature": ("C", "F")}
    cases = [
        (f"{sign}{number}{tail}", quantity, unit)
        for quantity in units
        for unit in units[quantity]
        for sign, number, tail in itertools.product(("", "-", "−"), numbers, tails[quantity])
    ]
    got = page.evaluate("cases => cases.map(one => shed.typed.read(...one))", cases)
    taken = 0
    for (text, quantity, unit), one in zip(cases, got, strict=True):
        if not text.strip():
            assert one is None
        elif "error" in one:
            assert one["error"].endswith(".")
            assert "<" not in one["error"]
        else:
            taken += 1
            assert float(measure(quantity, one["text"]).value) == pytest.approx(one["value"], rel=1e-9, abs=1e-9), (
                text,
                one,
            )
            bare = float(one["text"]) if one["text"].replace(".", "").replace("-", "").isdigit() else one["text"]
            assert float(measure(quantity, bare).value) == pytest.approx(one["value"], rel=1e-9, abs=1e-9)
            if unit in {"in", "lb", "F"}:
                assert one["text"][-1].isalpha()  # a bare number in the file would be metric
    assert taken > len(cases) / 4
    refused = {text for (text, quantity, unit), one in zip(cases, got, strict=True) if one and "error" in one}
    assert {"1 17/16", "1/0", "1,234", "1e3", "9" * 41, HOSTILE} <= refused
    for text in ("1 17/16 in", "1/0 in", "1,234"):
        with pytest.raises(Unread):
            measure("length", text)


def test_a_verdict_says_how_far_off_and_never_calls_a_missing_limit_good(watched, served, tmp_path):
    watch = watched(390)
    page = watch.open(f"{served}/mara/panels.html")
    field = page.locator("[data-field=panel_thickness]")
    low, high = float(field.get_attribute("data-low")), float(field.get_attribute("data-high"))
    put(page, "panel_thickness", f"{high:g}".replace(".", ","))
    assert said(page, "panel_thickness") == f"✓ Within the limit: {low:g} to {high:g} mm."
    put(page, "panel_thickness", f"{high + 0.2:g}")
    assert said(page, "panel_thickness").startswith("✗ Too thick by 0.2 mm.")
    put(page, "panel_thickness", f"{(low - 1) / 10:g} cm")
    assert said(page, "panel_thickness").startswith("✗ Too thin by 1 mm.")
    put(page, "panel_thickness", "25")
    assert "3 mm to 12 mm" in said(page, "panel_thickness")
    assert "✓" not in said(page, "panel_thickness")
    assert entry(page, "panel_thickness").get_attribute("aria-invalid") == "true"
    assert "left out" in page.locator(".send-said").inner_text()
    assert sent(page) == ""
    put(page, "panel_thickness", HOSTILE)
    assert said(page, "panel_thickness").startswith("Type a number")
    assert page.locator("img[src=x]").count() == 0
    assert entry(page, "panel_thickness").get_attribute("inputmode") == "decimal"
    drop = page.locator("[data-field='panel_sag.drop']")
    put(page, "panel_sag.drop", str(float(drop.get_attribute("data-high")) + 3))
    assert said(page, "panel_sag.drop").startswith("! 3 mm more than the sums expect")
    put(page, "panel_sag.weight", "9")
    page.locator("[data-field='panel_sag.drop'] input").blur()
    assert "✓" not in said(page, "panel_sag.drop")
    assert said(page, "panel_sag.drop").startswith("Noted.")

    page = watch.open(f"{served}/mara/glue.html")  # heights after the glue have no pass and no fail
    put(page, "cured:rib-3", "146.5")
    assert said(page, "cured:rib-3") == "Noted."
    page.evaluate("shed.keep('measured', {'cured:nose': {text: '<img src=x>', at: 1}, 'cured:tail': 7})")
    page.reload()
    assert entry(page, "cured:nose").input_value() == "<img src=x>"
    assert said(page, "cured:nose").startswith("Type a")
    assert watch.said == []


def test_only_the_shape_counts_with_the_top_panel_on(watched, served):
    page = watched(390).open(f"{served}/wen/top-deck.html")
    rows = page.locator(".typed-heights [data-field]").evaluate_all(
        "all => all.map(one => [one.dataset.field, Number(one.dataset.aim), parseFloat(one.dataset.at)])"
    )
    nose = rows[-1][2]
    for n, (name, aim, at) in enumerate(rows):  # the whole board higher and tilted, and one rib off
        put(page, name, f"{(aim + 20 + 10 * at / nose + (12 if n == 4 else 0)) / 25.4:.3f}")
    assert said(page, rows[3][0]).startswith("✓ As a shape, within")
    assert said(page, rows[4][0]) == "✗ As a shape, 1/2 in too high."
    assert said(page, rows[0][0]).startswith("Noted.")
    assert entry(page, rows[0][0]).get_attribute("inputmode") == "text"  # a fraction needs its stroke


def test_the_text_goes_out_by_mail_share_or_copy_and_names_the_photo(watched, served):
    watch = watched(390)
    watch.page.add_init_script("navigator.share = async (what) => { window.shared = what; };")
    page = watch.open(f"{served}/mara/top-deck.html")
    link = page.locator(".send a")
    assert "Photo with it: the inside" in sent(page)
    assert "measured:" not in sent(page)
    names = page.locator(".typed-heights [data-field]").evaluate_all("all => all.map(one => one.dataset.field)")
    for name in names:
        put(page, name, "188.5")
    address = link.get_attribute("href")
    assert len(address) < 1800
    parts = urllib.parse.urlsplit(address)
    assert (parts.scheme, parts.path) == ("mailto", "hello@example.org")
    query = dict(urllib.parse.parse_qsl(parts.query, strict_parsing=True))
    assert query["subject"] == "Dunlin, Mara Quill: Top deck"
    assert query["body"].replace("\r\n", "\n") == sent(page)
    assert "# Photo with it: the inside, with a rule beside every block" in sent(page)
    assert "Attach a photo by hand" in page.locator(".send-said").inner_text()
    page.get_by_role("button", name="Share", exact=True).click()
    assert page.evaluate("window.shared.text") == sent(page)
    page.evaluate("() => { navigator.clipboard.writeText = async () => { throw new Error('no'); }; }")
    page.get_by_role("button", name="Copy", exact=True).click()
    marked = page.evaluate("document.activeElement.selectionEnd - document.activeElement.selectionStart")
    assert marked == len(sent(page))
    page.locator("[data-send]").evaluate("one => { one.dataset.contact = 'tel:+441632960000'; }")
    put(page, names[0], "188.4")
    assert link.get_attribute("href").startswith("sms:+441632960000?body=")
    page.locator("[data-send]").evaluate("one => { one.dataset.photo = 'x '.repeat(900); }")
    put(page, names[0], "188.5")
    assert link.get_attribute("href") is None
    assert "too long for the mail" in page.locator(".send-said").inner_text()
    assert not any(asked.startswith("mailto") for asked in watch.asked)
    assert watch.said == []


@pytest.fixture
def pasted(tmp_path):
    """Put what a page wrote into a copy of a builder's file, in place of what is there under the same name."""

    def paste(slug, text):
        data = tmp_path / slug
        shutil.copytree("site_data", data)
        path = data / "builders" / f"{slug}.yaml"
        heading = next(line for line in text.splitlines() if not line.startswith("#"))
        lines = path.read_text("utf-8").splitlines()
        if heading in lines:
            at = lines.index(heading)
            after = next((n for n in range(at + 1, len(lines)) if not lines[n].startswith(" ")), len(lines))
            del lines[at:after]
        path.write_text("\n".join([*lines, text, ""]), "utf-8")
        return data

    return paste


def test_what_a_page_wrote_in_inches_makes_the_next_guide(watched, served, pasted):
    page = watched(390).open(f"{served}/wen/ready.html")
    assert sent(page) == ""  # nothing was typed yet, though the file's own numbers stand there
    put(page, "shed.night_low", "48 F")
    assert said(page, "shed.night_low") == "✗ Too cold for the glue by 2 °F. The limit: 50 °F or more."
    air = sent(page)
    assert "  temperature: 70 F\n  night_low: 48 F\n  humidity: 45" in air
    page.goto(f"{served}/wen/frame.html")
    put(page, "frame_mass", "1 lb 13 oz")
    put(page, "frame_sag.drop", "9/16")
    data = pasted("wen", sent(page))
    path = data / "builders" / "wen.yaml"
    path.write_text(path.read_text("utf-8").replace(SHED, air), "utf-8")
    figures = read_figures(data, "wen")
    assert figures.values["shed.night_low"].value == pytest.approx((48 - 32) / 1.8)
    assert figures.said["sag.frame.done"] is True
    assert figures.values["sag.frame.read"].value == pytest.approx(9 / 16 * 25.4)
    assert figures.values["frame.mass"].value == pytest.approx((1 + 13 / 16) * 0.45359237)


def test_a_bare_number_keeps_the_unit_that_it_was_typed_in(watched, served):
    page = watched(390).open(f"{served}/wen/ready.html")
    put(page, "shed.night_low", "48")
    assert page.evaluate("() => shed.kept('measured')['shed.night_low'].unit") == "F"
    page.evaluate("() => shed.keep('measured', {'shed.night_low': {text: '11', at: 1, unit: 'C'}})")
    assert entry(page, "shed.night_low").input_value() == "11 C"
    assert "  night_low: 11 C\n" in sent(page)


def test_what_a_page_wrote_in_metric_makes_the_next_guide(watched, served, pasted, tmp_path):
    page = watched(390).open(f"{served}/ines/glue.html")
    heights = ["187", "167,2", "146.5", "132.5", "126.5", "128", "139", "163.5", "204", "245.5"]
    names = page.locator("[data-field^='cured']").evaluate_all("all => all.map(one => one.dataset.field)")
    for name, height in zip(names, heights, strict=True):
        put(page, name, height)
    text = sent(page)
    page.reload()
    assert sent(page) == text  # kept on the phone
    builder = read_builder(pasted("ines", text), "ines")
    figures = make_figures(builder)
    assert figures.said["cured.done"] is True
    assert len(figures.rows["cured"]) == len(heights)
    assert figures.values["cured.2.read"].value == 167.2


def test_readings_of_bench_and_table_come_from_where_they_are_typed(watched, served, pasted):
    watch = watched(390)
    page = watch.open(f"{served}/mara/bench.html")
    assert page.locator("[data-field^='table']").first.locator("input").get_attribute("inputmode") == "text"  # a minus
    for n, field in enumerate(page.locator("[data-field^='table'] input").all()):
        field.fill(f"{n - 1.5}")
        field.blur()
    table = read_builder(pasted("mara", sent(page)), "mara").builder.table
    assert [one.reading_mm for one in table.readings] == [-1.5, -0.5, 0.5, 1.5]
    assert (table.length_mm, table.width_mm) == (3000, 800)

    page = watch.open(f"{served}/ines/rocker.html")
    assert page.locator("[data-field^='on_bench'] input").count() == 0  # asked for once, where the bench is tuned
    readings = {"tail": "187", "rib-1": "167", "rib-2": "146,5", "rib-3": "132.5", "nose": "245.5", "rib-9": "?"}
    page.evaluate("readings => shed.keep('tuning', {readings})", readings)
    text = sent(page)
    assert text.count("from_tail") == 5
    assert "{from_tail: 345, height: 146.5}" in text
    builder = read_builder(pasted("ines", text), "ines").builder
    assert [one.height_mm for one in builder.measured.on_bench] == [187, 167, 146.5, 132.5, 245.5]
    assert watch.said == []
