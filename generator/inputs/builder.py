"""What the maker says about one builder. File keys carry no unit; names here do (mm, kg, °C, minutes)."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from generator.inputs.board import LIST, WORD, FromTail, Height, Name, PanelThickness
from generator.inputs.days import Day, Weekday
from generator.inputs.fields import Choice, Count, Part, Pattern, Quantity, Text
from generator.inputs.rocker_rules import CANDIDATES, RockerWord

Units = Annotated[Literal["metric", "inches"], Choice(("metric", "inches"))]
ThingKind = Literal["tin", "block", "sheet", "shim", "crossbar"]
PartMass = Annotated[float, Quantity("mass", 0.2, 10)]
BenchEnd = Literal["bottom panel", "top panel"]
Temperature = Annotated[float, Quantity("temperature", -10, 45)]
FoamKind = Literal["expanded polystyrene", "extruded polystyrene", "polyurethane"]
FOAM_KINDS: tuple[FoamKind, ...] = ("expanded polystyrene", "extruded polystyrene", "polyurethane")
GlueType = Literal["pva", "polyurethane", "thickened epoxy"]
WaterClass = Literal["D1", "D2", "D3", "D4", "none stated"]


def slug_of(text: str) -> str:
    """The nearest slug: small letters, digits and single hyphens."""
    return "-".join("".join(c if c.isascii() and c.isalnum() else " " for c in text.lower()).split())[:60]


Slug = Annotated[
    str,
    Pattern(
        longest=60,
        pattern=r"[a-z0-9]+(?:-[a-z0-9]+)*",
        form="small letters, digits and single hyphens",
        mend=slug_of,
    ),
]


def _word_or_list(typed: Any) -> str:
    return LIST if isinstance(typed, (list, tuple)) else WORD


RockerWish = Annotated[
    Annotated[RockerWord, Choice(CANDIDATES), Tag(WORD)]
    | Annotated[tuple[Height, ...], Field(min_length=4, max_length=40), Tag(LIST)],
    Discriminator(_word_or_list),
]


class Surf(Part):
    """Where, how and how well the builder surfs; all are names in the maker's rules for rockers."""

    where: Name
    how: Name
    skill: Name


class Thing(Part):
    """Something in the house that a support can be piled from. `takes_kg` is the load that it bears."""

    name: Name
    kind: Annotated[ThingKind, Choice(("tin", "block", "sheet", "shim", "crossbar"))]
    height_mm: Annotated[float, Quantity("length", 0.1, 600)] = Field(alias="height")
    top_width_mm: Annotated[float, Quantity("length", 10, 1500)] = Field(alias="top_width")
    mass_kg: Annotated[float, Quantity("mass", 0.001, 60)] = Field(alias="mass")
    takes_kg: Annotated[float, Quantity("mass", 1, 1000)] = Field(alias="takes")
    count: Annotated[int, Count(1, 200)]


class Clamp(Part):
    """One kind of clamp. `hang_mm` is how far it hangs below the panel."""

    name: Name
    opening_mm: Annotated[float, Quantity("length", 10, 1500)] = Field(alias="opening")
    mass_kg: Annotated[float, Quantity("mass", 0.02, 5)] = Field(alias="mass")
    hang_mm: Annotated[float, Quantity("length", 10, 600)] = Field(alias="hang")
    count: Annotated[int, Count(1, 200)]


class Weight(Part):
    """One kind of loose weight."""

    name: Name
    mass_kg: Annotated[float, Quantity("mass", 0.1, 30)] = Field(alias="mass")
    count: Annotated[int, Count(1, 100)]


class Reading(Part):
    """How far the table stands above (+) or below (−) a level string at one place."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    reading_mm: Annotated[float, Quantity("length", -50, 50)] = Field(alias="reading")


class Table(Part):
    """The table that the bench stands on."""

    length_mm: Annotated[float, Quantity("length", 500, 6000)] = Field(alias="length")
    width_mm: Annotated[float, Quantity("length", 150, 2500)] = Field(alias="width")
    readings: Annotated[tuple[Reading, ...], Field(min_length=2, max_length=40)]


class Shed(Part):
    """The air where the glue cures."""

    temperature_c: Annotated[float, Quantity("temperature", -10, 45)] = Field(alias="temperature")
    night_low_c: Annotated[float, Quantity("temperature", -25, 45)] = Field(alias="night_low")
    humidity_pct: Annotated[float, Quantity("humidity", 5, 100)] = Field(alias="humidity")


class OtherTimes(Part):
    """The label's times at another temperature, colder or warmer than those of its first column."""

    at_c: Temperature = Field(alias="at")
    open_min: Annotated[float, Quantity("time", 1, 480)] = Field(alias="open_time")
    clamp_min: Annotated[float, Quantity("time", 5, 5760)] = Field(alias="clamp_time")
    full_cure_min: Annotated[float, Quantity("time", 60, 40320)] = Field(alias="full_cure")


class Glue(Part):
    """The glue as its own label states it, and the method it is used with."""

    name: Name
    type: Annotated[GlueType, Choice(("pva", "polyurethane", "thickened epoxy"))]
    water_class: Annotated[WaterClass, Choice(("D1", "D2", "D3", "D4", "none stated"))]
    method: Annotated[Literal["bead", "spread"], Choice(("bead", "spread"))]
    times_at_c: Temperature = Field(alias="times_at")
    open_min: Annotated[float, Quantity("time", 1, 240)] = Field(alias="open_time")
    clamp_min: Annotated[float, Quantity("time", 5, 2880)] = Field(alias="clamp_time")
    full_cure_min: Annotated[float, Quantity("time", 60, 20160)] = Field(alias="full_cure")
    lowest_c: Annotated[float, Quantity("temperature", -10, 35)] = Field(alias="lowest_temperature")
    gap_mm: Annotated[float, Quantity("length", 0, 10)] = Field(alias="fills_gaps_to")
    also: OtherTimes | None = None
    bottle_l: Annotated[float, Quantity("volume", 0.02, 25)] | None = Field(default=None, alias="bottle")
    spread_g_m2: Annotated[float, Quantity("spread", 30, 600)] | None = Field(default=None, alias="spread_rate")
    density_kg_m3: Annotated[float, Quantity("density", 700, 2000)] | None = Field(default=None, alias="density")


class Finish(Part):
    """What seals the wood, as its own label states it. `recoat_before_min` is None where the label gives no latest."""

    name: Name
    type: Annotated[Literal["oil", "varnish", "resin"], Choice(("oil", "varnish", "resin"))]
    coats: Annotated[int, Count(1, 12)]
    coverage_m2_l: Annotated[float, Quantity("coverage", 1, 40)] = Field(alias="coverage")
    can_l: Annotated[float, Quantity("volume", 0.05, 25)] = Field(alias="can")
    recoat_after_min: Annotated[float, Quantity("time", 5, 10080)] = Field(alias="recoat_after")
    recoat_before_min: Annotated[float, Quantity("time", 5, 40320)] | None = Field(default=None, alias="recoat_before")
    full_cure_min: Annotated[float, Quantity("time", 60, 60480)] = Field(alias="full_cure")
    lowest_c: Annotated[float, Quantity("temperature", -10, 35)] = Field(alias="lowest_temperature")


class Plank(Part):
    """Planks of one size that the builder has for the panels."""

    width_mm: Annotated[float, Quantity("length", 20, 400)] = Field(alias="width")
    length_mm: Annotated[float, Quantity("length", 300, 6000)] = Field(alias="length")
    count: Annotated[int, Count(1, 200)]


class Foam(Part):
    """The foam that braces the panels from inside."""

    name: Name
    kind: Annotated[FoamKind, Choice(FOAM_KINDS)]
    thickness_mm: Annotated[float, Quantity("length", 5, 200)] = Field(alias="thickness")
    density_kg_m3: Annotated[float, Quantity("density", 8, 120)] = Field(alias="density")


class Plate(Part):
    """What a tool's own plate or booklet states, and how long it runs on the longest day."""

    tool: Name
    noise_dba: Annotated[float, Quantity("sound", 40, 130)] | None = Field(default=None, alias="noise")
    vibration_m_s2: Annotated[float, Quantity("acceleration", 0.1, 40)] | None = Field(default=None, alias="vibration")
    use_min: Annotated[float, Quantity("time", 1, 720)] = Field(alias="use")


class Air(Part):
    """The air at the beach, where the finished board lives."""

    temperature_c: Annotated[float, Quantity("temperature", -1, 45)] = Field(alias="temperature")
    humidity_pct: Annotated[float, Quantity("humidity", 5, 95)] = Field(alias="humidity")


class ExtraDay(Part):
    """One more day on which the builder has time."""

    day: Annotated[datetime.date, Day()]
    length_min: Annotated[float, Quantity("time", 15, 720)] = Field(alias="length")


class Evenings(Part):
    """When the builder has time; `days` are 0 for Monday to 6 for Sunday."""

    days: Annotated[tuple[Annotated[int, Weekday()], ...], Field(min_length=1, max_length=7)]
    length_min: Annotated[float, Quantity("time", 15, 720)] = Field(alias="length")


class Sag(Part):
    """A sag test: a part on two tins `apart`, evenly about its middle, and the drop there under a known weight."""

    apart_mm: Annotated[float, Quantity("length", 500, 3500)] = Field(alias="apart")
    weight_kg: Annotated[float, Quantity("mass", 0.1, 20)] = Field(alias="weight")
    drop_mm: Annotated[float, Quantity("length", 1, 200)] = Field(alias="drop")


class LevelReading(Part):
    """Height of the underside of the bottom above the level line at one place."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    height_mm: Annotated[float, Quantity("length", 0, 900)] = Field(alias="height")


LevelReadings = Annotated[tuple[LevelReading, ...], Field(min_length=5, max_length=40)]


class Measured(Part):
    """What the builder has measured so far.

    `on_bench` are heights with everything on, before the glue; `cured` those once it is hard and clamps and weights
    are off, the board still on the bench; `with_top` those with the top panel clamped on, before its glue.
    """

    panel_thickness_mm: PanelThickness | None = Field(default=None, alias="panel_thickness")
    panel_mass_kg: PartMass | None = Field(default=None, alias="panel_mass")
    frame_mass_kg: PartMass | None = Field(default=None, alias="frame_mass")
    frame_sag: Sag | None = None
    panel_sag: Sag | None = None
    on_bench: LevelReadings | None = None
    cured: LevelReadings | None = None
    with_top: LevelReadings | None = None
    finished_mass_kg: Annotated[float, Quantity("mass", 1, 40)] | None = Field(default=None, alias="finished_mass")


class Builder(Part):
    """One builder. `rocker` is the list agreed with the maker, or which of the three candidates is wanted."""

    name: Name
    board: Slug
    units: Units | None = None
    surf: Surf
    body_mass_kg: Annotated[float, Quantity("mass", 15, 250)] = Field(alias="body_mass")
    rocker: RockerWish = "between"
    things: Annotated[tuple[Thing, ...], Field(min_length=1, max_length=60)]
    clamps: Annotated[tuple[Clamp, ...], Field(max_length=40)]
    weights: Annotated[tuple[Weight, ...], Field(max_length=40)] = ()
    tools: Annotated[tuple[Name, ...], Field(max_length=60)]
    table: Table
    helpers: Annotated[int, Count(0, 10)]
    shed: Shed
    beach: Air
    water: Annotated[Literal["sea", "fresh"], Choice(("sea", "fresh"))]
    glue: Glue
    planks: Annotated[tuple[Plank, ...], Field(max_length=20)] = ()
    foam: Foam | None = None
    finish: Finish | None = None
    plates: Annotated[tuple[Plate, ...], Field(max_length=20)] = ()
    start: Annotated[datetime.date, Day()]
    evenings: Evenings
    free_days: Evenings | None = None
    extra_days: Annotated[tuple[ExtraDay, ...], Field(max_length=60)] = ()
    busy_days: Annotated[tuple[Annotated[datetime.date, Day()], ...], Field(max_length=200)] = ()
    stage: Name
    off_bench_after: Annotated[BenchEnd, Choice(("bottom panel", "top panel"))] | None = None
    photo_first: Annotated[tuple[Name, ...], Field(max_length=20)] | None = None
    notes: Mapping[str, Annotated[str, Text(longest=2000, lines=True)]] = Field(default_factory=dict)
    measured: Measured = Measured()
