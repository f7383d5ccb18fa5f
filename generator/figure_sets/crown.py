"""Figures of the top panel over the crown: how tightly it is bent, what the wood takes, clamps over the whole board."""

from __future__ import annotations

from generator.bench.assembly import ClampKind
from generator.bench.from_body import PADS_MM
from generator.build.clamp_order import goes, outwards
from generator.build.crown import (
    SAFETY,
    Rolled,
    deck_length_mm,
    least_radius_mm,
    rim_force_n_mm,
    rolled,
    verdict_of,
    worst_of,
    wrap_extra_mm,
)
from generator.build.rails import rim_height_mm
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind
from generator.quantities import GRAVITY_M_S2, fixed
from generator.timber.across import AcrossGrain
from generator.timber.by_density import SOURCE as BY_DENSITY

MAKER = Kind.MAKER
GAP_MM = 0.5
PCT = 100.0
STRAIN = "Thickness of the panel by twice the radius of the bend."
SPLITS = "Tension strength across the grain by the stiffness across it; the range is wide, for wood differs."


def add_crown(book: FigureBook, facts: Facts) -> None:
    """All figures of the crown."""
    across = facts.across
    places = rolled(facts.body, across, gap_mm=GAP_MM)
    kinds = [MAKER, facts.panel_thickness_kind]
    _ribs(book, places, across, kinds)
    worst = worst_of(places)
    flat = worst.radius_mm is None
    book.said |= {
        "crown.flat": flat,
        "crown.verdict": verdict_of(worst.strain, across),
        "crown.published": across.published,
    }
    _limits(book, facts, across)
    _worst(book, facts, worst, across, kinds)
    _along(book, facts, places, kinds)


def _ribs(book: FigureBook, places: tuple[Rolled, ...], across: AcrossGrain, kinds: list[Kind]) -> None:
    rows = []
    for place in places:
        key, name = f"crown.rib.{place.number}", f"over rib {place.number}"
        book.add(
            f"{key}.drop", place.drop_mm, "mm", f"how far the deck falls to the rim, {name}", kind=MAKER, step=0.5,
            how="Depth of the rib in the middle less its depth at the ends.",
        )  # fmt: skip
        book.add(
            f"{key}.strain", PCT * place.strain, "%", f"stretch of the panel's surface, {name}", kind=kinds,
            how=STRAIN, source="plane sections, from memory", step=0.01,
        )  # fmt: skip
        if place.radius_mm is not None:
            book.add(
                f"{key}.radius", place.radius_mm, "mm", f"radius of the crown, {name}", kind=MAKER, step=10,
                how="The arc through the rib's middle and both its ends.",
            )  # fmt: skip
        rows.append(
            {"n": place.number, "key": key, "verdict": verdict_of(place.strain, across),
             "flat": place.radius_mm is None}
        )  # fmt: skip
    book.rows["crown_ribs"] = tuple(rows)


def _limits(book: FigureBook, facts: Facts, across: AcrossGrain) -> None:
    species = facts.inputs.species
    low, usual, high = across.limit_strain
    source = f"{species.source} ({species.strength_read})" if across.published else BY_DENSITY
    published = Kind.PUBLISHED if across.published else Kind.ASSUMED
    book.add(
        "crown.strength", across.strength_mpa[1], "MPa", "tension strength of the panel's timber across its grain",
        how="Mean of small clear pieces." if across.published else "No table gives it; taken from the wood's density.",
        kind=published, source=source, low=across.strength_mpa[0], high=across.strength_mpa[2], step=0.1,
    )  # fmt: skip
    book.add(
        "crown.across", across.stiffness_mpa[1], "MPa", "stiffness of the panel's timber across its grain",
        how="A small share of the stiffness along the grain. Which share depends on how a plank was sawn.",
        kind=[MAKER, Kind.ASSUMED], low=across.stiffness_mpa[0], high=across.stiffness_mpa[2], step=10,
    )  # fmt: skip
    book.add(
        "crown.limit", PCT * usual, "%", "stretch across the grain at which this wood splits", how=SPLITS,
        kind=[published, Kind.ASSUMED], source=source, low=PCT * low, high=PCT * high, step=0.01,
    )  # fmt: skip
    book.add(
        "crown.safe", PCT * usual / SAFETY, "%", "stretch across the grain that needs no care", kind=[Kind.ASSUMED],
        how=f"That at which it splits, by {SAFETY:g}: the weak pieces have little more than half of the mean strength.",
        low=PCT * low / SAFETY, high=PCT * high / SAFETY, step=0.01,
    )  # fmt: skip


def _worst(book: FigureBook, facts: Facts, worst: Rolled, across: AcrossGrain, kinds: list[Kind]) -> None:
    """The tightest rib; a flat deck has strain 0 and no more."""
    body = facts.body
    assumed = [*kinds, Kind.ASSUMED]
    low, usual, high = across.limit_strain
    book.add(
        "crown.worst_rib", worst.number, "", "rib where the crown is tightest", how="The least radius.", kind=MAKER
    )
    book.add(
        "crown.drop",
        worst.drop_mm,
        "mm",
        "how far the deck falls to the rim there",
        kind=MAKER,
        step=0.5,
        how="Depth of the rib in the middle less its depth at the ends.",
    )
    book.add(
        "crown.strain", PCT * worst.strain, "%", "stretch of the panel's surface where the crown is tightest",
        how=STRAIN, source="plane sections, from memory", kind=kinds, step=0.01,
    )  # fmt: skip
    book.add(
        "crown.use", PCT * worst.strain / usual, "%", "share of what the wood takes that the crown uses up",
        how="Stretch over the tightest rib by that at which the wood splits.", kind=assumed,
        low=PCT * worst.strain / high, high=PCT * worst.strain / low, step=5,
    )  # fmt: skip
    book.add(
        "crown.wrap", max(wrap_extra_mm(half_width_mm=rib.half_width_mm, drop_mm=rib.depth_mm - rib.end_depth_mm)
                          for rib in body.ribs),
        "mm", "how much wider the way over the crown is than straight across", kind=MAKER, step=0.1,
        how="Arc less chord at the rib where that is most; the panel's margin covers it.",
    )  # fmt: skip
    if worst.radius_mm is None:
        return
    book.add(
        "crown.radius", worst.radius_mm, "mm", "tightest radius of the crown", kind=MAKER, step=10,
        how="The arc through the rib's middle and both its ends.",
    )  # fmt: skip
    book.add(
        "crown.thin_to", min(2 * worst.radius_mm * usual / SAFETY, body.panel_mm), "mm",
        "thickness that goes over the tightest rib without care", kind=assumed, step=0.1,
        how="Twice the radius times the stretch that needs no care, and no more than the panel has.",
        low=min(2 * worst.radius_mm * low / SAFETY, body.panel_mm),
        high=min(2 * worst.radius_mm * high / SAFETY, body.panel_mm),
    )  # fmt: skip
    book.add(
        "crown.easy_radius", least_radius_mm(thickness_mm=body.panel_mm, strain=usual / SAFETY), "mm",
        "tightest radius that your panel takes without care", kind=assumed, step=10,
        how="Thickness by twice the stretch that needs no care.",
        low=least_radius_mm(thickness_mm=body.panel_mm, strain=high / SAFETY),
        high=least_radius_mm(thickness_mm=body.panel_mm, strain=low / SAFETY),
    )  # fmt: skip
    _force(book, facts, worst, across, assumed)


def _force(book: FigureBook, facts: Facts, worst: Rolled, across: AcrossGrain, kinds: list[Kind]) -> None:
    body = facts.body
    apart = book.values["frame.rib_pitch"].value
    per_mm = [
        rim_force_n_mm(
            stiffness_mpa=stiffness, thickness_mm=body.panel_mm, half_width_mm=worst.half_width_mm,
            drop_mm=worst.drop_mm, gap_mm=GAP_MM,
        )
        for stiffness in across.stiffness_mpa
    ]  # fmt: skip
    for key, times, unit, label, step in (
        ("crown.clamp_force", apart, "N", "pull of a clamp that brings the rim down there", 1.0),
        ("crown.clamp_mass", apart / GRAVITY_M_S2, "kg", "a weight that pulls as hard", 0.1),
    ):
        book.add(
            key, per_mm[1] * times, unit, label, kind=kinds, low=per_mm[0] * times, high=per_mm[2] * times, step=step,
            how="The panel wraps the crown from the middle outwards until no more than a thin gap is left at the rim; "
            "one clamp on each side at every rib.",
            source="a strip bent over a round former, first principles",
        )  # fmt: skip
    book.add(
        "crown.gap", GAP_MM, "mm", "gap at the rim that glue and clamp close", kind=Kind.COMMON_PRACTICE,
        how="The same as the batten check of the frame lets pass.", source="common practice", step=0.1,
    )  # fmt: skip


def _along(book: FigureBook, facts: Facts, places: tuple[Rolled, ...], kinds: list[Kind]) -> None:
    """What crown and rocker together ask of a flat panel, along the grain."""
    species, panel = facts.inputs.species, facts.inputs.board.panel
    most = max(places, key=lambda place: abs(place.saddle.edge))
    book.add(
        "crown.stretch", PCT * abs(most.saddle.edge), "%", "stretch along the grain that crown and rocker ask together",
        how="A flat panel can't be curved both ways without stretching somewhere: at its edges where the deck rises "
        "towards the tips. Square of the half width times both curvatures, by three; half as much again where the "
        "middle is glued fast and can't give. An estimate.",
        kind=[*kinds, Kind.ASSUMED], source="compatibility of a shallow shell, from memory", step=0.01,
        high=1.5 * PCT * abs(most.saddle.edge),
    )  # fmt: skip
    if species.strength_bending_mpa is not None:
        book.add(
            "crown.stretch_limit", PCT * species.strength_bending_mpa / panel.stiffness_mpa.value, "%",
            "stretch along the grain at which this wood breaks", kind=[Kind.PUBLISHED, MAKER], step=0.01,
            how="Bending strength by the stiffness along the grain.",
            source=f"{species.source} ({species.strength_read})",
        )  # fmt: skip
    book.said["crown.stretch_known"] = species.strength_bending_mpa is not None


def add_top_clamps(book: FigureBook, facts: Facts) -> None:
    """Clamps that reach over the whole thickness, and the size of the second panel."""
    body, builder = facts.body, facts.inputs.builder
    ribs = [rib.from_tail_mm for rib in body.ribs]
    openings = rim_height_mm(body, fixed(ribs)) + PADS_MM
    rows = []
    for rib, opening in zip(body.ribs, openings, strict=True):
        book.add(
            f"top.rib.{rib.number}.opening", float(opening), "mm",
            f"opening that a clamp needs at rib {rib.number} with both panels on",
            how="Both panels, what is between them at the rim, and two pads of scrap.",
            kind=[MAKER, facts.panel_thickness_kind, Kind.COMMON_PRACTICE],
        )  # fmt: skip
        rows.append({"n": rib.number, "key": f"top.rib.{rib.number}"})
    book.rows["top_openings"] = tuple(rows)
    book.add(
        "top.clamp_opening", float(openings.max()), "mm", "opening that a clamp needs over the whole thickness",
        how="At the rib where the board's side is highest, with two pads of scrap.",
        kind=[MAKER, facts.panel_thickness_kind, Kind.COMMON_PRACTICE],
    )  # fmt: skip
    kinds = [ClampKind(c.name, c.opening_mm, c.mass_kg, c.hang_mm, c.count) for c in builder.clamps]
    order = outwards(ribs, middle_mm=body.length_mm / 2)
    laid = goes(order, grip_mm=openings, kinds=kinds)
    first = len(laid[0]) if laid else 0
    how = "Two alike at each rib, opening over the whole thickness there."
    book.add("top.pairs", first, "", "pairs of clamps that fit over the whole thickness", how=how, kind=Kind.MEASURED)
    book.add(
        "top.pairs_missing", len(ribs) - first, "", "pairs of clamps that are missing for the top panel",
        how="One pair at each rib, less those that you have.", kind=Kind.MEASURED,
    )  # fmt: skip
    numbers = [rib.number for rib in body.ribs]
    book.rows["top_clamps"] = tuple(
        {"rib": numbers[one.rib], "order": n, "name": one.name} for n, one in enumerate(laid[0] if laid else (), 1)
    )
    book.said["top_clamps_enough"] = first >= len(ribs)
    _second_panel(book, facts)


def _second_panel(book: FigureBook, facts: Facts) -> None:
    body = facts.body
    book.add(
        "top.length", deck_length_mm(body) + 2 * body.margin.tips_mm, "mm", "length that the top panel needs",
        how="The deck along its curve, and the trace margin at both tips.", kind=[MAKER, facts.panel_thickness_kind],
    )  # fmt: skip
    book.add(
        "top.width", body.trace.widest_mm + book.values["crown.wrap"].value, "mm", "width that the top panel needs",
        how="The trace line at its widest, and what the crown adds.", kind=MAKER,
    )  # fmt: skip
