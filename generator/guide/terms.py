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
        "tip": ("tip", "tips"),
        "centre-line": ("centre line",),
        "rim": ("rim", "rims"),
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
        "leash-plug": ("leash plug", "leash"),
        "fin": ("fin",),
        "plank": ("plank", "planks"),
        "panel": ("panel", "panels"),
        "glue-line": ("glue line", "glue lines"),
        "seam": ("seam", "seams"),
        "offcut": ("offcut", "offcuts"),
        "grain": ("grain",),
        "moisture": ("moisture",),
        "batten": ("batten", "battens"),
        "straight-edge": ("straight edge",),
        "winding-sticks": ("winding stick", "winding sticks"),
        "twist": ("twist", "twisted"),
        "fair": ("fair", "fairing"),
        "raking-light": ("raking light",),
        "bevel": ("bevel", "bevels", "bevelled"),
        "flush": ("flush",),
        "proud": ("proud",),
        "square": ("square",),
        "lamination": ("lamination", "laminations"),
        "slanted-join": ("slanted join", "slanted joins"),
        "grit": ("grit", "grits", "abrasive paper", "sanding paper"),
        "key": ("keyed", "keying"),
        "glazed": ("glazed", "glazes"),
        "block-plane": ("block plane",),
        "sanding-block": ("sanding block", "long block", "flat block", "cork block"),
        "scraper": ("scraper",),
        "jigsaw": ("jigsaw",),
        "hole-cutter": ("hole cutter", "hole saw"),
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
        "pva": ("pva",),
        "polyurethane": ("polyurethane",),
        "epoxy": ("epoxy",),
        "resin": ("resin", "hardener"),
        "polystyrene": ("polystyrene",),
        "solvent": ("solvent", "solvents"),
        "data-sheet": ("safety data sheet", "safety data sheets"),
        "foam": ("foam",),
        "coat": ("coat", "coats"),
    }
)
"""By the end of the entry's id on the glossary's page: the forms that lead there, in small letters."""

OTHER_SENSES: tuple[str, ...] = (
    *("as a bead", "bead glue", "asks for moisture", "block flat", "block of wood", "block the", "equal blocks"),
    *(
        "one block below",
        "small blocks",
        "the block's",
        "the block keeps",
        "until block",
        "bent rim",
        "over the rim",
        "sounds hollow",
        "square metre",
    ),
    *("foam plugs", "foam roller", "hollow board", "hollow boards", "hollow wooden", "pressed hollow"),
    *("moisture from", "moisture got", "soft pad", "square tail", "square nose", "stack itself", "twist out"),
    *("its outline", "your nose", "very tip", "its tip", "fin's tip", "tip it", "blunted tips"),
)
"""Phrases in which a term's word means something else, in small letters: nothing in them is linked."""

_FORMS = {form: slug for slug, forms in TERMS.items() for form in forms}
_LONGEST_FIRST = sorted(map(re.escape, (*_FORMS, *OTHER_SENSES)), key=len, reverse=True)
_WORD = re.compile(r"(?<![\w-])(" + "|".join(_LONGEST_FIRST) + r")(?![\w-])", re.IGNORECASE)
_LEFT_ALONE = re.compile(r"<[^>]*>|!?\[[^\]]*\]\([^)]*\)(?:\{[^}]*\})?|\*\*[^*]*\*\*|`[^`]*`|&#?\w+;|× [^,.;<\n]*")
_PROSE = re.compile(r"(?!\s*(?:[#<|`~]|\{:|$))(?!    )")


def with_terms(markdown: str) -> str:
    """The page with the first mention of each term as a link to the glossary.

    Only running text is touched: no headings, tables, drawings, tags, links, bold words, labels of boxes or names of
    counted things ("2 × thin offcut"), and none of `OTHER_SENSES`.
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
        slug = _FORMS.get(found[0].lower(), "")
        if not slug or slug in seen:
            return found[0]
        seen.add(slug)
        return f"[{found[0]}]({PAGE}#word-{slug}){{.word}}"

    return _WORD.sub(link, text)
