"""Invented figures for drawings: believable, and awkward where a builder's words may be awkward."""

import math
from dataclasses import dataclass

import numpy as np
from shapely import LineString, Polygon

from generator.figures import FigureBook, Kind

LONG_NAME = "Tin \"of <b>grandma's</b> *best* [jam](x) & pickles, 3rd shelf"
MARGIN, MARGIN_TIPS = 12.0, 30.0
COMMON_HEIGHT = 180.0
INSETS = (50, 100, 200)


@dataclass(frozen=True)
class Sample:
    """What may differ from one invented board and bench to the next."""

    length_mm: float = 2750.0
    ribs: int = 12
    units: str = "metric"
    method: str = "bead"
    long_names: bool = False
    reached: bool = True
    supports: int = 4
    planks: int = 6
    planks_along: int = 1
    tail: str = "square"
    crossbars: bool = True
    weights: int = 2
    clamps: bool = True
    rail_mm: float = 30.0
    agreed: bool = False

    @property
    def x(self):
        return np.linspace(0.0, self.length_mm, 276)

    @property
    def low_point(self):
        return 0.44 * self.length_mm

    @property
    def half(self):
        s = self.x / self.length_mm
        full = 290 * np.sin(math.pi * s**0.9).clip(0) ** 0.55
        if self.tail == "square":
            return np.where(s < 1 / 3, np.maximum(full, 140 + 0.35 * np.minimum(self.x, 200)), full)
        return full

    @property
    def frame(self):
        return np.clip(self.half - self.rail_mm, 0, None)

    @property
    def depth(self):
        return 12 + 52 * np.sin(math.pi * self.x / self.length_mm).clip(0) ** 0.6

    @property
    def wanted(self):
        low, length = self.low_point, self.length_mm
        back, front = np.clip((low - self.x) / low, 0, None), np.clip((self.x - low) / (length - low), 0, None)
        return 0.022 * length * back**2.2 + 0.04 * length * front**2.4

    def name(self, plain):
        return LONG_NAME if self.long_names else plain


class Filler:
    """Puts figures into a book, all of them invented."""

    def __init__(self, sample):
        self.sample = sample
        self.book = FigureBook()

    def put(self, unit="mm", **values):
        """Each keyword is a key, with `__` for a dot."""
        for key, value in values.items():
            self.one(key.replace("__", "."), value, unit)

    def one(self, key, value, unit="mm", *, low=None, high=None):
        step = 0.1 if unit == "kg" else 0.5
        self.book.add(key, value, unit, key, how="invented", kind=Kind.ASSUMED, low=low, high=high, step=step)

    def draw(self, key, x, y):
        self.book.draw(key, x, y, "mm", key)


def sample(**changes):
    """Figures of an invented board, whole enough for every drawing."""
    fill = Filler(Sample(**changes))
    parts = (
        _board, _rockers, _panel, _frame, _checks, _bench, _weights, _clamps, _curves, _plan, _words,
        _afloat, _rim, _fin, _inside,
    )  # fmt: skip
    for part in parts:
        part(fill, fill.sample)
    return fill.book.close()


def _board(fill, s):
    fill.put(board__length=s.length_mm, board__width=2 * float(s.half.max()), board__rail=s.rail_mm, board__tips_in=300)
    fill.put(board__thickness=float(s.depth.max()) + 12, rocker__low_point=s.low_point)
    fill.put(rocker__tail=float(s.wanted[0]), rocker__nose=float(s.wanted[-1]))
    fill.put(rocker__tail_300=float(np.interp(300, s.x, s.wanted)))
    fill.put(rocker__nose_300=float(np.interp(s.length_mm - 300, s.x, s.wanted)))


def _rockers(fill, s):
    rows = []
    for n, (slug, name) in enumerate(
        (("paddling", "easier paddling"), ("between", "between"), ("late", "later take-off"))
    ):
        curve = s.wanted * (0.9 + 0.1 * n)
        fill.draw(f"advice.{slug}", s.x, curve)
        _traits(fill, s, f"advice.{slug}", curve)
        fill.put(**{f"advice__{slug}__tail": float(curve[0]), f"advice__{slug}__nose": float(curve[-1])})
        chosen = slug == "between" and not s.agreed
        rows.append({"key": f"advice.{slug}", "name": name, "chosen": chosen, "why": "Invented."})
    _traits(fill, s, "rocker", s.wanted)
    fill.book.rows["candidates"] = tuple(rows)
    fill.book.said["rocker_from"] = "agreed" if s.agreed else "maker"


def _traits(fill, s, key, curve):
    flat = s.x[curve <= 5]
    fill.one(f"{key}.flat_from", float(flat[0]))
    fill.one(f"{key}.flat_to", float(flat[-1]))
    fill.one(f"{key}.flat", 100 * float(flat[-1] - flat[0]) / s.length_mm, "%")


def _panel(fill, s):
    width = 2 * float(s.frame.max() + MARGIN) + 10
    blank = s.length_mm + 75
    joined = s.planks_along > 1
    past = 60 if joined else 0
    fill.put(panel__thickness=6, panel__blank_length=blank, panel__width=width)
    fill.book.said["panel.alike"] = s.planks % 2 == 0
    for name, key, shift in (("bottom", "planks", 0), ("top", "planks_top", 1)):
        count = s.planks + shift
        each = width / count
        fill.one(f"panel.{name}.width", width)
        fill.one(f"panel.{name}.glue_lines", count - 1, "")
        rows = []
        for n in range(count):
            tail, joint = n % 2 == 0, 0.3 * blank if n % 2 == 0 else 0.7 * blank
            rows.append(
                {
                    "n": n + 1,
                    "width_mm": each,
                    "from_mm": n * each,
                    "start_mm": 0 if tail else -past,
                    "end_mm": blank + past if tail else blank,
                    "joints_mm": (joint,) if joined else (),
                }
            )
            fill.one(f"panel.{name}.row.{n + 1}.width", each)
        fill.book.rows[key] = tuple(rows)
        fill.book.rows[f"panel_{name}"] = tuple({"n": n + 1, "key": f"panel.{name}.row.{n + 1}"} for n in range(count))
    fill.put("kg/m", panel__press__buckles=42, panel__press__joint=1.2)
    fill.put(panel__cup=9.5)
    fill.put("%", panel__cup_for=1)


def _frame(fill, s):
    fill.put(frame__slot_width=6.2, frame__spine_thickness=6, frame__strip_height=30, frame__strip_thickness=4)
    fill.put("%", frame__slot_share=50)
    fill.put(trace__margin=MARGIN, trace__margin_tips=MARGIN_TIPS)
    pitch = s.length_mm / (s.ribs + 1)
    for n, at in enumerate(np.linspace(0.9 * pitch, s.length_mm - 0.9 * pitch, s.ribs), 1):
        fill.one(f"frame.rib.{n}.from_tail", at)
        fill.one(f"frame.rib.{n}.half_width", float(np.interp(at, s.x, s.frame)))
        fill.one(f"frame.rib.{n}.depth_centre", float(np.interp(at, s.x, s.depth)))
        fill.one(f"frame.rib.{n}.depth_edge", 15 + 15 * math.sin(math.pi * at / s.length_mm))
    fill.book.rows["ribs"] = tuple({"n": n, "key": f"frame.rib.{n}"} for n in range(1, s.ribs + 1))


def _checks(fill, s):
    """Diagonals, the stretches of the cut, the boards that bridge ribs."""
    first, second = max(1, s.ribs // 4), max(2, s.ribs - s.ribs // 4)
    fill.book.said |= {
        "diagonal_first": first,
        "diagonal_second": second,
        "cut.way": "battens" if s.clamps else "usual",
    }
    fill.put(frame__diagonal=1140, frame__diagonal_limit=3.5)
    widest, rows = 0.52 * s.length_mm, []
    for n, (start, end, tip) in enumerate(((1, 0.3, ""), (0.3, 0, "tail"), (1, 1.6, ""), (1.6, 2, "nose")), 1):
        for part, place in (("from", start), ("to", end)):
            at = widest * place if place <= 1 else widest + (s.length_mm - widest) * (place - 1)
            fill.one(f"cut.stretch.{n}.{part}", at)
        rows.append({"n": n, "key": f"cut.stretch.{n}", "tip": tip, "way": "tail" if n < 3 else "nose"})
    fill.book.rows["cut_stretches"] = tuple(rows)
    fill.one("press.need", 21.5, "kg")
    pairs = [(n, n + 1) for n in range(1, s.ribs, 2)] + ([(s.ribs - 1, s.ribs)] if s.ribs % 2 else [])
    fill.book.rows["press_boards"] = tuple(
        {"n": n, "key": f"press.board.{n}", "first": a, "second": b} for n, (a, b) in enumerate(pairs, 1)
    )


def _bench(fill, s):
    fill.put(bench__inset=100, bench__inset_tail=6.2, bench__inset_nose=9.7)
    fill.put(bench__pass_middle=2, bench__deviation=2.1, bench__planned_to=2)
    fill.put(bench__straight_edge=600, bench__pass_hollow=0.5)
    for inset in INSETS:
        fill.one(f"bench.inset.{inset}", inset)
        fill.one(f"bench.inset.{inset}.tail", inset / 16)
        fill.one(f"bench.inset.{inset}.nose", inset / 10)
    fill.book.rows["insets"] = tuple({"key": f"bench.inset.{inset}"} for inset in INSETS)
    rows = []
    for n, at in enumerate(np.linspace(0, s.length_mm, s.supports), 1):
        key, inner = f"bench.support.{n}", at < s.low_point
        top = 40.0 if s.crossbars else 200.0
        height = COMMON_HEIGHT + float(np.interp(at, s.x, s.wanted))
        load = 1 + 5 * abs(math.sin(2.1 * n))
        fill.one(f"{key}.from_tail", at)
        fill.one(f"{key}.centre", at + (-top / 2 if inner else top / 2))
        fill.one(f"{key}.height", height)
        fill.one(f"{key}.reading", 3.0)
        fill.one(f"{key}.load", load, "kg", low=0.6 * load, high=1.5 * load)
        fill.one(f"{key}.takes", 60.0 if n > 1 else 6.0, "kg")
        rows.append(
            {
                "n": n,
                "name": "tail tip" if n == 1 else "nose tip" if n == s.supports else f"middle {n - 1}",
                "key": key,
                "pieces": () if n == 2 and not s.reached else _pieces(s, height - 3, top),
                "top_width_mm": top,
                "edge": "nose side" if inner else "tail side",
                "crossbar": s.crossbars,
                "touching": n != 3 or s.reached,
                "over_limit": n == 1 and not s.reached,
            }
        )
    fill.book.rows["supports"] = tuple(rows)


def _pieces(s, stack_mm, top_mm):
    """A tin, two offcuts and on top a crossbar or a few magazines, as high together as is wanted."""
    top = ("batten", 1, "crossbar", 18.0) if s.crossbars else ("magazine", 4, "sheet", 1.5)
    pieces = [
        (s.name("paint tin"), 1, "tin", 110.0, 170.0),
        ("offcut", 2, "block", (stack_mm - 110 - top[1] * top[3]) / 2, 120.0),
        (*top, top_mm),
    ]
    return tuple(dict(zip(("name", "count", "kind", "height_mm", "width_mm"), piece, strict=True)) for piece in pieces)


def _weights(fill, s):
    for n in range(1, s.weights + 1):
        fill.one(f"bench.weight.{n}.from_tail", s.length_mm * (0.76 if n < 3 else 0.82))
        fill.one(f"bench.weight.{n}.mass", 2.5, "kg")
        fill.one(f"bench.weight.{n}.count", n, "")
    fill.book.rows["weights"] = tuple(
        {"n": n, "name": s.name("bag of sand"), "key": f"bench.weight.{n}"} for n in range(1, s.weights + 1)
    )


def _clamps(fill, s):
    order = sorted(range(1, s.ribs + 1), key=lambda n: (abs(n - (s.ribs + 1) / 2), n))
    fill.book.rows["clamp_pairs"] = tuple(
        {"n": i, "rib": rib, "order": i} for i, rib in enumerate(order, 1) if s.clamps
    )
    fill.put(clamp__opening_needed=45, clamp__hang=160 if s.clamps else 0)


def _curves(fill, s):
    length = s.length_mm
    around = Polygon([*zip(s.x, s.frame, strict=True), *zip(s.x[::-1], -s.frame[::-1], strict=True)]).buffer(MARGIN)
    trace_x = np.linspace(-MARGIN_TIPS, length + MARGIN_TIPS, 400)
    trace = np.array([_half_of(around, at) for at in np.clip(trace_x, 0, length)])
    fill.draw("outline.finished", s.x, s.half)
    fill.draw("outline.frame", s.x, s.frame)
    fill.draw("outline.trace", trace_x, trace)
    fill.draw("rocker.wanted", s.x, s.wanted)
    fill.draw("spine.depth", s.x, s.depth)
    wave = 1.7 * np.sin(s.x / length * 7)
    for key, off in (
        ("wanted", 0 * wave),
        ("clamped", wave),
        ("clamped_low", wave - 1.5),
        ("clamped_high", wave + 1.8),
        ("aim", wave + 1.2),
        ("after", 0.8 * wave),
        ("after_low", 0.8 * wave - 1.4),
        ("after_high", 0.8 * wave + 1.1),
        *((f"inset.{inset}", wave - inset / 20 * (2 * s.x / length - 1) ** 4) for inset in INSETS),
    ):
        fill.draw(f"bench.{key}", s.x, s.wanted + off)
    fill.draw("bench.from_line", s.x, s.wanted + wave + COMMON_HEIGHT)


def _half_of(shape, at):
    cut = shape.intersection(LineString([(at, 0), (at, 1000)]))
    return 0.0 if cut.is_empty else float(cut.bounds[3])


def _plan(fill, s):
    """A short plan, or one of many months; the crowded one lacks dates at its end."""
    names = ("Getting ready", "Panels", "Trace and cut", "Bottom glue", "Fin and plugs", "Water")
    pace = 3 if s.supports < 8 else 40
    rows = []
    for n, name in enumerate(names):
        dated = s.supports < 8 or name != "Water"
        row = {"stage": name, "short": name, "done": n == 0 and s.planks > 1, "here": n == 1, "dated": dated}
        day = n * pace
        rows.append(row | {"dates": "Mon 1 to Tue 2 March", "days": (day, day + 1), "waits": ((day + 1, day + pace),)})
    fill.book.rows["plan"] = tuple(rows)
    starts = range(0, len(names) * pace, 30)
    fill.book.rows["plan_months"] = tuple({"day": day, "name": "May"} for day in starts)


def _afloat(fill, s):
    groups = ("two panels", "rails", "frame", "foam", "blocks", "fin, leash plug and vent", "finish", "glue")
    for n, name in enumerate((*groups, "sanded off")):
        kg = 3.6 / (n + 1) if name in groups else -0.2
        fill.one(f"weight.group_{n}", kg, "kg", low=0.9 * kg, high=1.2 * kg if kg > 0 else 0)
    fill.book.rows["weight_groups"] = tuple(
        {"key": f"weight.group_{n}", "slug": name, "name": name} for n, name in enumerate((*groups, "sanded off"))
    )
    fill.one("weight.finished", 7.6, "kg")
    fill.put(float__depth=108, float__lie_at=0.48 * s.length_mm, float__body_thickness=120)
    fill.draw("float.bottom", s.x, s.wanted)
    fill.draw("float.deck", s.x, s.wanted + s.depth + 12)
    fill.book.said["float.sinks"] = not s.clamps


def _inside(fill, s):
    """Bays with foam or bare, blocks, and the way of the air."""
    pitch = s.length_mm / (s.ribs + 1)
    fill.put(air__hole=8, air__hole_up=12, air__hole_aside=20, foam__at_rib=10)
    fill.put(air__vent_from_tail=0.7 * s.length_mm, air__vent_from_centre=36)
    fill.put("kPa", air__car_kpa=14.2, air__flight_kpa=26.1)
    fill.book.said["air.vent_side"] = "right" if s.crossbars else "left"
    blocks = []
    vent, nose = 0.7 * s.length_mm - 35, s.length_mm - 100
    places = (("tail", 0, 90), ("leash plug", 110, 80), ("fin", 200, 190), ("vent", vent, 70), ("nose", nose, 100))
    for name, start, length in places:
        key = f"block.{name.replace(' ', '_')}"
        fill.one(f"{key}.from_tail", start)
        fill.one(f"{key}.to", start + length)
        fill.one(f"{key}.length", length)
        fill.one(f"{key}.depth", 36.8)
        fill.one(f"{key}.piece.tail", 28.6)
        fill.one(f"{key}.piece.nose", 36.8)
        place = (start, start + length, 6, 66) if name == "vent" else (start, start + length, 3, 60)
        sides = (fill.book.said["air.vent_side"],) if name == "vent" else ("left", "right")
        blocks.append(
            {
                "key": key,
                "name": f"{name} block",
                "pieces": ({"key": f"{key}.piece"},),
                "places": tuple((side, *place) for side in sides),
            }
        )
    fill.book.rows["blocks"] = tuple(blocks)
    fill.book.rows["bays"] = tuple(
        {
            "n": n,
            "sides": ("left and right", "left", "right")[n % 3],
            "count": 2 if n % 3 == 0 else 1,
            "block": ((n - 0.9) * pitch, (n - 0.1) * pitch, 40, 120) if s.clamps and 3 <= n < s.ribs - 1 else (),
        }
        for n in range(1, s.ribs + 2)
    )
    fill.book.rows["air_holes"] = tuple({"n": n, "aside_mm": 62 if n == 1 else 20} for n in range(1, s.ribs + 1))


def _rim(fill, s):
    """Crown, rails and what shaping marks."""
    rib = max(1, s.ribs // 3)
    fill.put(crown__drop=9.5, crown__radius=1908, top__clamp_opening=65)
    fill.put("", crown__worst_rib=rib)
    none = s.rail_mm == 0
    fill.put(rail__side_middle=55.7)
    fill.put("°", rail__bevel_most=6.6)
    if not none:
        fill.put(rail__layer_thickness=s.rail_mm / (6 if s.long_names else 3))
    fill.book.rows["rail_layers"] = tuple({"n": n} for n in range(1, 1 if none else 7 if s.long_names else 4))
    for n in range(1, s.ribs + 1):
        fill.one(f"rail.rib.{n}.bevel", 4 + 0.3 * n, "°")
    fill.book.rows["rail_bevels"] = tuple({"n": n, "key": f"rail.rib.{n}"} for n in range(1, s.ribs + 1))
    fill.put(shape__batten=600, shape__gap=0.5)
    wide, high = (1.5, 1.5) if none else (30.0, 26.0)
    for part, share, of in (
        ("width", 1, wide), ("height", 1, high), ("first_in", 0.586, wide), ("first_down", 0.586, high),
        ("second_on_flat", 0.152, math.hypot(wide, high)), ("second_in", 0.801, wide), ("second_down", 0.801, high),
    ):  # fmt: skip
        fill.one(f"shape.round.2.{part}", share * of)
    fill.book.said.update({"rail.none": none, "crown.flat": none})


def _fin(fill, s):
    """Fin and leash plug in their blocks."""
    fill.put(fin__rear=230, fin__front=390, fin__left=6)
    side = "centre" if s.rail_mm == 0 else "left" if s.long_names else "right"
    fill.put(fin__leash__from_tail=150, fin__leash__from_centre=0 if side == "centre" else 24, fin__leash__hole=28)
    fill.put(fin__leash__block_depth=25.4, fin__leash__stop=25.4)
    blocks = (("tail", 0, 100, 0, 60), ("leash plug", 112, 192, 0, 50), ("fin", 212, 410, 0, 30),
              ("vent", 1400, 1470, 36, 30))  # fmt: skip
    fill.book.rows["fin_blocks"] = tuple(
        {"name": name, "from_mm": a, "to_mm": b, "low_mm": c - half, "high_mm": c + half}
        for name, a, b, c, half in blocks
    )
    fill.book.said["fin.leash_side"] = side


def _words(fill, s):
    fill.put(practice__bead_width=3)
    fill.book.add("glue.bead_per_metre", 4.5, "ml/m", "m", how="i", kind=Kind.ASSUMED, low=1.95, high=7.05, step=0.05)
    fill.book.said.update(
        {
            "units": s.units,
            "slots_open_to": "top",
            "glue.method": s.method,
            "hangs_past": [1, 2] if s.clamps else [],
            "planks_joined": s.planks_along > 1,
        }
    )


METRIC = {}
INCHES = {
    "length_mm": 1750.0,
    "ribs": 8,
    "units": "inches",
    "long_names": True,
    "method": "spread",
    "reached": False,
    "supports": 5,
    "planks": 9,
    "planks_along": 2,
    "tail": "round",
    "crossbars": False,
    "weights": 4,
}
CROWDED = {
    "length_mm": 3050.0,
    "ribs": 16,
    "units": "inches",
    "long_names": True,
    "supports": 8,
    "planks": 14,
    "weights": 7,
    "rail_mm": 0.0,
}
POOR = {
    "agreed": True,
    "length_mm": 2100.0,
    "ribs": 9,
    "supports": 2,
    "weights": 0,
    "clamps": False,
    "reached": False,
    "planks": 1,
}
SAMPLES = {"metric": METRIC, "inches": INCHES, "crowded": CROWDED, "poor": POOR}
