"""Text that people type, made harmless for Markdown, HTML and the site's own settings."""

from __future__ import annotations

from markupsafe import Markup


def safe_text(text: object) -> Markup:
    """The text as numeric entities wherever Markdown or HTML could read a meaning into it.

    Every ASCII character that is not a letter, a digit or a space becomes an entity, and white space of any kind is
    folded to single spaces. Control characters are refused where the text is read and so are not expected here.
    The result reads the same in a paragraph, heading, list item, table cell, link text, attribute or raw HTML.
    """
    folded = " ".join(str(text).split())
    return Markup("".join(map(_safe, folded)))  # every character was made harmless just here


def _safe(char: str) -> str:
    if char == " " or not char.isascii() or char.isalnum():
        return char
    return f"&#{ord(char)};"


class Typed(str):
    """A text from outside: compares like any other, and comes out through `safe_text` wherever it is printed."""

    __slots__ = ()

    def __html__(self) -> Markup:
        return safe_text(str.__str__(self))
