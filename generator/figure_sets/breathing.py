"""Figures of what is breathed in: dust of the panels, what protection leaves of it, airing of the room."""

from __future__ import annotations

from generator.figure_sets.facts import TYPED_BOARD, Facts
from generator.figures import FigureBook, Kind
from generator.safety import dust
from generator.safety.vapour import cleared_min

SANDED_MM, FLOATS = 0.25, 0.001
CHANGES_PER_H, FEWEST_CHANGES, MOST_CHANGES = 2.0, 0.5, 6.0
CLEARED_TO_PCT = 1.0
CAUGHT_PCT = 80.0
FACTORS = {"ffp2": 10.0, "ffp3": 20.0}
EXTRACTION = "NIOSH, Control of Wood Dust from Rotational Hand-Held Sanders, abstract"
MASKS = "HSG53 / BS EN 529, assigned protection factors, as quoted by a university's safety page"


def add_breathing(book: FigureBook, facts: Facts) -> None:
    """Everything about dust and vapour that a page computes."""
    builder, species = facts.inputs.builder, facts.inputs.species
    _add_sanding(book, facts)
    _add_protection(book)
    _add_airing(book)
    book.said |= {
        "dust.hardwood": dust.is_hardwood(species.botanical),
        "dust.sensitiser": dust.is_known_sensitiser(species.botanical),
        "vapour.finish": builder.finish.type if builder.finish else "not named",
        "vapour.foam": builder.foam.kind if builder.foam else "none",
    }


def _add_sanding(book: FigureBook, facts: Facts) -> None:
    """How much dust a panel makes, and how much air that spoils."""
    panel, area_m2 = facts.inputs.board.panel, facts.body.trace.area_mm2 / 1e6
    strictest_mg_m3 = next(row.value for row in facts.inputs.practice if row.key == "practice.dust_limit_niosh")
    mass_g = dust.sanded_g(area_m2=area_m2, depth_mm=SANDED_MM, density_kg_m3=panel.density_kg_m3)
    book.add(
        "dust.sanded_depth", SANDED_MM, "mm", "what a round of sanding takes off, for the example",
        how="About what takes out the scratches of planing.", kind=Kind.COMMON_PRACTICE, source="common practice",
        step=0.05,
    )  # fmt: skip
    book.add(
        "dust.sanded_mass", mass_g, "g", "dust from one face of one panel",
        how=f"Area inside the trace line, times that depth, times the density. {TYPED_BOARD}",
        kind=[Kind.MAKER, Kind.COMMON_PRACTICE],
    )  # fmt: skip
    air_m3 = dust.air_filled_m3(dust_g=mass_g, afloat=FLOATS, limit_mg_m3=strictest_mg_m3)
    book.add(
        "dust.floats", 100 * FLOATS, "%", "share of the dust that floats, for the example",
        how="An assumption to show the size of things. It depends on tool, grit and extraction.", kind=Kind.ASSUMED,
        low=10 * FLOATS, high=1000 * FLOATS, step=0.01,
    )  # fmt: skip
    book.add(
        "dust.air", air_m3, "m3", "air that this fills up to the limit",
        how="The floating dust over the strictest of the limits on this page.", kind=[Kind.MAKER, Kind.ASSUMED],
        low=air_m3 / 10, high=air_m3 * 10,
    )  # fmt: skip


def _add_protection(book: FigureBook) -> None:
    """What a mask lets through, alone and behind extraction at the tool."""
    book.add(
        "dust.caught", CAUGHT_PCT, "%", "dust that a good extraction at the tool takes away",
        how="Field tests of sanders with strong suction right at the disc. A tool's own bag catches much less.",
        kind=Kind.PUBLISHED, source=EXTRACTION,
    )  # fmt: skip
    book.add(
        "dust.left_extraction", dust.left_pct(caught_pct=CAUGHT_PCT, mask_factors=[]), "%",
        "dust that still gets in, with extraction and no mask", how="What extraction leaves.", kind=Kind.PUBLISHED,
        source=EXTRACTION,
    )  # fmt: skip
    for name, factor in FACTORS.items():
        book.add(
            f"dust.factor_{name}", factor, "", f"by how much a {name.upper()} mask that fits divides the dust",
            how="The protection factor assigned to the class for real work.", kind=Kind.PUBLISHED,
            source=MASKS,
        )  # fmt: skip
        for caught, part, said in ((0.0, "mask", "behind the mask alone"), (CAUGHT_PCT, "both", "with extraction too")):
            book.add(
                f"dust.left_{part}_{name}", dust.left_pct(caught_pct=caught, mask_factors=[factor]), "%",
                f"dust that still gets in, {name.upper()}, {said}",
                how="What extraction leaves, divided by the mask's factor. On a shaven face, well fitted.",
                kind=Kind.PUBLISHED, source=f"{EXTRACTION}; {MASKS}" if caught else MASKS, step=0.5,
            )  # fmt: skip


def _add_airing(book: FigureBook) -> None:
    """How long the mask stays on after the last stroke."""
    book.add(
        "vapour.changes", CHANGES_PER_H, "", "how often an aired room changes its air in an hour",
        how="An assumption. A shut room does far less, wind through two openings more.", kind=Kind.ASSUMED,
        low=FEWEST_CHANGES, high=MOST_CHANGES, step=0.5,
    )  # fmt: skip
    times = [
        cleared_min(changes_per_h=n, left_pct=CLEARED_TO_PCT) for n in (CHANGES_PER_H, MOST_CHANGES, FEWEST_CHANGES)
    ]
    book.add(
        "vapour.cleared", times[0], "min", "airing until the floating dust is nearly gone",
        how="Each change of air takes away the same share. It holds for a room whose air mixes, once nothing more is "
        "given off; still corners take longer.",
        kind=[Kind.PUBLISHED, Kind.ASSUMED], source="CDC, MMWR 43 (RR-13), 1994, Table S3-1",
        low=times[1], high=times[2], step=5,
    )  # fmt: skip
    book.add(
        "vapour.cleared_to", CLEARED_TO_PCT, "%", "what is left then",
        how="The share that the time is reckoned to.", kind=Kind.PUBLISHED,
        source="CDC, MMWR 43 (RR-13), 1994, Table S3-1",
    )  # fmt: skip
