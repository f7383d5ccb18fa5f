"""What must fit together in a board's blocks, fittings and rails."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from itertools import pairwise
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.board import BLOCK_WORDS
from generator.inputs.fault import Fault
from generator.inputs.frame_width import frame_half_width_mm, nearest_room_mm
from generator.inputs.words import Loc

ROUND_A_HOLE_MM = 10.0
BESIDE_SPINE_MM = 5.0
LEAST_BASE_MM, LEAST_HOLE_MM = 40.0, 4.0
NEEDED = ("leash plug", "fin", "vent")


def fitting_faults(board: Any, blame: Blame) -> list[Fault]:
    """All faults between the blocks, the fittings and the ribs of one board."""
    checks: list[Callable[..., Iterator[Fault]]] = [
        _rail_layers, _blocks_once, _blocks_there, _blocks_along, _between_ribs, _beside_spine, _fin,
        *(partial(check, name=name) for check in (_plug, _plug_in_frame) for name in ("leash_plug", "vent")),
    ]  # fmt: skip
    return run_checks(partial(check, board, blame) for check in checks)


def _rail_layers(board: Any, blame: Blame) -> Iterator[Fault]:
    if board.rail_mm > 0:
        why = "the rail is built up from them"
        yield from blame.within(("rails", "layer"), "length", board.rails.layer_mm, high=board.rail_mm, why=why)


def _blocks_once(board: Any, blame: Blame) -> Iterator[Fault]:
    locs: list[Loc] = [("blocks", at, "holds") for at in range(len(board.blocks))]
    yield from blame.once(locs, [block.holds for block in board.blocks], "one block for each")


def _blocks_there(board: Any, blame: Blame) -> Iterator[Fault]:
    there = {block.holds for block in board.blocks}
    for name in NEEDED:
        if name not in there:
            nearest = f"adding a block with `holds: {name}`"
            yield blame.fault(("blocks",), f"without a block for the {name}", ", ".join(BLOCK_WORDS), nearest)


def _blocks_along(board: Any, blame: Blame) -> Iterator[Fault]:
    for at, block in enumerate(board.blocks):
        high, why = board.length_mm - block.length_mm, "the block ends within the board"
        yield from blame.within(("blocks", at, "from_tail"), "length", block.from_tail_mm, high=high, why=why)


def _between_ribs(board: Any, blame: Blame) -> Iterator[Fault]:
    """A block stands in one bay: no rib runs through it."""
    half, ribs = board.ribs.thickness_mm / 2, board.ribs.from_tail_mm
    bays = list(pairwise([-half, *ribs, board.length_mm + half]))
    for at, block in enumerate(board.blocks):
        start, length = block.from_tail_mm, block.length_mm
        through = [rib for rib in ribs if start < rib + half and start + length > rib - half]
        if not through or start + length > board.length_mm:
            continue
        found = f"running through the rib at {through[0]:g} mm"
        allowed = f"between two ribs ({length:g} mm long, ribs {2 * half:g} mm thick)"
        room = [(a + half, b - half - length) for a, b in bays if b - a - 2 * half >= length]
        if room:
            nearest = min((min(max(start, low), high) for low, high in room), key=lambda place: abs(place - start))
            yield blame.fault(("blocks", at, "from_tail"), found, allowed, f"{nearest:g} mm")
        else:
            most = max(b - a for a, b in bays) - 2 * half
            why = "the longest room between two ribs"
            yield from blame.within(("blocks", at, "length"), "length", length, high=most, why=why)


def _beside_spine(board: Any, blame: Blame) -> Iterator[Fault]:
    """A block that hides in the spine's thickness would be nothing; the fin stands on the spine, in its block."""
    for at, block in enumerate(board.blocks):
        least = board.spine.thickness_mm + 2 * (BESIDE_SPINE_MM - abs(block.from_centre_mm))
        why = f"it reaches {BESIDE_SPINE_MM:g} mm past the spine"
        yield from blame.within(("blocks", at, "width"), "length", block.width_mm, low=least, why=why)
        if block.holds == "fin":
            play = block.width_mm / 2 - ROUND_A_HOLE_MM
            loc, why = ("blocks", at, "from_centre"), "the fin stands on the centre line, in its block"
            yield from blame.within(loc, "length", block.from_centre_mm, low=-play, high=play, why=why)


def _fin(board: Any, blame: Blame) -> Iterator[Fault]:
    fin, block = board.fittings.fin, _block(board, "fin")
    if block is not None:
        low = block.from_tail_mm + ROUND_A_HOLE_MM
        high = block.from_tail_mm + block.length_mm - fin.base_mm - ROUND_A_HOLE_MM
        loc, why = ("fittings", "fin", "from_tail"), f"the fin's block reaches {ROUND_A_HOLE_MM:g} mm past its base"
        if high >= low:
            yield from blame.within(loc, "length", fin.from_tail_mm, low=low, high=high, why=why)
        elif block.length_mm < LEAST_BASE_MM + 2 * ROUND_A_HOLE_MM:
            end_mm = max(fin.from_tail_mm, low) + fin.base_mm + ROUND_A_HOLE_MM
            least, at = end_mm - block.from_tail_mm, board.blocks.index(block)
            yield from blame.within(("blocks", at, "length"), "length", block.length_mm, low=least, why=why)
        else:
            most = block.length_mm - 2 * ROUND_A_HOLE_MM
            yield from blame.within(("fittings", "fin", "base"), "length", fin.base_mm, high=most, why=why)


def _plug(board: Any, blame: Blame, *, name: str) -> Iterator[Fault]:
    """Wood all round a hole."""
    plug, block = getattr(board.fittings, name), _block(board, name.replace("_", " "))
    if block is None:
        return
    reach = plug.hole_mm / 2 + ROUND_A_HOLE_MM
    loc: Loc
    why = f"its block has {ROUND_A_HOLE_MM:g} mm of wood round the hole"
    sides = (
        ("from_tail", plug.from_tail_mm, block.from_tail_mm + block.length_mm / 2, block.length_mm / 2 - reach),
        ("from_centre", plug.from_centre_mm, block.from_centre_mm, block.width_mm / 2 - reach),
    )
    for key, value, middle, play in sides:
        if play < 0 and min(block.length_mm, block.width_mm) < LEAST_HOLE_MM + 2 * ROUND_A_HOLE_MM:
            side = "length" if key == "from_tail" else "width"
            off = value - block.from_tail_mm - reach if key == "from_tail" else abs(value - middle)
            least = 2 * reach + (max(off, 0.0) if key == "from_tail" else 2 * off)
            loc = ("blocks", board.blocks.index(block), side)
            yield from blame.within(loc, "length", getattr(block, f"{side}_mm"), low=least, why=why)
            return
        if play < 0:
            found = f"a hole of {plug.hole_mm:g} mm in a block {block.length_mm:g} × {block.width_mm:g} mm"
            most = min(block.length_mm, block.width_mm) - 2 * ROUND_A_HOLE_MM
            yield blame.fault(("fittings", name, "hole"), found, f"at most {most:g} mm ({why})", f"{most:g} mm")
            return
        loc = ("fittings", name, key)
        yield from blame.within(loc, "length", value, low=middle - play, high=middle + play, why=why)


def _plug_in_frame(board: Any, blame: Blame, *, name: str) -> Iterator[Fault]:
    """A block and the hole in it lie inside the edge strip; near the rim the widths typed do not tell, so only what
    lies well outside is refused.
    """
    plug = getattr(board.fittings, name)
    if plug.from_tail_mm > board.length_mm:
        return
    taken = board.edge_strip.thickness_mm + plug.hole_mm / 2 + ROUND_A_HOLE_MM
    play = frame_half_width_mm(board, plug.from_tail_mm) - taken
    why = f"the hole and {ROUND_A_HOLE_MM:g} mm of wood round it lie inside the edge strip"
    if play >= 0:
        loc: Loc = ("fittings", name, "from_centre")
        yield from blame.within(loc, "length", plug.from_centre_mm, low=-play, high=play, why=why)
        return
    room = nearest_room_mm(board, plug.from_tail_mm, taken)
    low, high = (room, None) if room > plug.from_tail_mm else (None, room)
    yield from blame.within(("fittings", name, "from_tail"), "length", plug.from_tail_mm, low=low, high=high, why=why)


def _block(board: Any, holds: str) -> Any:
    return next((block for block in board.blocks if block.holds == holds), None)
