"""The shared look: every class has a style, every colour is one of ours, and all of it can be read."""

import re
from pathlib import Path

import pytest

CSS = (Path(__file__).resolve().parents[2] / "guide_src" / "assets" / "drawings.css").read_text(encoding="utf-8")
BLOCKS = re.findall(r"\{[^{}]*--sb-ink:[^{}]*\}", CSS)
COLOURS = [dict(re.findall(r"(--sb-[\w-]+):\s*(#[0-9a-f]{3,6})", block)) for block in BLOCKS]
SCHEMES = dict(zip(("light", "dark", "print"), COLOURS, strict=True))
TEXT_ON = [
    ("ink", "paper"), ("sea", "paper"), ("warn", "paper"), ("wood-deep", "paper"), ("ink", "wood"), ("ink", "mist"),
    ("paper", "sea"), ("paper", "warn"),
]  # fmt: skip
LINES_ON = [("sea", "wood"), ("warn", "wood"), ("wood-deep", "wood"), ("ink", "faint")]


def brightness(colour):
    """Relative luminance, as WCAG 2.2 defines it (www.w3.org/TR/WCAG22, "relative luminance"; from memory)."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * c for c in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    low, high = sorted(map(brightness, (one, other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("front", "back"), TEXT_ON)
def test_text_stands_out_from_what_it_stands_on(scheme, front, back):
    colours = SCHEMES[scheme]
    # 4.5 to 1 for text: WCAG 2.2, 1.4.3 (from memory)
    assert contrast(colours[f"--sb-{front}"], colours[f"--sb-{back}"]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("front", "back"), LINES_ON)
def test_lines_stand_out_from_what_they_cross(scheme, front, back):
    colours = SCHEMES[scheme]
    # 3 to 1 for what is not text: WCAG 2.2, 1.4.11 (from memory)
    assert contrast(colours[f"--sb-{front}"], colours[f"--sb-{back}"]) >= 3


def test_the_three_schemes_name_the_same_colours():
    names = [set(colours) for colours in SCHEMES.values()]
    assert names[0] == names[1] == names[2]
    assert len(names[0]) == 8


def test_rules_use_the_shared_colours_only():
    rules = re.sub(r"--sb-[\w-]+:[^;]*;", "", CSS)
    assert not re.search(r"#[0-9a-f]{3,8}\b|rgb|hsl", re.sub(r"/\*.*?\*/", "", rules, flags=re.DOTALL))
