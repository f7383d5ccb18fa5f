"""What lets a finished guide open without a network: a worker with the list of all files, and a web app manifest."""

from __future__ import annotations

import hashlib
import html
import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from generator.deliver.sources import GUIDE_SRC

WORKER = "worker.js"
MANIFEST = "manifest.webmanifest"
PAPER = "#fffdf8"
ICONS: tuple[tuple[str, int, str], ...] = (
    ("icons/icon-192.png", 192, "any"),
    ("icons/icon-512.png", 512, "any"),
    ("icons/maskable-512.png", 512, "maskable"),
)
"""File, width and height in pixels, and what a phone may do with it: cut it to its own shape, or not."""

HASH_DIGITS = 24
"""Hexadecimal digits of SHA-256 that are enough to tell a damaged or foreign file; 96 bits."""

_BLANK = "const GUIDE = null;"
_FILLED = re.compile(r"^const GUIDE = (\{.*\});$", re.MULTILINE)


def add_offline(folder: Path, *, title: str, key: str) -> None:
    """Write the manifest and then the worker into the finished guide in `folder`.

    Args:
        title: The guide's title as HTML, as it stands in the pages.
        key: The name under which a phone keeps what belongs to this guide.
    """
    manifest = json.dumps(manifest_of(html.unescape(title)), ensure_ascii=False, indent=1) + "\n"
    (folder / MANIFEST).write_bytes(manifest.encode())
    template = (GUIDE_SRC / WORKER).read_text("utf-8")
    (folder / WORKER).write_bytes(worker(template, contents(folder), key).encode())


def manifest_of(title: str) -> dict[str, Any]:
    """The manifest of a guide with this title, a plain text.

    Source: Web Application Manifest (W3C). Below an icon there is room for few letters: the board's name.
    """
    return {
        "name": title,
        "short_name": title.rpartition(": ")[2] or title,
        "lang": "en-GB",
        "start_url": "index.html",
        "scope": ".",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": PAPER,
        "icons": [
            {"src": file, "sizes": f"{side}x{side}", "type": "image/png", "purpose": purpose}
            for file, side, purpose in ICONS
        ],
    }


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below `folder` but the worker, by name with forward slashes, in the order of the names."""
    names = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    return {name: (folder / name).read_bytes() for name in names if name != WORKER}


def worker(template: str, files: Mapping[str, bytes], key: str) -> str:
    """The worker's script, with the list of `files`, their hashes, the guide's key and a version.

    The version changes with the name and with any byte of any file, and with the worker itself.
    """
    version = hashlib.sha256(template.encode())
    for name, content in files.items():
        version.update(f"{len(name.encode())} {name} {len(content)} ".encode() + content)
    listed = {name: file_hash(content) for name, content in files.items()}
    filled = json.dumps(
        {"key": key, "version": version.hexdigest()[:HASH_DIGITS], "files": listed}, separators=(",", ":")
    )
    if template.count(_BLANK) != 1:
        raise ValueError(f"{WORKER} has no line to be filled in")
    return template.replace(_BLANK, f"const GUIDE = {filled};")


def file_hash(content: bytes) -> str:
    """The start of the file's SHA-256, without carriage returns: some hosts turn the ends of lines."""
    return hashlib.sha256(content.replace(b"\r", b"")).hexdigest()[:HASH_DIGITS]


def no_worker() -> str:
    """The script that a preview has in the worker's place: it lets go of what was kept at its address."""
    return (GUIDE_SRC / "no_worker.js").read_text("utf-8")


def offline_faults(folder: Path) -> list[str]:
    """Why the finished guide in `folder` would not open without a network, one line each; empty if it would."""
    missing = [f"{name}: the file is missing" for name in (WORKER, MANIFEST) if not (folder / name).is_file()]
    if missing:
        return missing
    there = {name: file_hash(content) for name, content in contents(folder).items()}
    return _worker_faults((folder / WORKER).read_text("utf-8"), there) + _manifest_faults(
        (folder / MANIFEST).read_text("utf-8"), there
    )


def _worker_faults(text: str, there: Mapping[str, str]) -> list[str]:
    found = _FILLED.findall(text)
    if len(found) != 1:
        return [f"{WORKER}: its list of files is not filled in"]
    listed: dict[str, str] = json.loads(found[0])["files"]
    faults = [f"{WORKER}: {name} is not in its list" for name in there if name not in listed]
    faults += [f"{WORKER}: {name} is in its list and is not there" for name in listed if name not in there]
    changed = (name for name in there if listed.get(name, there[name]) != there[name])
    return faults + [f"{WORKER}: {name} is another file than in its list" for name in changed]


def _manifest_faults(text: str, there: Mapping[str, str]) -> list[str]:
    named = json.loads(text)
    wanted = [named["start_url"], *(icon["src"] for icon in named["icons"])]
    return [f"{MANIFEST}: {name} leads nowhere" for name in wanted if name not in there]
