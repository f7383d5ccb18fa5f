"""The texts that pages are made of, read from `guide_src`."""

from __future__ import annotations

from pathlib import Path

GUIDE_SRC = Path(__file__).resolve().parents[2] / "guide_src"
TEXT_FOLDERS = ("pages", "cautions")


def read_sources(root: Path = GUIDE_SRC) -> dict[str, str]:
    """Every Markdown text of pages and cautions by its name with forward slashes ("pages/bench.md").

    Raises:
        OSError: a folder or file can't be read.
        UnicodeDecodeError: a file is not UTF-8.
    """
    return {
        path.relative_to(root).as_posix(): path.read_text(encoding="utf-8")
        for folder in TEXT_FOLDERS
        for path in sorted((root / folder).rglob("*.md"))
    }
