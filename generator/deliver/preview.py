"""What only the preview needs: a page that says what is wrong, and leave for MkDocs' reload script to run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from generator.deliver.policy import inline_scripts, script_hash
from generator.guide.pages import Group, Guide, Page
from generator.guide.words import safe_text

HEADING = "This guide can’t be made yet"


def message_guide(messages: Sequence[str]) -> Guide:
    """A guide of one page that lists `messages`; saving a mended file brings the real one back."""
    lines = [f"# {HEADING}", "", "Mend what is listed here and save: the page comes back by itself.", ""]
    lines += [f"- {safe_text(message)}" for message in messages]
    page = Page(file="index.md", title=HEADING, markdown="\n".join(lines) + "\n", slug="board")
    return Guide(title=HEADING, pages=(page,), nav=(Group("", (page.file,)),))


def let_reload_script_run(server: Any) -> None:
    """Add the hash of the script that MkDocs puts into each page it serves; that script differs every time.

    The script is told from the page by its place: what is new after the page's own last element.
    """
    inject = server._inject_js_into_html

    def inject_allowed(content: bytes, epoch: int) -> bytes:
        served: bytes = inject(content, epoch)
        start = content.rindex(b"</body>") if b"</body>" in content else len(content)
        added = served[start : len(served) - len(content) + start].decode("utf-8")
        allowed = " ".join(script_hash(text) for text in inline_scripts(added))
        return served.replace(b"script-src 'self'", f"script-src 'self' {allowed}".encode(), 1)

    server._inject_js_into_html = inject_allowed
