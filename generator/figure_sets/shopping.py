"""What to buy, to check, to borrow and to ask for, by when: read off the figures of all the other parts."""

from __future__ import annotations

from collections.abc import Iterator

from generator.build.shopping import Need, dusty_sittings, glove_pairs, parting_sheet_mm2, still_ahead
from generator.build.timeline import Work
from generator.build.works import GOES, works
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook, Kind

STAGES = tuple(GOES)
PRACTICE = Kind.COMMON_PRACTICE
NO_STAND_IN = frozenset({"dust mask", "safety glasses", "gloves"})
"""Tools that are bought if they are not there, and so stand in the list of what to buy."""
LABEL_WORDS = {
    "bottle": "the size of the bottle",
    "spread rate": "the spread rate, in grams for a square metre",
    "density": "the density, how heavy a litre is",
}
PAPER = (
    ("practice.key_grit", "panels", "top-deck", "For keying and for the first sanding."),
    ("practice.fair_grit", "frame", "shaping", "For fairing."),
    ("practice.sand_fine", "shaping", "shaping", "For the last strokes of shaping."),
    ("practice.seal_grit", "seal", "seal", "For the bare wood, right before the finish."),
    ("practice.coat_grit", "seal", "seal", "Between coats."),
)


def add_shopping(book: FigureBook, facts: Facts) -> None:
    """Called last: everything here is counted from what the other parts told."""
    _add_counts(book, facts)
    dates = {row["stage"]: row.get("first", "") for row in book.rows["plan"]}
    at = facts.inputs.builder.stage
    lists = (
        ("shop_buy", _to_buy(book, facts)),
        ("shop_borrow", _to_borrow(book)),
        ("shop_check", _to_check(book, facts)),
    )
    for name, needs in lists:
        book.rows[name] = tuple(
            {"stage": slug, "when": dates[slug], "items": tuple(map(_told, members))}
            for slug, members in still_ahead(needs, stages=STAGES, at=at)
        )
    book.rows["shop_ask"] = tuple(
        {"what": _capital(what), "where": where, "why": why} for what, where, why in _to_ask(book, facts)
    )
    book.rows["shop_tools"] = tuple(
        {**tool, "name": _capital(str(tool["name"])), "when": dates[tool["stage"]]}
        for tool in sorted(book.rows["tools"], key=lambda tool: STAGES.index(tool["stage"]))
        if tool["needed"] and tool["name"] not in NO_STAND_IN
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _told(need: Need) -> dict[str, str]:
    name = _capital(need.name)
    return {"name": name, "amount": need.amount, "unit": need.unit, "size": need.size, "why": need.why}


def _ahead(facts: Facts) -> list[Work]:
    at = STAGES.index(facts.inputs.builder.stage)
    return [work for work in works(facts.build) if STAGES.index(work.slug) >= at]


def _add_counts(book: FigureBook, facts: Facts) -> None:
    blank = facts.body.blank
    book.add(
        "shop.parting_sheet",
        parting_sheet_mm2(blank_length_mm=blank.length_mm, blank_width_mm=blank.width_mm) / 1e6,
        "m2",
        "parting sheet to have",
        how="One sheet under a panel and one on it. It serves again for the frame and the bench.",
        kind=[Kind.MAKER, PRACTICE],
        step=0.1,
    )
    for key, count, label, how in (
        ("gloves", glove_pairs(_ahead(facts)), "pairs of gloves", "A pair for each person in every work with glue."),
        ("masks", dusty_sittings(facts.evenings), "disposable masks", "One for every time that you cut or sand."),
        ("people", 1 + max(1, facts.inputs.builder.helpers), "people at the bench", "You and your helpers."),
    ):
        book.add(f"shop.{key}", count, "", label, how=how, kind=[PRACTICE, Kind.MEASURED])
    _add_missing(book)


def _add_missing(book: FigureBook) -> None:
    """Weights and clamps serve again and again, so the greatest lack of all is the one that counts."""
    bench = ("bench.short_weight",) if _bench_lacks(book, "weight") else ()
    for key, sources, unit, label, step in (
        ("weights", ("panel.press.short", "press.short", *bench), "kg", "weights that are missing", 0.5),
        ("clamp_pairs", ("clamp.borrow_one", "top.pairs_missing"), "", "pairs of clamps that are missing", 1.0),
    ):
        found = [book.values[one] for one in sources if one in book.values]
        book.add(
            f"shop.{key}",
            max((figure.value for figure in found), default=0.0),
            unit,
            label,
            how="The greatest lack of any stage. The same ones serve for all.",
            kind=[figure.kind for figure in found] or PRACTICE,
            step=step,
        )


def _bench_lacks(book: FigureBook, what: str) -> bool:
    """Whether it is this, and nothing else, that keeps the bench from the rocker."""
    return not book.said["reached"] and bool(book.said["cure"] == what)


def _has(book: FigureBook, key: str) -> bool:
    return key in book.values and book.values[key].value > 0


def _to_buy(book: FigureBook, facts: Facts) -> Iterator[Need]:
    maker = facts.inputs.maker.name
    yield from _glue(book, facts)
    sheet = "Baking paper or plastic film. Glue lets go of it."
    yield Need("ready", "Parting sheet", "shop.parting_sheet", why=sheet, until="rails")
    yield Need("ready", "Masking tape", why="For holding, marking and keeping glue off.", until="seal")
    yield Need("ready", "Rags, and a bin with a lid", until="seal")
    yield from _worn(facts)
    for size in book.rows["panel_sizes"]:
        if size["buy"]:
            key = size["key"]
            yield Need("panels", "Planks", f"{key}.buy", "plank", key, "Dry, straight and without knots.")
    for key, stage, until, why in PAPER:
        if key in book.values:
            yield Need(stage, "Abrasive paper", size=key, why=why, until=until)
    if book.said.get("foam.needed") and not book.said.get("foam.have"):
        yield Need("inside", "Foam board", why=f"Ask {maker} which kind and thickness first.")
    for block in book.rows.get("blocks", ()):
        yield Need("inside", f"Wood for the {block['name']}", unit="block", size=block["key"])
    yield Need("inside", "A sealer for the inside", why=f"Ask {maker} which one: glue and foam must stand it.")
    if _has(book, "rail.pieces"):
        why = "Ask which of them are in your kit."
        yield Need("rails", "Strips for the rails", "rail.pieces", "piece", "rail.layer_thickness", why)
    elif "rail.pieces" in book.values:
        yield Need("rails", "Wood for the rails", why=f"No plank of yours is wide and long enough. Ask {maker}.")
    yield Need("fin", "Fin with its box, leash plug and vent", why="Look whether they came with the kit.")
    yield from _finish(book, facts)
    yield Need("water", "A leash and wax", why="For the first swim.")


def _worn(facts: Facts) -> Iterator[Need]:
    """What is worn and used up; who has some still counts whether it is enough."""
    have = facts.inputs.builder.tools
    gloves = "You have some: count them." if "gloves" in have else "Of the kind that the glue's label names."
    yield Need("ready", "Gloves", "shop.gloves", "pair", why=gloves, until="seal")
    if "dust mask" not in have:
        yield Need("ready", "Dust masks", "shop.masks", "piece", why="Of the class on the dust caution.", until="seal")
    if "safety glasses" not in have:
        yield Need("ready", "Safety glasses", "shop.people", "pair", why="One for each of you.", until="seal")


def _glue(book: FigureBook, facts: Facts) -> Iterator[Need]:
    name = facts.inputs.builder.glue.name
    whole = "For the whole board. Take off what you have, and look at the date on it."
    if _has(book, "glue.bottles"):
        yield Need("ready", name, "glue.bottles", "bottle", "glue.bottle", whole, "fin")
    elif _has(book, "glue.volume"):
        yield Need("ready", name, "glue.volume", why=whole, until="fin")
    else:
        why = "How much can't be told yet: see what is to be asked first."
        yield Need("ready", name, why=why, until="fin")


def _finish(book: FigureBook, facts: Facts) -> Iterator[Need]:
    finish = facts.inputs.builder.finish
    if finish is not None and _has(book, "finish.cans"):
        yield Need("seal", finish.name, "finish.cans", "can", "finish.can", "For all coats. Look at the date on it.")
    else:
        why = f"Send its label to {facts.inputs.maker.name} before you open it."
        yield Need("seal", "Oil, varnish or resin", why=why)


def _to_borrow(book: FigureBook) -> Iterator[Need]:
    if _has(book, "shop.weights"):
        first = "panels" if _has(book, "panel.press.short") else "rocker" if _bench_lacks(book, "weight") else "glue"
        why = "Bags of sand or cans of water do as well."
        yield Need(first, "Loose weights", "shop.weights", why=why, until="top-deck")
    if _has(book, "shop.clamp_pairs"):
        yield Need("clamp", "Clamps", "shop.clamp_pairs", "pair", why="Two alike in each pair.", until="top-deck")
    if _bench_lacks(book, "piece"):
        for piece in book.rows["cure_pieces"]:
            key = piece["key"]
            yield Need("bench", "A thing of the right height", f"{key}.least", "height", f"{key}.most")
    if _has(book, "rail.holds"):
        why = "Strong tape and straps do. Clamps that you have count."
        yield Need("rails", "Something to hold the rails with", "rail.holds", "place", why=why)


def _to_check(book: FigureBook, facts: Facts) -> Iterator[Need]:
    """What the house has already, and how much of it is wanted."""
    foam = facts.inputs.builder.foam
    for size in book.rows["panel_sizes"]:
        if size["have"] and size["used"]:
            yield Need("panels", "Planks", f"{size['key']}.used", "plank", size["key"])
    if _has(book, "bench.weight_total"):
        yield Need("bench", "Loose weights", "bench.weight_total", until="top-deck")
    if foam is not None and _has(book, "foam.sheet"):
        yield Need("inside", foam.name, "foam.sheet", why="And some more for mistakes.")


def _to_ask(book: FigureBook, facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Values that only a label, a plate or the maker knows: what, where it stands, what it is needed for."""
    builder, sheet = facts.inputs.builder, "the glue's label or data sheet"
    missing = [LABEL_WORDS[word] for word in book.said.get("glue.missing", ())]
    if missing:
        yield f"of your glue: {'; '.join(missing)}", sheet, "how much glue to buy"
    if book.said["plan.beyond"] == "colder":
        yield "your glue's times at the lowest temperature of your nights", sheet, "how long the clamps stay on"
    if builder.finish is None:
        what = "of your oil, varnish or resin: coats, the area that a litre covers, times, lowest temperature"
        yield what, "the can", "how much to buy, and the dates of sealing and first swim"
    if builder.foam is None and book.said.get("foam.needed"):
        where = f"the shop, or {facts.inputs.maker.name}"
        yield "of a foam: its kind, thickness and density", where, "the blocks to cut for the inside"
    for row in book.rows.get("plates_missing", ()):
        words = " and ".join(word for word in ("noise", "vibration") if row[word])
        what = f"of your {row['name']}: {words or 'how long it runs on your longest day'}"
        yield what, "its plate or booklet", "how long you may use it in a day"
    if not builder.planks and builder.stage in {"ready", "panels"}:
        yield "of your planks: width, length and how many", "the stack itself", "which ones to buy"
