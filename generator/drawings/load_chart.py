"""What every support carries with everything on."""

from __future__ import annotations

from generator.drawings.chart import Key, chart_svg, heading, keys, mass_scale, new_canvas, place
from generator.drawings.dom import FAINT, INK, SEA, WARN, WOOD
from generator.drawings.lettering import shorten
from generator.drawings.pen import EDGE, WIDE
from generator.drawings.read import shown
from generator.figures import Figures

_TOP = 50.0
_ROW = 30.0
_LEFT, _RIGHT = 102.0, 278.0


def load_chart(figures: Figures) -> str:
    """A bar a support, tail first; the thin line is the range over soft and stiff boards."""
    rows = figures.rows["supports"]
    scale, unit = mass_scale(str(figures.said["units"]))
    bottom = _TOP + _ROW * len(rows)
    height = bottom + 44
    canvas = new_canvas(height)
    axes = place(canvas, left=_LEFT, top=_TOP, right=_RIGHT, bottom=bottom, height=height)
    loads = [figures.values[f"{row['key']}.load"] for row in rows]
    most = 1.12 * scale * max(load.high for load in loads) or 1.0
    limits = [figures.values[f"{row['key']}.takes"].value * scale for row in rows]
    places = range(len(rows))
    axes.barh(places, [load.value * scale for load in loads], height=0.5, color=WOOD, edgecolor=INK, linewidth=1.0)
    for y, load, limit in zip(places, loads, limits, strict=True):
        axes.plot([load.low * scale, load.high * scale], [y, y], color=SEA, linewidth=1.6)
        if limit < most:
            axes.plot([limit, limit], [y - 0.42, y + 0.42], color=WARN, linewidth=2.2)
    axes.set(xlim=(0, most), ylim=(len(rows) - 0.5, -0.5))
    axes.set_yticks(list(places), [f"{row['n']}  {shorten(row['name'], 70)}" for row in rows])
    for label in axes.get_yticklabels():
        label.set_parse_math(False)
    axes.grid(axis="x", color=FAINT, linewidth=0.8)
    axes.locator_params(axis="x", nbins=4)
    for y, row in zip(places, rows, strict=True):
        load_text = shown(figures, f"{row['key']}.load")
        heading(canvas, WIDE - EDGE, _TOP + _ROW * (y + 0.5) + 4, load_text, bold=True, end=True)
    heading(canvas, EDGE, 18, "What each support carries, everything on", bold=True)
    legend = [Key("softest to stiffest", SEA, 1.6)]
    if any(limit < most for limit in limits):
        legend.append(Key("most it can take", WARN, 2.2))
    keys(canvas, EDGE, 38, legend)
    heading(canvas, _RIGHT, height - 8, unit, end=True)
    return chart_svg(
        canvas,
        name="load-chart",
        title="Load on each support",
        words=" ".join(f"{row['name']}: {shown(figures, row['key'] + '.load')}." for row in rows),
    )
