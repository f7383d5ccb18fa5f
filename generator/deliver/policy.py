"""What a page may load and run: the content security policy, with hashes from the trusted theme alone."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterable
from html.parser import HTMLParser

SCRIPT_TYPES = frozenset({"", "text/javascript", "application/javascript", "module"})


class _InlineScripts(HTMLParser):
    """Collects the text of every script that stands in the page itself and would run."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.texts: list[str] = []
        self._within = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "script":
            named = dict(attrs)
            self._within = "src" not in named and (named.get("type") or "").strip().lower() in SCRIPT_TYPES
            if self._within:
                self.texts.append("")

    def handle_endtag(self, tag: str) -> None:
        if tag == "script":
            self._within = False

    def handle_data(self, data: str) -> None:
        if self._within:
            self.texts[-1] += data


def inline_scripts(html: str) -> tuple[str, ...]:
    """The texts of the scripts that stand in `html` itself and would run; data blocks are not scripts."""
    parser = _InlineScripts()
    parser.feed(html)
    parser.close()
    return tuple(parser.texts)


def script_hash(text: str) -> str:
    """The source expression that lets exactly this script run.

    Source: Content Security Policy Level 3 (W3C), section 2.3.1, hash-source.
    """
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode('utf-8')).digest()).decode('ascii')}'"


def policy(scripts: Iterable[str]) -> str:
    """The policy of a page whose theme carries the inline `scripts`: all else comes from the guide's own folder."""
    hashes = sorted({script_hash(text) for text in scripts})
    rules = {
        "default-src": ["'none'"],
        "script-src": ["'self'", *hashes],
        "style-src": ["'self'"],
        "img-src": ["'self'", "data:"],
        "font-src": ["'self'"],
        "connect-src": ["'self'"],
        "worker-src": ["'self'"],
        "manifest-src": ["'self'"],
        "base-uri": ["'none'"],
        "form-action": ["'none'"],
    }
    return "; ".join(f"{name} {' '.join(sources)}" for name, sources in rules.items())
