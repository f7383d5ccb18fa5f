"""The check of a finished guide, as HTML: every reference arrives, every page is there, nothing forbidden is in it.

MkDocs checks Markdown links only; raw HTML, drawings and the theme are seen here.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from generator.deliver.offline import offline_faults
from generator.deliver.policy import inline_scripts, script_hash

POINTS_TO_IDS = ("for", "aria-labelledby", "aria-describedby", "aria-controls")
MUST_SAY = {"referrer": "no-referrer", "robots": "noindex"}
CSS_REFERENCE = re.compile(r"url\(\s*[\"']?(?!data:)([^\"')]+)|@import\s+[\"']([^\"']+)")


@dataclass(slots=True)
class _PageParts(HTMLParser):
    """What one page defines and points to."""

    may_link: Collection[str]
    ids: Counter[str] = field(default_factory=Counter)
    references: list[str] = field(default_factory=list)
    pointed: list[str] = field(default_factory=list)
    metas: dict[str, list[str]] = field(default_factory=dict)
    forbidden: list[str] = field(default_factory=list)
    scripts_before_policy: int = 0

    def __post_init__(self) -> None:
        HTMLParser.__init__(self, convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            self._attribute(tag, name, value or "")
        named = {name: value or "" for name, value in attrs}
        if tag == "meta":
            about = named.get("name") or named.get("http-equiv") or ""
            self.metas.setdefault(about.lower(), []).append(named.get("content", ""))
        elif tag == "style":
            self.forbidden.append("a <style> element, which the policy blocks")
        elif tag in {"base", "object", "embed", "iframe", "frame"}:
            self.forbidden.append(f"a <{tag}> element")
        elif tag == "script" and "content-security-policy" not in self.metas:
            self.scripts_before_policy += 1
        elif tag == "img" and "alt" not in named:
            self.forbidden.append(f"an image without a description: {named.get('src', '')}")

    def _attribute(self, tag: str, name: str, value: str) -> None:
        if name == "id":
            self.ids[value] += 1
        elif tag == "a" and name == "href" and value in self.may_link:
            return
        elif name in {"href", "src", "xlink:href", "poster", "data", "action"}:
            self.references.append(value.strip())
        elif name == "srcset":
            self.references += [part.split()[0] for part in value.split(",") if part.split()]
        elif name in POINTS_TO_IDS:
            self.pointed += value.split()
        elif name == "style":
            self.forbidden.append(f"a style attribute, which the policy blocks: {value}")
        elif name.startswith("on"):
            self.forbidden.append(f"an {name} attribute, which the policy blocks")


def faults_in(folder: Path, *, pages: Sequence[str], may_link: Collection[str] = ()) -> list[str]:
    """What is wrong with the guide in `folder`, one line each; empty if it is whole.

    Args:
        pages: The Markdown names of all pages that must be there, and no others.
        may_link: The only addresses outside the folder that a page may link to (and load nothing from).
    """
    files = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    html = {name: (folder / name).read_text("utf-8") for name in sorted(files) if name.endswith(".html")}
    parts = {name: _parsed(text, may_link) for name, text in html.items()}
    wanted = {page.removesuffix(".md") + ".html" for page in pages}
    faults = [f"{name}: the page is missing" for name in sorted(wanted - html.keys())]
    faults += [f"{name}: no such page was asked for" for name in sorted(html.keys() - wanted)]
    for name, page in parts.items():
        faults += [f"{name}: {fault}" for fault in _own_faults(page, html[name])]
        for reference in dict.fromkeys(page.references):
            fault = _broken(reference, name, files, parts)
            if fault:
                faults.append(f"{name}: {fault}")
    for name in sorted(files):
        if name.endswith(".css"):
            faults += _css_faults(name, (folder / name).read_text("utf-8"), files)
    return faults + offline_faults(folder)


def _parsed(text: str, may_link: Collection[str]) -> _PageParts:
    page = _PageParts(may_link)
    page.feed(text)
    page.close()
    return page


def _own_faults(page: _PageParts, html: str) -> list[str]:
    faults = list(dict.fromkeys(page.forbidden))
    faults += [f"the id {name!r} stands {count} times" for name, count in page.ids.items() if count > 1]
    faults += [f"nothing has the id {name!r}" for name in dict.fromkeys(page.pointed) if not page.ids[name]]
    faults += [f"no <meta> says {name}: {what}" for name, what in MUST_SAY.items() if what not in _said(page, name)]
    policies = page.metas.get("content-security-policy", [])
    if len(policies) != 1 or page.scripts_before_policy:
        return [*faults, "the security policy must stand once, before the first script"]
    if "unsafe" in policies[0] or "default-src 'none'" not in policies[0]:
        faults.append("the security policy lets too much through")
    if any(script_hash(text) not in policies[0] for text in inline_scripts(html)):
        faults.append("a script stands in the page that is not the theme's")
    return faults


def _said(page: _PageParts, name: str) -> str:
    return ", ".join(page.metas.get(name, []))


def _broken(reference: str, page: str, files: Collection[str], parts: Mapping[str, _PageParts]) -> str:
    """Why `reference`, found on `page`, arrives nowhere; empty if it does arrive."""
    try:
        split = urlsplit(reference)
    except ValueError:
        return f"{reference} is not an address"
    if split.scheme or split.netloc:
        return f"{reference} leads outside the guide"
    if split.path.startswith("/"):
        return f"{reference} is an absolute path, which fails in a folder"
    target = normpath(join(dirname(page), unquote(split.path))) if split.path else page
    if target not in files:
        return f"{reference} leads nowhere"
    anchor = unquote(split.fragment)
    if anchor and target in parts and not parts[target].ids[anchor]:
        return f"{reference}: there is no such place on {target}"
    return ""


def _css_faults(name: str, text: str, files: Collection[str]) -> list[str]:
    found = [first or second for first, second in CSS_REFERENCE.findall(text)]
    return [
        f"{name}: {reference} leads nowhere"
        for reference in dict.fromkeys(found)
        if urlsplit(reference).scheme or normpath(join(dirname(name), urlsplit(reference).path)) not in files
    ]
