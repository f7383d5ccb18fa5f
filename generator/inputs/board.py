"""What the maker says about one board kit. File keys carry no unit; names here do (mm, kg/m³, MPa)."""

from __future__ import annotations

import math
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, GetJsonSchemaHandler, Tag, model_validator
from pydantic_core import CoreSchema

from generator.inputs.fields import MARK, Choice, Part, Quantity, Text

WORD, LIST = f"{MARK}word", f"{MARK}list"
ASSUMED_BELOW, ASSUMED_ABOVE = 0.75, 1.25

Name = Annotated[str, Text()]
FromTail = Annotated[float, Quantity("length", 0, 4000)]
Rise = Annotated[float, Quantity("length", 0, 400)]
Density = Annotated[float, Quantity("density", 80, 1200)]
PlyThickness = Annotated[float, Quantity("length", 3, 25)]
PanelThickness = Annotated[float, Quantity("length", 3, 12)]
Stiffness = Annotated[float, Quantity("stiffness", 200, 30000)]
FromCentre = Annotated[float, Quantity("length", -300, 300)]
FittingMass = Annotated[float, Quantity("mass", 0.001, 2)]
BlockWord = Literal["tail", "leash plug", "fin", "vent", "nose"]
BLOCK_WORDS: tuple[BlockWord, ...] = ("tail", "leash plug", "fin", "vent", "nose")
TipShape = Annotated[Literal["round", "pointed", "square"], Choice(("round", "pointed", "square"))]


class HalfWidth(Part):
    """Half the width of the outline at one place."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    half_width_mm: Annotated[float, Quantity("length", 0, 450)] = Field(alias="half_width")


class Thickness(Part):
    """Thickness on the centre line at one place, and how much lower the deck lies at the rim there (crown)."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    thickness_mm: Annotated[float, Quantity("length", 10, 160)] = Field(alias="thickness")
    crown_mm: Annotated[float, Quantity("length", 0, 60)] = Field(alias="crown")


class Height(Part):
    """Height of the bottom above its lowest point at one place."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    height_mm: Rise = Field(alias="height")


class Spread(Part):
    """A stiffness in MPa with its range. A single number gets a range of a quarter either way, which is assumed."""

    value: Stiffness
    low: Stiffness
    high: Stiffness

    @model_validator(mode="before")
    @classmethod
    def _from_one_number(cls, typed: Any) -> Any:
        if isinstance(typed, (dict, Spread)):
            return typed
        value = Quantity("stiffness", 200, 30000).read(typed)
        return {"value": value, "low": max(200.0, ASSUMED_BELOW * value), "high": min(30000.0, ASSUMED_ABOVE * value)}

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [Quantity("stiffness", 200, 30000).schema(), handler(core)]}

    @property
    def kind(self) -> Literal["assumed", "maker's choice"]:
        """`assumed` if the range is the one that a single number gets."""
        ends = ((self.low, ASSUMED_BELOW), (self.high, ASSUMED_ABOVE))
        assumed = all(math.isclose(end, share * self.value, rel_tol=1e-9) for end, share in ends)
        return "assumed" if assumed else "maker's choice"


class Ply(Part):
    """The spine as measured."""

    material: Name
    thickness_mm: PlyThickness = Field(alias="thickness")
    density_kg_m3: Density = Field(alias="density")
    stiffness_mpa: Spread = Field(alias="stiffness")


class Ribs(Part):
    """The ribs as measured, and where they stand."""

    material: Name
    thickness_mm: PlyThickness = Field(alias="thickness")
    density_kg_m3: Density = Field(alias="density")
    from_tail_mm: Annotated[tuple[FromTail, ...], Field(alias="from_tail", min_length=2, max_length=40)]


class Slots(Part):
    """The slots in the spine, one at each rib."""

    share_of_depth: Annotated[float, Quantity("share", 0.05, 0.9)]
    width_mm: Annotated[float, Quantity("length", 2, 30)] = Field(alias="width")
    open_to: Annotated[Literal["top", "bottom"], Choice(("top", "bottom"))]


class EdgeStrip(Part):
    """The thin strip on edge round the frame's rim."""

    height_mm: Annotated[float, Quantity("length", 8, 100)] = Field(alias="height")
    height_at_tips_mm: Annotated[float, Quantity("length", 4, 100)] = Field(alias="height_at_tips")
    thickness_mm: Annotated[float, Quantity("length", 2, 20)] = Field(alias="thickness")
    density_kg_m3: Density = Field(alias="density")
    stiffness_mpa: Spread = Field(alias="stiffness")


class Panel(Part):
    """The deck panels, glued up from planks. `timber` is a name in timber.csv."""

    timber: Name
    thickness_mm: PanelThickness = Field(alias="thickness")
    density_kg_m3: Density = Field(alias="density")
    plank_width_mm: Annotated[float, Quantity("length", 20, 400)] = Field(alias="plank_width")
    plank_length_mm: Annotated[float, Quantity("length", 300, 6000)] = Field(alias="plank_length")
    stiffness_mpa: Spread = Field(alias="stiffness")


class Rails(Part):
    """What the rails are built up from: strips laid side by side round the rim, or thin laminations bent on."""

    built: Annotated[Literal["strips", "laminations"], Choice(("strips", "laminations"))]
    layer_mm: Annotated[float, Quantity("length", 1, 80)] = Field(alias="layer")
    density_kg_m3: Density = Field(alias="density")


class Block(Part):
    """A solid block between the panels. `from_tail_mm` is its end nearer the tail, `from_centre_mm` its middle line."""

    holds: Annotated[BlockWord, Choice(BLOCK_WORDS)]
    from_tail_mm: FromTail = Field(alias="from_tail")
    length_mm: Annotated[float, Quantity("length", 20, 600)] = Field(alias="length")
    width_mm: Annotated[float, Quantity("length", 20, 400)] = Field(alias="width")
    from_centre_mm: FromCentre = Field(default=0.0, alias="from_centre")
    density_kg_m3: Density = Field(alias="density")


class Fin(Part):
    """The fin: the rear end of its base, how long the base is, how deep it stands, and what it weighs."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    base_mm: Annotated[float, Quantity("length", 40, 400)] = Field(alias="base")
    depth_mm: Annotated[float, Quantity("length", 40, 400)] = Field(alias="depth")
    mass_kg: FittingMass = Field(alias="mass")


class Plug(Part):
    """A fitting in a round hole from above: the middle of the hole, its diameter and what the fitting weighs."""

    from_tail_mm: FromTail = Field(alias="from_tail")
    from_centre_mm: FromCentre = Field(default=0.0, alias="from_centre")
    hole_mm: Annotated[float, Quantity("length", 4, 60)] = Field(alias="hole")
    mass_kg: FittingMass = Field(alias="mass")


class Fittings(Part):
    """What is let into the finished board."""

    fin: Fin
    leash_plug: Plug
    vent: Plug


class TraceMargin(Part):
    """How far outside the frame the trace line runs, at the sides and at the tips."""

    sides_mm: Annotated[float, Quantity("length", 5, 40)] = Field(alias="sides")
    tips_mm: Annotated[float, Quantity("length", 5, 100)] = Field(alias="tips")


def _word_or_list(typed: Any) -> str:
    return LIST if isinstance(typed, (list, tuple)) else WORD


BottomWord = Literal["straight", "to the rocker"]
FrameBottom = Annotated[
    Annotated[BottomWord, Choice(("straight", "to the rocker")), Tag(WORD)]
    | Annotated[tuple[Height, ...], Field(min_length=4, max_length=40), Tag(LIST)],
    Discriminator(_word_or_list),
]


class Board(Part):
    """One board kit."""

    name: Name
    sizes_of: Annotated[Literal["frame", "finished"], Choice(("frame", "finished"))] = Field(alias="sizes")
    length_mm: Annotated[float, Quantity("length", 1200, 4000)] = Field(alias="length")
    rail_mm: Annotated[float, Quantity("length", 0, 80)] = Field(default=0.0, alias="rail")
    tail: TipShape
    nose: TipShape
    half_widths: Annotated[tuple[HalfWidth, ...], Field(min_length=3, max_length=40)]
    thickness: Annotated[tuple[Thickness, ...], Field(min_length=3, max_length=40)]
    spine: Ply
    ribs: Ribs
    slots: Slots
    edge_strip: EdgeStrip
    frame_bottom: FrameBottom
    panel: Panel
    rails: Rails
    blocks: Annotated[tuple[Block, ...], Field(min_length=3, max_length=12)]
    fittings: Fittings
    trace_margin: TraceMargin | None = None
    rocker: Annotated[tuple[Height, ...], Field(min_length=4, max_length=40)]
