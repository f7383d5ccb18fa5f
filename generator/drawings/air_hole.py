"""Where the air's hole goes in a rib: low, beside the spine, clear of the glue in the corner."""

from __future__ import annotations

from generator.drawings.marks import arrow, span
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_LEFT, _SPINE, _RIGHT = 56.0, 14.0, WIDE - 24
_TOP, _BASE, _PANEL = 64.0, 150.0, 14.0


def air_hole(figures: Figures) -> str:
    """One half of a rib from the front, not to scale."""
    hole, up, aside = (shown(figures, f"air.{key}") for key in ("hole", "hole_up", "hole_aside"))
    sheet = Sheet(
        "air-hole",
        title="The air's hole in a rib",
        words=f"Half a rib from the front. A hole of {hole}, its middle {up} above the bottom panel and {aside} from "
        "the face of the spine, clear of the glue in the corner. Nothing is drilled through the edge strip. If no "
        "drill fits, a small notch in the upper edge beside the spine does instead.",
    )
    sheet.note(EDGE, 18, "Half a rib from the front", "d-small d-bold")
    face = _LEFT + _SPINE
    sheet.box(_LEFT - 40, _BASE, _RIGHT + 12, _BASE + _PANEL, "d-wood")
    crown = [(face + (_RIGHT - face) * s, _TOP + 22 * s * s) for s in (i / 16 for i in range(17))]
    sheet.shape([*crown, (_RIGHT, _BASE), (face, _BASE)], "d-wood")
    sheet.box(_LEFT, _TOP - 2, face, _BASE, "d-fill-wood-deep")
    sheet.box(_RIGHT, _TOP + 22, _RIGHT + 6, _BASE, "d-fill-wood-deep")
    sheet.shape([(face, _BASE), (face + 12, _BASE), (face, _BASE - 12)], "d-glue")
    x, y = face + 62, _BASE - 34
    sheet.ring(x, y, 9, "d-paper")
    sheet.box(face, _TOP - 1, face + 12, _TOP + 12, "d-open d-hidden")
    span(sheet, (face, y - 22), (x, y - 22))
    sheet.text(face + 6, y - 28, aside)
    span(sheet, (x + 22, _BASE), (x + 22, y))
    sheet.text(x + 30, _BASE - 12, up)
    sheet.text(x + 16, y - 4, f"hole, {hole}")
    arrow(sheet, (face + 60, 40), (face + 14, _TOP + 4))
    sheet.text(face + 64, 42, "or a notch, if no drill fits")
    sheet.text(_LEFT - 4, _TOP + 40, "spine", anchor="end")
    sheet.text(_RIGHT - 6, _BASE - 8, "edge strip", anchor="end")
    sheet.text(EDGE, _BASE + _PANEL + 20, "glue in the corner")
    arrow(sheet, (face + 2, _BASE + _PANEL + 8), (face + 4, _BASE - 3))
    return sheet.svg(_BASE + _PANEL + 32)
