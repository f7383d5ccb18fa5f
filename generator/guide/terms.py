"""Words of the trade: the ways each is written on a page, and how its first mention there leads to the glossary."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

PAGE = "words.md"

TERMS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "nose": ("nose",),
        "tail": ("tail",),
        "outline": ("outline",),
        "rocker": ("rocker",),
        "deck": ("deck", "decks"),
        "crown": ("crown",),
        "rail": ("rail", "rails"),
        "frame": ("frame",),
        "spine": ("spine",),
        "rib": ("rib", "ribs"),
        "slot": ("slot", "slots"),
        "edge-strip": ("edge strip", "edge strips"),
        "bay": ("bay", "bays"),
        "block": ("block", "blocks"),
        "vent": ("vent",),
        "leash-plug": ("leash plug",),
        "fin": ("fin",),
        "plank": ("plank", "planks"),
        "panel": ("panel", "panels"),
        "blank": ("blank",),
        "glue-line": ("glue line", "glue lines"),
        "offcut": ("offcut", "offcuts"),
        "grain": ("grain",),
        "moisture": ("moisture",),
        "cup": ("cup", "cups", "cupped"),
        "batten": ("batten", "battens"),
        "straight-edge": ("straight edge",),
        "winding-sticks": ("winding stick", "winding sticks"),
        "twist": ("twist", "twisted"),
        "fair": ("fair", "fairing"),
        "raking-light": ("raking light",),
        "bevel": ("bevel", "bevels", "bevelled"),
        "flush": ("flush",),
        "lamination": ("lamination", "laminations"),
        "slanted-join": ("slanted join", "slanted joins"),
        "grit": ("grit",),
        "key": ("keyed", "keying"),
        "line-up-mark": ("line-up mark", "line-up marks"),
        "trace-line": ("trace line",),
        "margin": ("trace margin", "margin"),
        "bench": ("bench",),
        "support": ("support", "supports"),
        "stack": ("stack", "stacks"),
        "shim": ("shim", "shims"),
        "crossbar": ("crossbar", "crossbars"),
        "level-line": ("level line",),
        "sag-test": ("sag test",),
        "hollow": ("hollow", "hollows"),
        "spring-back": ("spring back", "springs back", "spring-back"),
        "dry-clamp": ("dry clamp", "dry-clamp"),
        "pad": ("pad", "pads"),
        "parting-sheet": ("parting sheet",),
        "bead": ("bead", "beads"),
        "film": ("film",),
        "open-time": ("open time",),
        "clamp-time": ("clamp time",),
        "full-cure": ("full cure",),
        "water-class": ("water class",),
        "foam": ("foam",),
        "coat": ("coat", "coats"),
        "recoat": ("recoat", "recoating"),
    }
)
"""By the end of the entry's id on the glossary's page: the forms that lead there, in small letters."""

_FORMS = {form: slug for slug, forms in TERMS.items() for form in forms}
_WORD = re.compile(
    r"(?<![\w-])(" + "|".join(sorted(map(re.escape, _FORMS), key=len, reverse=True)) + r")(?![\w-])", re.IGNORECASE
)
_LEFT_ALONE = re.compile(r"<[^>]*>|!?\[[^\]]*\]\([^)]*\)(?:\{[^}]*\})?|\*\*[^*]*\*\*|`[^`]*`|&#?\w+;")
_PROSE = re.compile(r"(?!\s*(?:[#<|`~]|\{:|$))(?!    )")


def with_terms(markdown: str) -> str:
    """The page with the first mention of each term as a link to the glossary.

    Only running text is touched: no headings, tables, drawings, tags, links, bold words or labels of boxes.
    """
    seen: set[str] = set()
    out = []
    inside = 0
    for line in markdown.split("\n"):
        inside += line.count("<svg") - line.count("</svg>")
        out.append(_linked(line, seen) if inside == 0 and "<svg" not in line and _PROSE.match(line) else line)
    return "\n".join(out)


def _linked(line: str, seen: set[str]) -> str:
    parts, at = [], 0
    for skipped in _LEFT_ALONE.finditer(line):
        parts += [_plain(line[at : skipped.start()], seen), skipped[0]]
        at = skipped.end()
    return "".join([*parts, _plain(line[at:], seen)])


def _plain(text: str, seen: set[str]) -> str:
    def link(found: re.Match[str]) -> str:
        slug = _FORMS[found[0].lower()]
        if slug in seen:
            return found[0]
        seen.add(slug)
        return f"[{found[0]}]({PAGE}#word-{slug}){{.word}}"

    return _WORD.sub(link, text)
