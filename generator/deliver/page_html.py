"""A page's Markdown as HTML, the same as the site makes of it, for what is no site: paper and mail."""

from __future__ import annotations

from functools import lru_cache

from markdown import Markdown

from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS


@lru_cache(maxsize=64)
def page_html(markdown: str) -> str:
    """The HTML of one page's Markdown, without a frame round it.

    Remembered for a guide's pages: a print is made again until its page numbers agree, from the same Markdown.
    """
    converter = Markdown(extensions=list(MARKDOWN_EXTENSIONS), extension_configs=MARKDOWN_EXTENSION_CONFIGS)
    html: str = converter.convert(markdown)
    return html
