"""What only the preview does: letting the reload script run, and showing messages as a page."""

from pathlib import Path

import pytest

from generator.deliver.building import build_site
from generator.deliver.policy import inline_scripts, script_hash
from generator.deliver.preview import let_reload_script_run, message_guide
from generator.deliver.serving import serve
from generator.inputs.fault import BadInput
from tests.deliver.small_guide import small_guide

ROOT = Path(__file__).resolve().parents[2]


class FakeServer:
    def _inject_js_into_html(self, content, epoch):
        end = content.rindex(b"</body>")
        return content[:end] + f"<script>reload({epoch})</script>".encode() + content[end:]


def test_the_reload_script_may_run_and_a_planted_one_may_not(tmp_path):
    build_site(small_guide(), out=tmp_path / "demo")
    page = (tmp_path / "demo" / "index.html").read_text("utf-8")
    page = page.replace("</article>", "<script>planted()</script></article>")
    server = FakeServer()
    let_reload_script_run(server)
    served = server._inject_js_into_html(page.encode(), 12).decode()
    assert inline_scripts(served)[-1] == "reload(12)"
    assert script_hash("reload(12)") in served
    assert script_hash("planted()") not in served


def test_a_message_stands_as_text(tmp_path):
    guide = message_guide(["boards/x.yaml:7: the name is <script>alert(1)</script>; allowed: *text*"])
    build_site(guide, out=tmp_path / "message")
    page = (tmp_path / "message" / "index.html").read_text("utf-8")
    assert "<script>alert" not in page
    assert "<em>" not in page
    assert "can’t be made yet" in page


def test_an_unknown_builder_is_refused_before_anything_is_served():
    with pytest.raises(BadInput, match="mara"):
        serve(ROOT / "site_data", "nobody")
