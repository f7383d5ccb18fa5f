"""One guide built to a folder: beside the old one, checked as it came out, and put in its place only when whole."""

from __future__ import annotations

import contextlib
import logging
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException

from generator.deliver.finished import faults_in
from generator.deliver.mkdocs_plugin import ROOT, GuidePlugin
from generator.deliver.swap import beside
from generator.guide.pages import Guide

CONFIG = ROOT / "mkdocs.yml"


class BuildFailed(Exception):
    """The guide could not be made; `reasons` are for the person who asked for it."""

    def __init__(self, reasons: list[str]) -> None:
        self.reasons = tuple(reasons)
        super().__init__("\n".join(f"  {reason}" for reason in reasons))


@dataclass(frozen=True, slots=True)
class Report:
    """What was built: the page to open, and how much there is."""

    start: Path
    pages: int
    files: int
    size_bytes: int


def build_site(guide: Guide, *, out: Path) -> Report:
    """Build `guide` into the folder `out`, replacing an older guide there.

    Raises:
        BuildFailed: MkDocs warned of something, or the finished pages are not whole. The older guide stays, byte for
            byte, and nothing else is left behind.
    """
    if not _may_replace(out):
        raise BuildFailed([f"{out} holds something that is not a guide; move it away first"])
    with beside(out) as place:
        reasons = _run_mkdocs(guide, place.folder) or faults_in(
            place.folder, pages=[page.file for page in guide.pages], may_link=guide.links
        )
        if reasons:
            raise BuildFailed(reasons)
        place.keep()
    files = [path for path in out.rglob("*") if path.is_file()]
    return Report(out / "index.html", len(guide.pages), len(files), sum(path.stat().st_size for path in files))


def _may_replace(out: Path) -> bool:
    """Whether `out` is free, empty, or a guide: nothing else is ever removed."""
    if not out.exists():
        return True
    return out.is_dir() and ((out / "index.html").is_file() or not any(out.iterdir()))


def _run_mkdocs(guide: Guide, folder: Path) -> list[str]:
    """Build into `folder`; what was wrong, or nothing."""
    with _heard() as warned:
        try:
            config = load_config(str(CONFIG), site_dir=str(folder.resolve()), strict=True)
            with _fed(config.plugins["shedbook"], guide):
                build(config)
        except (Abort, MkDocsException) as stopped:
            return warned or [str(stopped)]
    return warned


@contextlib.contextmanager
def _fed(plugin: object, guide: Guide) -> Iterator[None]:
    """Give the plugin its guide, for one build only: MkDocs keeps plugins from one build to the next."""
    if not isinstance(plugin, GuidePlugin):
        raise TypeError(f"mkdocs.yml names another plugin shedbook: {plugin!r}")
    plugin.guide = guide
    try:
        yield
    finally:
        plugin.guide = None


class _Collector(logging.Handler):
    """Keeps what MkDocs warns of; counting it ourselves, since strict mode passes when its logger is silenced."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


@contextlib.contextmanager
def _heard() -> Iterator[list[str]]:
    """Collect MkDocs' warnings, however logging is set up or switched off, and put logging back as it was."""
    logger, collector = logging.getLogger("mkdocs"), _Collector()
    level, off, disabled = logger.level, logging.root.manager.disable, logger.disabled
    logger.setLevel(logging.WARNING)
    logger.disabled = False
    logging.disable(logging.NOTSET)
    logger.addHandler(collector)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)
            yield collector.lines
    finally:
        logger.removeHandler(collector)
        logging.disable(off)
        logger.disabled = disabled
        logger.setLevel(level)
