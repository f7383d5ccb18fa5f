"""What must fit together in a board's blocks, fittings and rails."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from generator.inputs.blame import Blame, run_checks
from generator.inputs.board import BLOCK_WORDS
from generator.inputs.fault import Fault
from generator.inputs.words import Loc

ROUND_A_HOLE_MM = 10.0
NEEDED = ("leash plug", "fin", "vent")


def fitting_faults(board: Any, blame: Blame) -> list[Fault]:
    """All faults between the blocks, the fittings and the ribs of one board."""
    checks: list[Callable[..., Iterator[Fault]]] = [
        _rail_layers, _blocks_once, _blocks_there, _blocks_along, _between_ribs, _fin,
        *(partial(_plug, name=name) for name in ("leash_plug", "vent")),
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
    half = board.ribs.thickness_mm / 2
    for at, block in enumerate(board.blocks):
        end_mm = block.from_tail_mm + block.length_mm
        for rib_mm in board.ribs.from_tail_mm:
            if block.from_tail_mm < rib_mm + half and end_mm > rib_mm - half:
                found = f"running through the rib at {rib_mm:g} mm"
                allowed = f"between two ribs ({block.length_mm:g} mm long, ribs {2 * half:g} mm thick)"
                nearest = f"{rib_mm + half:g} mm" if rib_mm < end_mm else f"{rib_mm - half - block.length_mm:g} mm"
                yield blame.fault(("blocks", at, "from_tail"), found, allowed, nearest)
                break


def _fin(board: Any, blame: Blame) -> Iterator[Fault]:
    fin, block = board.fittings.fin, _block(board, "fin")
    if block is not None:
        low = block.from_tail_mm + ROUND_A_HOLE_MM
        high = block.from_tail_mm + block.length_mm - fin.base_mm - ROUND_A_HOLE_MM
        loc, why = ("fittings", "fin", "from_tail"), f"the fin's block reaches {ROUND_A_HOLE_MM:g} mm past its base"
        if high >= low:
            yield from blame.within(loc, "length", fin.from_tail_mm, low=low, high=high, why=why)
        else:
            most = block.length_mm - 2 * ROUND_A_HOLE_MM
            yield from blame.within(("fittings", "fin", "base"), "length", fin.base_mm, high=most, why=why)


def _plug(board: Any, blame: Blame, *, name: str) -> Iterator[Fault]:
    """Wood all round a hole."""
    plug, block = getattr(board.fittings, name), _block(board, name.replace("_", " "))
    if block is None:
        return
    reach = plug.hole_mm / 2 + ROUND_A_HOLE_MM
    why = f"its block has {ROUND_A_HOLE_MM:g} mm of wood round the hole"
    sides = (
        ("from_tail", plug.from_tail_mm, block.from_tail_mm + block.length_mm / 2, block.length_mm / 2 - reach),
        ("from_centre", plug.from_centre_mm, block.from_centre_mm, block.width_mm / 2 - reach),
    )
    for key, value, middle, play in sides:
        if play < 0:
            found = f"a hole of {plug.hole_mm:g} mm in a block {block.length_mm:g} × {block.width_mm:g} mm"
            most = min(block.length_mm, block.width_mm) - 2 * ROUND_A_HOLE_MM
            yield blame.fault(("fittings", name, "hole"), found, f"at most {most:g} mm ({why})", f"{most:g} mm")
            return
        loc: Loc = ("fittings", name, key)
        yield from blame.within(loc, "length", value, low=middle - play, high=middle + play, why=why)


def _block(board: Any, holds: str) -> Any:
    return next((block for block in board.blocks if block.holds == holds), None)
