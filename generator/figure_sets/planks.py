"""Figures of the planks: both panels row by row, what is bought, what is left over."""

from __future__ import annotations

import math

from generator.board.body import Blank
from generator.build.planks import Allowance, Layout, PlankPlan, Planks, Row, plan_planks
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind
from generator.inputs.site import Inputs

LONG_MM, MIDDLE_MM, SHORT_MM = 600.0, 200.0, 60.0


def laid_planks(inputs: Inputs, blank: Blank) -> PlankPlan:
    """Both panels from the builder's planks; what is missing is bought in the size that the kit's file names."""
    usual = {row.key: row.value for row in inputs.practice}
    panel = inputs.board.panel
    return plan_planks(
        length_mm=blank.length_mm,
        width_mm=blank.width_mm,
        stock=[Planks(one.width_mm, one.length_mm, one.count) for one in inputs.builder.planks],
        bought=Planks(panel.plank_width_mm, panel.plank_length_mm, None),
        allowance=Allowance(
            joint_mm=usual["practice.edge_loss"],
            overlap_mm=usual["practice.scarf"] * panel.thickness_mm,
            kerf_mm=usual["practice.kerf"],
            stagger_mm=usual["practice.stagger"],
        ),
    )


def kinds(facts: Facts) -> list[Kind]:
    """What the layout rests on: the board's sizes, the builder's planks, what the work takes of the wood."""
    return [Kind.MAKER, Kind.COMMON_PRACTICE, *([Kind.MEASURED] if facts.inputs.builder.planks else [])]


def add_planks(book: FigureBook, facts: Facts) -> None:
    """The two panels and their planks."""
    plan, made_from = facts.planks, kinds(facts)
    for layout in plan.panels:
        _add_panel(book, layout, plan, made_from)
    _add_sizes(book, plan, made_from)
    _add_totals(book, plan, made_from)
    joined = plan.joined
    book.said |= {
        "planks_joined": joined,
        "panel.planks_listed": bool(facts.inputs.builder.planks),
        "panel.alike": plan.alike,
        "panel.mirrored": plan.bottom.mirrored and plan.top.mirrored,
        "panel.staggered": all(layout.staggered_mm >= facts.usual("practice.stagger") - 1e-6 for layout in plan.panels),
    }
    book.rows["panel_layouts"] = tuple(
        {
            "key": f"panel.{layout.name}",
            "both": plan.alike,
            "one_line": layout.glue_lines == 1,
            "rows": book.rows[f"panel_{layout.name}"],
        }
        for layout in (plan.panels[:1] if plan.alike else plan.panels)
    )
    book.rows["planks"] = tuple(_drawn(row) for row in plan.bottom.rows)
    book.rows["planks_top"] = tuple(_drawn(row) for row in plan.top.rows)


def _drawn(row: Row) -> dict[str, object]:
    """One row as the drawings need it."""
    return {
        "n": row.n,
        "width_mm": row.width_mm,
        "from_mm": row.from_mm,
        "start_mm": row.start_mm,
        "end_mm": row.end_mm,
        "joints_mm": row.joints_mm,
    }


def _add_panel(book: FigureBook, layout: Layout, plan: PlankPlan, made_from: list[Kind]) -> None:
    key, name = f"panel.{layout.name}", layout.name
    book.add(
        f"{key}.width",
        layout.width_mm,
        "mm",
        f"width of the {name} panel as glued up",
        how="The planks' widths, less what truing the edges takes at each glue line.",
        kind=made_from,
    )
    book.add(
        f"{key}.spare",
        layout.width_mm - plan.need_width_mm,
        "mm",
        f"spare width of the {name} panel",
        how="Width as glued up less the width that is needed.",
        kind=made_from,
    )
    book.add(
        f"{key}.rows",
        len(layout.rows),
        "",
        f"rows of planks in the {name} panel",
        how="Of all choices that take the least wood, the one with the fewest rows.",
        kind=made_from,
    )
    book.add(
        f"{key}.glue_lines",
        layout.glue_lines,
        "",
        f"glue lines along the {name} panel",
        how="One between each two rows.",
        kind=made_from,
    )
    book.add(
        f"{key}.glue_length",
        layout.glue_lines * plan.need_length_mm,
        "mm",
        f"glue lines of the {name} panel, together",
        how="Their number times the length that a panel needs.",
        kind=made_from,
    )
    book.add(
        f"{key}.end_joins",
        layout.end_joints,
        "",
        f"end joins in the {name} panel",
        how="Where planks are too short, one piece is joined to the next.",
        kind=made_from,
    )
    if math.isfinite(layout.staggered_mm):
        book.add(
            f"{key}.stagger",
            layout.staggered_mm,
            "mm",
            f"least distance between end joins of neighbouring rows, {name} panel",
            how="Measured along the panel. Rows are laid from the tail and from the nose by turns.",
            kind=made_from,
        )
    rows = []
    for row in layout.rows:
        at = f"{key}.row.{row.n}"
        label = f"{name} panel, row {row.n}"
        book.add(f"{at}.width", row.width_mm, "mm", f"{label}, width", how="The plank's own width.", kind=made_from)
        pieces = []
        for m, (length, cut) in enumerate(zip(row.pieces_mm, row.cut, strict=True), 1):
            book.add(
                f"{at}.piece.{m}.length",
                length,
                "mm",
                f"{label}, piece {m} from the tail, length",
                how="Cut to this length." if cut else "A whole plank, or as much of it as the panel needs.",
                kind=made_from,
            )
            pieces.append({"key": f"{at}.piece.{m}", "cut": cut})
        rows.append({"n": row.n, "key": at, "pieces": tuple(pieces), "single": len(pieces) == 1})
    book.rows[f"panel_{name}"] = tuple(rows)


def _add_sizes(book: FigureBook, plan: PlankPlan, made_from: list[Kind]) -> None:
    """Each size of plank: how many lie ready, how many are used, bought and left."""
    sizes = []
    for n, use in enumerate(plan.uses, 1):
        key, label = f"panel.size.{n}", f"planks of size {n}"
        book.add(f"{key}.width", use.width_mm, "mm", f"{label}, width", how="As typed.", kind=made_from)
        book.add(f"{key}.length", use.length_mm, "mm", f"{label}, length", how="As typed.", kind=made_from)
        for word, count, how in (
            ("have", use.have, "As typed into the builder's file."),
            ("used", use.used + use.buy, "For both panels together."),
            ("buy", use.buy, "What both panels need beyond the planks in the builder's file."),
            ("left", use.have - use.used, "Planks that need not be opened."),
        ):
            book.add(f"{key}.{word}", count, "", f"{label}, {word}", how=how, kind=made_from)
        sizes.append(
            {
                "n": n,
                "key": key,
                "have": bool(use.have),
                "used": bool(use.used + use.buy),
                "buy": bool(use.buy),
                "left": use.have > use.used,
            }
        )
    book.rows["panel_sizes"] = tuple(sizes)
    offcuts = []
    for n, cut in enumerate((one for one in plan.offcuts if one.length_mm >= SHORT_MM), 1):
        key, label = f"panel.offcut.{n}", f"offcuts of kind {n}"
        how = "What is left of planks that pieces are cut from, and ends that stick out past the panels."
        book.add(f"{key}.width", cut.width_mm, "mm", f"{label}, width", how=how, kind=made_from)
        book.add(f"{key}.length", cut.length_mm, "mm", f"{label}, length", how=how, kind=made_from)
        book.add(f"{key}.count", cut.count, "", f"{label}, how many", how=how, kind=made_from)
        size = "long" if cut.length_mm >= LONG_MM else "middle" if cut.length_mm >= MIDDLE_MM else "short"
        offcuts.append({"n": n, "key": key, "size": size})
    book.rows["offcuts"] = tuple(offcuts)


def _add_totals(book: FigureBook, plan: PlankPlan, made_from: list[Kind]) -> None:
    book.add(
        "panel.planks_both",
        plan.planks,
        "",
        "planks for both panels",
        how="Rows of whole planks, and pieces cut from further planks, with the least wood opened.",
        kind=made_from,
    )
    book.add(
        "panel.buy",
        plan.buy,
        "",
        "planks to buy for both panels",
        how="What both panels need beyond the planks in the builder's file, as few as will do.",
        kind=made_from,
    )
    lines = sum(layout.glue_lines for layout in plan.panels)
    book.add(
        "panel.glue_lines_both", lines, "", "glue lines along both panels", how="Both panels together.", kind=made_from
    )
    book.add(
        "panel.glue_length_both",
        lines * plan.need_length_mm,
        "mm",
        "glue lines of both panels, together",
        how="Their number times the length that a panel needs.",
        kind=made_from,
        step=10,
    )
    book.add(
        "panel.waste",
        plan.waste_mm2 / 1e6,
        "m2",
        "wood opened beyond what two panels need",
        how="Area of the planks used, less length times width needed, twice. No other choice of rows leaves less.",
        kind=made_from,
        step=0.01,
    )
    book.add(
        "panel.waste_share",
        100 * plan.waste_mm2 / plan.opened_mm2,
        "%",
        "share of the opened planks that is left over",
        how="Before the panels are cut to their outline.",
        kind=made_from,
    )
