"""Turns a chart's style attributes into the pen's classes, and makes its ids unique on a page."""

from __future__ import annotations

import re
from xml.etree import ElementTree as Tree

from generator.drawings.pen import number, safe

INK = "#000001"
PAPER = "#000002"
SEA = "#000003"
WOOD_DEEP = "#000004"
WARN = "#000005"
FAINT = "#000006"
MIST = "#000007"
WOOD = "#000008"
"""Tokens, not colours: a chart may use these only, and each becomes the class of the pen's colour."""

_NAMES = {
    INK: "ink", PAPER: "paper", SEA: "sea", WOOD_DEEP: "wood-deep", WARN: "warn", FAINT: "faint", MIST: "mist",
    WOOD: "wood",
}  # fmt: skip
_WIDTHS = {"0.8": "d-w-hair", "1": "d-w-thin", "1.6": "d-w-line", "2.2": "d-w-heavy", "6": "d-w-bar"}
_DASHES = {"none": "", "4.8,3.2": "d-dashed"}
_WEIGHTS = {"400": "", "normal": "", "700": "d-bold", "bold": "d-bold"}
_ANCHORS = {"start": "", "middle": "d-mid", "end": "d-end"}
_SIZES = {"12px": "d-small", "13px": "d-text", "14px": "d-head"}
_TABLES = {
    "stroke-width": _WIDTHS,
    "stroke-dasharray": _DASHES,
    "text-anchor": _ANCHORS,
    "font-size": _SIZES,
    "font-weight": _WEIGHTS,
}
_SKIP = {"stroke-linejoin", "stroke-linecap", "stroke-miterlimit", "stroke-dashoffset", "font-family"}
"""Rules that the sheet's own style sets for all drawings alike."""
_DROPPED = {"metadata", "style"}
_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_NUMBER = re.compile(r"-?\d+\.\d+(?:e-?\d+)?")


class UnknownStyle(ValueError):
    """A chart used a colour, weight or property that has no class."""


def to_classes(svg: str, *, name: str, title: str, words: str) -> str:
    """The chart with classes for styles, its ids starting with `name`, a title and a description.

    Raises:
        UnknownStyle: something would be left that the page's colours do not reach.
    """
    root = Tree.fromstring(svg)
    used = set(re.findall(r"#([\w-]+)", " ".join(_references(root))))
    return _written(root, used, name, top=_head(root, name, title, words))


def _references(root: Tree.Element) -> list[str]:
    return [v for e in root.iter() for k, v in e.attrib.items() if k == _LINK or v.startswith("url(")]


def _head(root: Tree.Element, name: str, title: str, words: str) -> str:
    box = " ".join(number(float(v)) for v in root.attrib["viewBox"].split())
    return (
        f'<svg class="d-sheet" viewBox="{box}" role="img" aria-labelledby="{name}-title {name}-words" '
        f'xmlns="http://www.w3.org/2000/svg"><title id="{name}-title">{safe(title)}</title>'
        f'<desc id="{name}-words">{safe(words)}</desc>'
    )


def _written(element: Tree.Element, used: set[str], name: str, *, top: str = "") -> str:
    """One element and all within it as text."""
    tag = element.tag.removeprefix(_SVG)
    if tag in _DROPPED:
        return ""
    inner = safe(element.text or "") if tag == "text" else ""
    inner += "".join(_written(child, used, name) for child in element)
    if top:
        return f"{top}{inner}</svg>"
    attributes = _attributes(element, used, name)
    if tag in {"g", "defs"} and not inner:
        return ""
    if tag == "g" and not attributes:
        return inner
    return f"<{tag}{attributes}>{inner}</{tag}>" if inner else f"<{tag}{attributes}/>"


def _attributes(element: Tree.Element, used: set[str], name: str) -> str:
    out = ""
    classes = _classes(element)
    if classes:
        out += f' class="{" ".join(classes)}"'
    for key, value in element.attrib.items():
        if key == "style" or (key == "id" and value not in used):
            continue
        if key == "id":
            out += f' id="{name}-{value}"'
        elif key == _LINK or value.startswith("url("):
            out += f' {"href" if key == _LINK else key}="{value.replace("#", f"#{name}-")}"'
        elif key == "transform" and value.startswith("rotate(-0 "):
            continue
        else:
            out += f' {key}="{_rounded(value)}"'
    return out


def _rounded(value: str) -> str:
    """Every decimal number to a tenth; line breaks of path data folded."""
    return " ".join(_NUMBER.sub(lambda found: number(float(found[0])), value).split())


def _classes(element: Tree.Element) -> list[str]:
    style = element.attrib.get("style", "")
    rules = dict(part.strip().split(": ", 1) for part in style.split(";") if part.strip())
    tag = element.tag.removeprefix(_SVG)
    classes = [_one(key, value, text=tag == "text") for key, value in rules.items() if key not in _SKIP]
    if "stroke" in rules and rules["stroke"] != "none" and "stroke-width" not in rules:
        classes.append(_WIDTHS["1"])
    if tag in {"path", "use"} and rules and "stroke" not in rules:
        classes.append("d-no-line")
    return list(dict.fromkeys(c for c in classes if c))


def _one(key: str, value: str, *, text: bool) -> str:
    """The class of one style rule."""
    try:
        if key in {"fill", "stroke"}:
            return ("d-open" if key == "fill" else "d-no-line") if value == "none" else _colour(key, value, text=text)
        return _TABLES[key][value]
    except KeyError:
        raise UnknownStyle(f"no class for {key}: {value}") from None


def _colour(key: str, value: str, *, text: bool) -> str:
    if text:
        return f"d-{_NAMES[value]}"
    return f"d-{'fill' if key == 'fill' else 'stroke'}-{_NAMES[value]}"
