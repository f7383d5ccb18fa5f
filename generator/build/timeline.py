"""Works laid into the times that a builder has: every cure kept, nothing cut in two that must not be."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from generator.build.free_time import FreeTime, Slot

LEAST_PIECE_MIN = 30.0
"""Work that may be broken off is not begun for less than this, where evenings are longer (assumed)."""
HORIZON = dt.timedelta(days=56)
"""How long a work that can't be broken off waits for a day that is long enough (assumed)."""
PATIENCE = dt.timedelta(days=8)
"""How long a work is put off so that the next one comes before a face or a coat is too old (assumed)."""
NEARLY_MIN = 0.01


@dataclass(frozen=True, slots=True)
class Work:
    """Something done in one go, and the wait before the next may begin.

    `name` is its own, `slug` the stage it belongs to. `unbroken` work is never cut in two. `fresh_since` names the
    work after whose end this one must begin within `fresh_min`. `table` says that it takes the table, until its wait
    is over, and `stays` that the table is taken until the next work begins. `daylight` asks for a whole day.
    """

    slug: str
    name: str
    hands_on_min: float
    wait_min: float = 0.0
    waits_for: str = ""
    unbroken: bool = False
    fresh_since: str = ""
    fresh_min: float = 0.0
    people: int = 1
    table: bool = False
    stays: bool = False
    daylight: bool = False


@dataclass(frozen=True, slots=True)
class Sitting:
    """One work, or a part of it, in one stretch of free time.

    `late_start` says that a wait ends within that time and the work begins only then, `overruns` that it runs past
    that time, `stale` that what should still be fresh is too old (or nobody knows its age), and `last` that the work
    is finished with it.
    """

    work: Work
    begins: dt.datetime
    ends: dt.datetime
    late_start: bool
    whole_day: bool
    overruns: bool
    stale: bool
    last: bool

    @property
    def minutes(self) -> float:
        return (self.ends - self.begins).total_seconds() / 60

    @property
    def over(self) -> dt.datetime:
        """When the wait after it has run out."""
        return self.ends + dt.timedelta(minutes=self.work.wait_min if self.last else 0.0)


@dataclass(slots=True)
class _Slots:
    """The free times by number, made as far as they are asked for."""

    coming: Iterator[Slot]
    known: list[Slot] = field(default_factory=list)

    def __getitem__(self, at: int) -> Slot:
        while len(self.known) <= at:
            self.known.append(next(self.coming))
        return self.known[at]


@dataclass(frozen=True, slots=True)
class _State:
    """Where the plan stands: the slot in use, the moment from which work may go on, and when each work ended."""

    at: int
    ready: dt.datetime
    ended: Mapping[str, dt.datetime]


def lay_out(works: Sequence[Work], *, free: FreeTime, start: dt.date) -> tuple[Sitting, ...]:
    """Which work falls into which free time.

    Works keep their order. A wait runs by the clock from the end of the work, nights included. Work that can't be
    broken off waits, up to eight weeks, for a time that is long enough; if there is none, it takes the longest and
    `overruns` says so. A work whose successor must come soon after it is put off by up to eight days for that.

    Args:
        works: In order, each with hands-on time above 0 and a name of its own.
        start: First day that may be used.

    Raises:
        ValueError: a name stands twice, or a hands-on time is not above 0, or a wait is below 0.
    """
    if len({work.name for work in works}) < len(works):
        raise ValueError("every work needs a name of its own")
    if not all(work.hands_on_min > 0 and work.wait_min >= 0 for work in works):
        raise ValueError("hands-on times must be above 0, waits 0 or more")
    slots = _Slots(free.slots(start))
    least = min(LEAST_PIECE_MIN, free.evening_min)
    laid: list[Sitting] = []
    state = _State(0, slots[0].opens, {})
    for chain in _chains(works):
        sittings, state = _lay_chain(chain, slots, state, least)
        laid += sittings
    return tuple(laid)


def _chains(works: Sequence[Work]) -> Iterator[tuple[Work, ...]]:
    """Works that must follow soon upon the one before stand in one chain with it."""
    chain: list[Work] = []
    for work in works:
        if chain and work.fresh_since != chain[-1].name:
            yield tuple(chain)
            chain = []
        chain.append(work)
    if chain:
        yield tuple(chain)


def _lay_chain(chain: Sequence[Work], slots: _Slots, state: _State, least: float) -> tuple[list[Sitting], _State]:
    """The chain laid from the first slot on that keeps all of it fresh, or from the very first."""
    if len(chain) == 1:
        return _lay_all(chain, slots, state, least)
    soonest = _lay_all(chain, slots, state, least)
    at, latest = state.at, state.ready + PATIENCE
    tried = soonest
    while _follower_stale(tried[0]) and slots[at + 1].opens <= latest:
        at += 1
        later = _State(at, max(state.ready, slots[at].opens), state.ended)
        tried = _lay_all(chain, slots, later, least)
    return soonest if _follower_stale(tried[0]) else tried


def _follower_stale(laid: Sequence[Sitting]) -> bool:
    """Whether a work after the first comes too late; when the first itself comes lies behind it."""
    return any(sitting.stale for sitting in laid if sitting.work is not laid[0].work)


def _lay_all(works: Sequence[Work], slots: _Slots, state: _State, least: float) -> tuple[list[Sitting], _State]:
    laid: list[Sitting] = []
    for work in works:
        sittings, state = _lay_one(work, slots, state, least)
        laid += sittings
    return laid, state


def _lay_one(work: Work, slots: _Slots, state: _State, least: float) -> tuple[list[Sitting], _State]:
    at, ready, remaining = state.at, state.ready, work.hands_on_min
    if work.unbroken:
        at = _room_for(work, slots, state)
    laid: list[Sitting] = []
    while remaining > NEARLY_MIN:
        slot = slots[at]
        left = _left_min(slot, ready)
        if left <= NEARLY_MIN or (not work.unbroken and left < min(remaining, least) - NEARLY_MIN):
            at += 1
            continue
        part = remaining if work.unbroken else min(remaining, left)
        begins = max(slot.opens, ready)
        ends = begins + dt.timedelta(minutes=part)
        remaining -= part
        laid.append(
            Sitting(
                work,
                begins,
                ends,
                late_start=begins > slot.opens and (not state.ended or begins > max(state.ended.values())),
                whole_day=slot.whole_day,
                overruns=part > left + NEARLY_MIN,
                stale=not laid and _too_old(work, begins, state.ended),
                last=remaining <= NEARLY_MIN,
            )
        )
        ready = ends
    return laid, _State(at, laid[-1].over, {**state.ended, work.name: ready})


def _left_min(slot: Slot, ready: dt.datetime) -> float:
    return (slot.ends - max(slot.opens, ready)).total_seconds() / 60


def _too_old(work: Work, begins: dt.datetime, ended: Mapping[str, dt.datetime]) -> bool:
    """Whether the work comes too late after the one that it should follow soon, or that one was never dated."""
    if not work.fresh_since:
        return False
    since = ended.get(work.fresh_since)
    return since is None or begins - since > dt.timedelta(minutes=work.fresh_min)


def _room_for(work: Work, slots: _Slots, state: _State) -> int:
    """The first slot that holds the whole work; where none does within the horizon, the first of the longest.

    Work that asks for daylight takes the first whole day that holds it, if there is one within the horizon.
    """
    at, dark, best, most = state.at, -1, -1, 0.0
    while best < 0 or slots[at].opens <= state.ready + HORIZON:
        left = _left_min(slots[at], state.ready)
        if left >= work.hands_on_min - NEARLY_MIN:
            if slots[at].whole_day or not work.daylight:
                return at
            dark = at if dark < 0 else dark
        if left > most + NEARLY_MIN:
            best, most = at, left
        at += 1
    return best if dark < 0 else dark


def table_days(sittings: Sequence[Sitting]) -> frozenset[dt.date]:
    """The days on which the table can't be used for anything else."""
    days: set[dt.date] = set()
    for n, sitting in enumerate(sittings):
        if sitting.work.table:
            following = sittings[n + 1].begins if n + 1 < len(sittings) else sitting.over
            holds = sitting.work.stays or not sitting.last
            until = max(sitting.over, following) if holds else sitting.over
            whole = (until.date() - sitting.begins.date()).days
            days |= {sitting.begins.date() + dt.timedelta(days=more) for more in range(whole + 1)}
    return frozenset(days)
