"""The preview of one guide on this machine; edits of its files show at once."""

from __future__ import annotations

import logging
import os
import sys
from pathlib import Path

from mkdocs.commands import serve as mkdocs_serve

from generator.deliver.building import CONFIG
from generator.inputs.site import builder_slugs, read_builder

HOST = "127.0.0.1"


def serve(data: Path, slug: str, *, port: int = 8000) -> int:
    """Serve the guide of builder `slug` until Ctrl-C; the exit code is 0.

    Raises:
        BadInput: there is no such builder. What is wrong inside the files is shown as the page instead.
    """
    if slug not in builder_slugs(data):
        read_builder(data, slug)  # raises, and says which builders there are
    _show_progress()
    # mkdocs.yml reads these names again at each rebuild; settings passed as arguments are used up by the first one.
    os.environ.update(SHEDBOOK_BUILDER=slug, SHEDBOOK_DATA=str(data.resolve()))
    mkdocs_serve.serve(config_file=str(CONFIG), dev_addr=f"{HOST}:{port}")
    return 0


def _show_progress() -> None:
    """MkDocs tells only a logger where it serves and what is wrong: let it reach the person who waits."""
    logger = logging.getLogger("mkdocs")
    logger.setLevel(logging.INFO)
    if not logger.handlers:
        handler = logging.StreamHandler(sys.stderr)
        handler.setFormatter(logging.Formatter("%(message)s"))
        logger.addHandler(handler)
