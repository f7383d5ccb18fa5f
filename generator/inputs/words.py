"""A place inside a file in plain words: ("spine", "thickness") is "the spine's thickness"."""

from __future__ import annotations

from generator.inputs.fault import shown
from generator.inputs.fields import MARK

Loc = tuple[str | int, ...]

_WORDS = {
    "sizes": "kind of size",
    "from_tail": "place from the tail",
    "half_widths": "half-widths",
    "half_width": "half-width",
    "share_of_depth": "share of the depth",
    "open_to": "open side",
    "height_at_tips": "height at the tips",
    "frame_bottom": "frame's bottom line",
    "night_low": "lowest at night",
    "frame_sag": "frame's sag test",
    "panel_sag": "panel's sag test",
    "on_bench": "readings on the bench",
    "cured": "readings after the cure",
    "with_top": "readings with the top panel on",
    "finished_mass": "mass of the finished board",
    "also": "other column",
    "times_at": "temperature of the times",
    "at": "temperature",
    "holds": "purpose",
    "from_centre": "place from the centre line",
    "built": "way of building",
    "layer": "layer thickness",
    "recoat_after": "earliest time for the next coat",
    "recoat_before": "latest time for the next coat",
    "use": "time of use",
    "photo_first": "stages with a photo first",
    "apart": "distance between the supports",
    "off_bench_after": "panel after which the board comes off the bench",
    "water_class": "water class",
    "lowest_temperature": "lowest temperature",
    "fills_gaps_to": "greatest gap filled",
    "top_width": "top width",
    "takes": "load it takes",
    "hang": "reach below the panel",
    "body_mass": "body mass",
    "how": "way of surfing",
    "where": "kind of wave",
    "low": "lower end",
    "high": "upper end",
    "helpers": "number of helpers",
    "units": "choice of units",
    "site": "address of the site",
}
_SEVERAL = frozenset(
    {
        "half_widths",
        "ribs",
        "slots",
        "things",
        "clamps",
        "weights",
        "tools",
        "evenings",
        "notes",
        "defaults",
        "planks",
        "plates",
    }
)
_ITEM = {
    "half_widths": "half-width",
    "thickness": "thickness place",
    "from_tail": "rib",
    "rocker": "rocker height",
    "frame_bottom": "height of the frame's bottom line",
    "things": "thing",
    "clamps": "clamp",
    "weights": "weight",
    "tools": "tool",
    "readings": "table reading",
    "on_bench": "reading on the bench",
    "cured": "reading after the cure",
    "days": "day of the week",
    "with_top": "reading with the top panel on",
    "blocks": "block",
    "planks": "size of plank",
    "plates": "plate",
    "extra_days": "extra day",
    "busy_days": "busy day",
    "photo_first": "stage with a photo first",
}


def real(loc: Loc) -> Loc:
    """`loc` without the marks that stand nowhere in the file."""
    loc = loc[:-1] if loc[-1:] == ("[key]",) else loc
    return tuple(part for part in loc if not (isinstance(part, str) and part.startswith(MARK)))


def describe(loc: Loc) -> str:
    """The field at `loc`, for the start of a sentence."""
    loc = real(loc)
    if not loc:
        return "the file"
    if loc[0] == "notes" and len(loc) > 1:
        return f"the note for {_word(loc[-1])}"
    counted = [at for at, part in enumerate(loc) if isinstance(part, int)]
    if counted:
        at = counted[-1]
        owner, rest = _item(loc[: at + 1]), loc[at + 1 :]
        return f"{_owned(owner)} {' '.join(map(_word, rest))}" if rest else owner
    if len(loc) == 1:
        return f"the entry for the {_word(loc[0])}" if loc[0] in _SEVERAL else f"the {_word(loc[0])}"
    if len(loc) == 2 and loc[0] == "measured":
        return f"the measured {_word(loc[1])}"
    if len(loc) == 3 and loc[0] == "measured":
        return f"the {_word(loc[2])} of the {_word(loc[1])}"
    if len(loc) == 3:
        return f"the {_owned(_word(loc[0]))} {_word(loc[1])}, {_word(loc[2])}"
    return f"the {_owned(_word(loc[-2]))} {_word(loc[-1])}"


def _word(part: str | int) -> str:
    return _WORDS.get(str(part), shown(part).replace("_", " "))


def _item(loc: Loc) -> str:
    name, number = loc[-2], loc[-1]
    return f"{_ITEM.get(str(name), 'entry')} {int(number) + 1}" if isinstance(number, int) else _word(number)


def _owned(owner: str) -> str:
    return f"{owner}'" if owner.endswith("s") else f"{owner}'s"
