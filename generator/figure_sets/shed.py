"""Figures that stand in the builder's own file: shed, glue label, body, table."""

from __future__ import annotations

from generator.figures import FigureBook, Kind
from generator.inputs.builder import Builder
from generator.timber.moisture import within_range

TYPED = "As typed into the builder's file."
LABEL = "As the glue's label says; typed into the builder's file."


def add_builder(book: FigureBook, builder: Builder) -> None:
    """Body mass, helpers, shed and table."""
    shed = builder.shed
    book.add("builder.mass", builder.body_mass_kg, "kg", "your body mass", how=TYPED, kind=Kind.MEASURED, step=0.5)
    book.add("builder.helpers", builder.helpers, "", "helpers you can call on", how=TYPED, kind=Kind.MEASURED)
    book.add("shed.temperature", shed.temperature_c, "°C", "your shed's temperature", how=TYPED, kind=Kind.MEASURED)
    book.add("shed.night_low", shed.night_low_c, "°C", "lowest at night", how=TYPED, kind=Kind.MEASURED)
    book.add("shed.humidity", shed.humidity_pct, "%", "your shed's humidity", how=TYPED, kind=Kind.MEASURED)
    book.add("table.length", builder.table.length_mm, "mm", "length of your table", how=TYPED, kind=Kind.MEASURED)
    book.add("table.width", builder.table.width_mm, "mm", "width of your table", how=TYPED, kind=Kind.MEASURED)


def add_moisture(book: FigureBook, builder: Builder) -> None:
    """What the planks settle at in this shed, where the published equation holds."""
    book.add(
        "panel.moisture",
        within_range(temperature_c=builder.shed.temperature_c, humidity_pct=builder.shed.humidity_pct),
        "%",
        "moisture that your planks settle at in the shed",
        how="Equilibrium moisture content of wood at your shed's temperature and humidity, in % of its dry mass.",
        kind=[Kind.PUBLISHED, Kind.MEASURED],
        source="Wood Handbook, FPL-GTR-190 (2010), eq. 4-5",
        step=0.5,
    )


def add_glue_label(book: FigureBook, builder: Builder) -> None:
    """What the glue's label says, and how the coldest night stands against it."""
    glue = builder.glue
    for key, value, unit, label in (
        ("glue.open", glue.open_min, "min", "open time of your glue"),
        ("glue.clamp", glue.clamp_min, "min", "clamp time of your glue"),
        ("glue.full_cure", glue.full_cure_min, "min", "full cure of your glue"),
        ("glue.lowest", glue.lowest_c, "°C", "lowest temperature for your glue"),
    ):
        book.add(key, value, unit, label, how=LABEL, kind=Kind.LABEL)
    book.add("glue.gap", glue.gap_mm, "mm", "gap that your glue may fill", how=LABEL, kind=Kind.LABEL, step=0.1)
    book.add(
        "glue.night_margin",
        builder.shed.night_low_c - glue.lowest_c,
        "°C difference",
        "night's low above the glue's lowest",
        how="Your shed's lowest at night less the glue's lowest temperature; below zero is too cold.",
        kind=[Kind.LABEL, Kind.MEASURED],
    )
    book.said |= {
        "glue.name": glue.name,
        "glue.type": glue.type,
        "glue.method": glue.method,
        "glue.water_class": glue.water_class,
        "night_ok": builder.shed.night_low_c >= glue.lowest_c,
        "temperature_ok": builder.shed.temperature_c >= glue.lowest_c,
        "helpers_enough": builder.helpers >= 1,
    }
