"""The mail draft: what it says, and that no name can make a header of its own."""

import re
import stat
from dataclasses import replace
from email import message_from_bytes
from email.policy import SMTP

import pytest

from generator.deliver.keys import key_of
from generator.deliver.mail import draft, guide_address, one_line, write_draft
from generator.deliver.plain import blocks
from generator.guides import draw_all, guide_of
from tests.demos import figures_of

ADDRESS = "https://example.org/x/abc/"


@pytest.fixture(scope="module")
def made():
    figures = figures_of("tobin")
    return figures, guide_of(figures, draw_all(figures))


def drafted(made, **said):
    figures, guide = made
    changed = {name.replace("_", "."): text for name, text in said.items()}
    return draft(replace(figures, said={**figures.said, **changed}), guide, ADDRESS)


def read(mail):
    return message_from_bytes(mail, policy=SMTP)


def words_of(mail):
    return read(mail).get_content().replace("\r\n", "\n")


def test_it_is_a_draft_of_plain_text_and_nothing_in_it_changes_from_run_to_run(made):
    mail = drafted(made)
    assert mail == drafted(made)
    assert re.search(rb"(?<!\r)\n|\r(?!\n)", mail) is None
    assert max(map(len, mail.split(b"\r\n"))) <= 78
    assert mail.isascii()
    message = read(mail)
    assert message["X-Unsent"] == "1"
    assert message.get_content_type() == "text/plain"
    assert message.get_content_charset() == "utf-8"
    assert message["From"] == "Sedge Lane Board Kits <hello@example.org>"
    assert not {"Date", "Message-ID", "To", "Cc", "Bcc"} & set(message.keys())
    assert not message.defects


def test_it_says_the_link_what_it_is_and_what_comes_next(made):
    figures, _ = made
    text = words_of(drafted(made))
    assert text.split("\n").count(ADDRESS) == 1
    for words in ("do not pass it on", "works in the shed without", "home screen", "WHAT COMES NEXT: DECK PANELS"):
        assert words in text
    assert f"{figures.said['plan.next_what']}: {figures.said['plan.next_when']}." in text
    assert "your rocker can't be reached yet" in text  # as the builder's bench page says


def part(text, heading):
    return text.split(heading)[1].strip().split("\n\n")[0].split("\n")


def test_its_lists_are_those_of_the_pages(made):
    figures, guide = made
    text = words_of(drafted(made))
    laid = part(text, "To lay out for it, in the page's own words:")
    page = next(page.markdown for page in guide.pages if page.slug == "panels")
    items = re.findall(r"^- (.*)$", page.split("{: #layout }")[1].split("\n## ")[0], re.M)
    assert len(laid) == len(items) > 5
    group = next(group for group in figures.rows["shop_buy"] if group["stage"] == "panels")
    bought = part(text, "Still to buy for it:")
    assert len(bought) == len(group["items"])
    for line, item in zip(bought, group["items"], strict=True):
        assert line.startswith(f"- {item['name'][0]}")
    assert len(part(text, "The guide does not guess them:")) == len(figures.rows["shop_ask"])
    assert not re.search(r"[<>*{}\]]|\]\(|&#", text)


def test_what_a_page_lists_further_down_is_said_to_be_there(made):
    figures, guide = made
    text = "# P\n\n## Lay out {: #layout }\n\n- all that is listed below\n- listed at each support below\n\nMore\n"
    pages = tuple(replace(page, markdown=text) if page.slug == "panels" else page for page in guide.pages)
    mail = words_of(drafted((figures, replace(guide, pages=pages))))
    assert part(mail, "in the page's own words:") == [
        "- all that is listed on that page",
        "- listed at each support on that page",
    ]


NAMES = {
    "new lines": "Mara\r\nBcc: all@example.org\r\n\r\nBuy",
    "other ends of lines": "Mara\u2028Bcc: all@example.org\x85\x0b\x0c\x1cX",
    "quotes and an address": 'Mara" <all@example.org>, "X',
    "a coded word": "=?utf-8?q?Bcc=3A?= =?us-ascii?b?QmNj?=",
    "control characters": "Ma\x00ra\x1b[31m\x7f",
    "backslashes": 'M\\"ara\\',
    "long": "Mara " * 200,
    "one long word": "M" * 3000,
    "right to left": "مارا كويل",
    "turned round": "Mara\u202egnp.exe\u2066",
    "emoji": "Mara 🏄‍♀️",
    "half a pair": "Mara \ud800x",
    "nothing": "",
}


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_no_name_breaks_a_header_or_fakes_one(made, name):
    mail = drafted(made, maker_name=name, board_name=name, builder_name=name)
    head = mail.split(b"\r\n\r\n")[0]
    assert mail.isascii()
    assert max(map(len, head.split(b"\r\n"))) <= 78
    names = re.findall(rb"^([A-Za-z-]+):", head, re.M)
    wanted = [b"Subject", b"From", b"X-Unsent", b"Content-Language", b"Content-Type", b"Content-Transfer-Encoding"]
    assert names == [*wanted, b"MIME-Version"]
    message = read(mail)
    (sender,) = message["From"].addresses
    assert sender.addr_spec == "hello@example.org"
    assert sender.display_name == one_line(name) or one_line(name).startswith(sender.display_name[:-1].rstrip())
    assert sender.display_name or not one_line(name)
    assert message["Subject"] == one_line(f"{name}: your build guide")
    assert not message["From"].defects
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f\u2028\u202e\u2066]", words_of(mail))


def test_a_maker_with_a_telephone_gets_no_faked_sender(made):
    message = read(drafted(made, maker_contact="+44 20 7946 0000"))
    assert message["From"] is None
    assert "+44 20 7946 0000" in message.get_content()


@pytest.mark.parametrize("contact", ["a,b@example.org", "a;b@example.org", "é@example.org", "a@b.org, c@d.org"])
def test_an_address_that_mail_would_read_otherwise_is_left_out(made, contact):
    assert read(drafted(made, maker_contact=contact))["From"] is None


@pytest.mark.parametrize("site", ["https://example.org/x", "https://example.org/x/"])
def test_the_address_has_one_slash_at_each_join(site):
    assert guide_address(site, "abc") == ADDRESS


def test_the_draft_is_its_owner_s_alone_and_holds_the_key(tmp_path, monkeypatch, made):
    monkeypatch.setattr("generator.deliver.mail.read_figures", lambda *_: made[0])
    monkeypatch.setattr("generator.deliver.mail.guide_of", lambda *_: made[1])
    monkeypatch.setattr("generator.deliver.mail.draw_all", lambda *_: {})
    out = tmp_path / "mail" / "tobin.eml"
    write_draft(tmp_path, "tobin", out)
    assert stat.S_IMODE(out.stat().st_mode) == 0o600
    assert f"https://example.org/sedge-lane/{key_of(tmp_path, 'tobin')}/" in read(out.read_bytes()).get_content()


def test_a_page_as_plain_blocks():
    html = (
        '<h2 id="a">One &amp; two</h2><p>First <a href="#">link</a><br>line.</p><svg><text>no</text></svg>'
        '<div data-shed="x"><div>no</div><p>no</p></div><ul><li><p>item</p><p>more</p></li><li>second<ul><li>deep</li>'
        "</ul></li></ul><script>no</script>end"
    )
    told = [(block.section, block.tag, block.text) for block in blocks(html)]
    assert told == [
        ("a", "h2", "One & two"),
        ("a", "p", "First link line."),
        ("a", "li", "item"),
        ("a", "p", "more"),
        ("a", "li", "second"),
        ("a", "li", "deep"),
        ("a", "p", "end"),
    ]
