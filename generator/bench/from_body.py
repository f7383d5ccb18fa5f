"""A board as the bench sees it."""

from generator.bench.assembly import OnBench, Sections
from generator.board.body import Body
from generator.board.section import Which, sections
from generator.quantities import fixed

ENDS: tuple[Which, ...] = ("low", "value", "high")
PADS_MM = 10.0
"""Room in a clamp for two pads of scrap, so that its jaws don't bruise the wood; common practice."""


def on_bench(body: Body) -> OnBench:
    """The loose pair of frame and panel at three stiffnesses, its ribs, and the wanted rocker.

    A rim clamp spans the panel, the end of the rib or the edge strip (whichever is higher there), and its pads.
    """
    low, value, high = (_sections(body, which, which) for which in ENDS)
    ribs = [rib.from_tail_mm for rib in body.ribs]
    strips = body.strip_height_mm(ribs)
    ends = [max(rib.end_depth_mm, float(strip)) for rib, strip in zip(body.ribs, strips, strict=True)]
    grip = [end + body.panel_mm + PADS_MM for end in ends]
    return OnBench(
        low,
        value,
        high,
        frame_range=(_sections(body, "low", "value"), _sections(body, "high", "value")),
        panel_range=(_sections(body, "value", "low"), _sections(body, "value", "high")),
        rib_mm=fixed(ribs),
        rib_half_width_mm=fixed([rib.half_width_mm for rib in body.ribs]),
        rib_grip_mm=fixed(grip),
        wanted_mm=body.rocker.height_mm,
        half_width_mm=body.frame.half_width_mm,
        low_point_mm=body.rises.low_point_mm,
    )


def _sections(body: Body, frame: Which, panel: Which) -> Sections:
    """The board's pieces at one guess of the stiffness."""
    pieces = sections(body, which=frame, panel_which=panel)
    return Sections(
        pieces.breaks_mm,
        pieces.unglued_n_mm2,
        pieces.glued_n_mm2,
        pieces.panel_n_mm2,
        pieces.closed_n_mm2,
        pieces.load_start_n_mm,
        pieces.load_end_n_mm,
        pieces.panel_load_start_n_mm,
        pieces.panel_load_end_n_mm,
        pieces.free_curvature_start_per_mm,
        pieces.free_curvature_end_per_mm,
    )
