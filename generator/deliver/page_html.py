"""A page's Markdown as HTML, the same as the site makes of it, for what is no site: paper and mail."""

from __future__ import annotations

from markdown import Markdown

from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS


def page_html(markdown: str) -> str:
    """The HTML of one page's Markdown, without a frame round it."""
    converter = Markdown(extensions=list(MARKDOWN_EXTENSIONS), extension_configs=MARKDOWN_EXTENSION_CONFIGS)
    html: str = converter.convert(markdown)
    return html
