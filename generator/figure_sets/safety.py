"""Figures of exposure to the builder's own tools: noise at the ear, vibration in the hand."""

from __future__ import annotations

from collections.abc import Sequence

from generator.figure_sets.facts import TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.inputs.builder import Builder, Plate
from generator.safety import noise, vibration
from generator.safety.noise import Exposure
from generator.safety.vibration import Hold

HELD_AND_POWERED = ("jigsaw", "random orbit sander")
"""Tools of the household table that shake in the hand and need ear protection."""
DAY_MIN = 1440.0
OWN_PLATE = "As stated on your tool or in its booklet."
DIRECTIVE_NOISE = "Directive 2003/10/EC, article 3"
DIRECTIVE_VIBRATION = "Directive 2002/44/EC, article 3"
HSE_POINTS = "HSE hand-arm vibration ready-reckoner"
DOSE = "NIOSH 98-126 (1998), section 1.1"
FROM_PLATE = (Kind.LABEL, Kind.PUBLISHED)
FROM_PLAN = (Kind.LABEL, Kind.PUBLISHED, Kind.MEASURED)


def add_exposure(book: FigureBook, facts: Facts) -> None:
    """Noise and vibration of each tool with a plate, of the whole day, and what is still to be asked for."""
    builder = facts.inputs.builder
    _add_limits(book)
    for n, plate in enumerate(builder.plates, 1):
        _add_use(book, n, plate)
        _add_noise(book, n, plate)
        _add_vibration(book, n, plate)
    _add_noise_of_the_day(book, builder.plates)
    _add_vibration_of_the_day(book, builder.plates)
    book.rows["plates"] = tuple(_row(n, plate) for n, plate in enumerate(builder.plates, 1))
    book.rows["plates_missing"] = _missing(builder)


def _add_limits(book: FigureBook) -> None:
    """What the law and the health services call too much, as the sums here use it."""
    for key, value, unit, label, how, source in (
        ("noise.action_lower", noise.LOWER_ACTION.level_dba, "dB(A)", "noise at the lower action value",
         "Averaged over 8 hours. From here on an employer in the EU or the UK must offer ear protection.",
         DIRECTIVE_NOISE),
        ("noise.action_upper", noise.UPPER_ACTION.level_dba, "dB(A)", "noise at the upper action value",
         "Averaged over 8 hours. From here on ear protection must be worn at work. It is also NIOSH's limit.",
         DIRECTIVE_NOISE),
        ("noise.limit_at_ear", noise.LIMIT_AT_EAR.level_dba, "dB(A)", "greatest noise that may reach the ear",
         "Averaged over 8 hours, under the ear protection.", DIRECTIVE_NOISE),
        ("noise.never", noise.NO_LONGER_DBA, "dB(A)", "noise that is too much for any time",
         "No steady noise above this, however short.", f"{DOSE}.4"),
        ("noise.day", noise.DAY_MIN, "min", "working day that the limits are averaged over",
         "Shorter and longer days are reckoned over into it.", f"{DOSE}.1; {DIRECTIVE_NOISE}"),
        ("noise.halves", noise.NIOSH.exchange_db, "dB", "how much louder halves the time",
         "Twice the energy in half the time is the same dose.", f"{DOSE}.1"),
        ("vibration.action", vibration.ACTION_M_S2, "m/s2", "vibration at the action value",
         "Averaged over 8 hours. From here on an employer must do something about it.", DIRECTIVE_VIBRATION),
        ("vibration.limit", vibration.LIMIT_M_S2, "m/s2", "vibration at the limit",
         "Averaged over 8 hours. No more than this on any day.", DIRECTIVE_VIBRATION),
        ("vibration.points_action", vibration.ACTION_POINTS, "points", "points at the action value",
         "The same as the action value, counted in points.", HSE_POINTS),
        ("vibration.points_limit", vibration.LIMIT_POINTS, "points", "points at the limit",
         "The same as the limit, counted in points.", HSE_POINTS),
    ):  # fmt: skip
        book.add(key, value, unit, label, how=how, kind=Kind.PUBLISHED, source=source, step=0.5)
    for key, value, unit, label in (
        ("noise.plate_unsure", noise.PLATE_UNSURE_DB, "dB", "uncertainty of a stated noise"),
        ("vibration.plate_unsure", vibration.PLATE_UNSURE_M_S2, "m/s2", "uncertainty of a stated vibration"),
    ):
        how = "What booklets commonly state as K. Ranges on this page count it in; your own booklet may say more."
        book.add(key, value, unit, label, how=how, kind=Kind.COMMON_PRACTICE, source="common practice", step=0.5)


def _add_use(book: FigureBook, n: int, plate: Plate) -> None:
    book.add(
        f"noise.{n}.use", plate.use_min, "min", f"{plate.tool}, running on your longest day",
        how=TYPED_BUILDER, kind=Kind.MEASURED,
    )  # fmt: skip


def _add_noise(book: FigureBook, n: int, plate: Plate) -> None:
    level, unsure = plate.noise_dba, noise.PLATE_UNSURE_DB
    if level is None:
        return
    key, tool = f"noise.{n}", plate.tool
    book.add(
        f"{key}.level", level, "dB(A)", f"{tool}, noise at the ear",
        how=f"{OWN_PLATE} The upper end counts in the uncertainty that booklets commonly state.",
        kind=Kind.LABEL, high=level + unsure, step=0.5,
    )  # fmt: skip
    for name, criterion, said in (
        ("time_lower", noise.LOWER_ACTION, "the lower action value"),
        ("time_upper", noise.NIOSH, "NIOSH's limit and the upper action value"),
    ):
        minutes = [
            min(DAY_MIN, noise.allowed_min(level_dba=dba, criterion=criterion)) for dba in (level, level + unsure)
        ]
        book.add(
            f"{key}.{name}", minutes[0], "min", f"{tool}, time in a day until {said}",
            how="480 min, halved for every 3 dB above the level that is allowed for 8 hours. At most a day. Bare ears, "
            "and no other noise that day.",
            kind=FROM_PLATE, source=f"{DOSE}; {DIRECTIVE_NOISE}", low=minutes[1], step=1 if minutes[1] >= 5 else 0.1,
        )  # fmt: skip
    doses = [noise.dose_pct([Exposure(dba, plate.use_min)], criterion=noise.NIOSH) for dba in (level, level + unsure)]
    book.add(
        f"{key}.dose", doses[0], "%", f"{tool}, share of a day's noise",
        how="Your time with it over the time that is allowed.", kind=FROM_PLAN, source=f"{DOSE}.3", high=doses[1],
    )  # fmt: skip


def _add_vibration(book: FigureBook, n: int, plate: Plate) -> None:
    stated, unsure = plate.vibration_m_s2, vibration.PLATE_UNSURE_M_S2
    if stated is None:
        return
    key, tool, ends = f"vibration.{n}", plate.tool, (stated, stated + unsure)
    book.add(
        f"{key}.level", stated, "m/s2", f"{tool}, vibration at the handle",
        how=f"{OWN_PLATE} The upper end counts in the uncertainty that booklets commonly state.",
        kind=Kind.LABEL, high=ends[1], step=0.1,
    )  # fmt: skip
    hourly = [vibration.points(Hold(a, 60)) for a in ends]
    book.add(
        f"{key}.hour", hourly[0], "points", f"{tool}, points in an hour",
        how="Twice the square of the vibration.", kind=FROM_PLATE, source=HSE_POINTS, high=hourly[1],
    )  # fmt: skip
    used = [vibration.points(Hold(a, plate.use_min)) for a in ends]
    book.add(
        f"{key}.points", used[0], "points", f"{tool}, points on your longest day",
        how="Points in an hour times the hours that it runs.", kind=FROM_PLAN, source=HSE_POINTS, high=used[1],
    )  # fmt: skip
    for name, wanted, said in (
        ("time_action", vibration.ACTION_POINTS, "the action value"),
        ("time_limit", vibration.LIMIT_POINTS, "the limit"),
    ):
        minutes = [min(DAY_MIN, vibration.minutes_to(wanted, acceleration_m_s2=a)) for a in ends]
        book.add(
            f"{key}.{name}", minutes[0], "min", f"{tool}, running time in a day until {said}",
            how="The points that are allowed over the points in an hour. At most a day, with no other tool that day.",
            kind=FROM_PLATE, source=f"{HSE_POINTS}; {DIRECTIVE_VIBRATION}", low=minutes[1],
        )  # fmt: skip


def _add_noise_of_the_day(book: FigureBook, plates: Sequence[Plate]) -> None:
    """All tools with a stated noise on one day, and the ear protection that the loudest asks for."""
    loud = [(p.noise_dba, p.use_min) for p in plates if p.noise_dba is not None]
    book.said |= {"noise.verdict": "unknown", "noise.too_loud": False, "noise.loudest_needs": False}
    if not loud:
        return
    unsure = noise.PLATE_UNSURE_DB
    doses = [
        noise.dose_pct([Exposure(dba + more, minutes) for dba, minutes in loud], criterion=noise.NIOSH)
        for more in (0.0, unsure)
    ]
    book.add(
        "noise.dose", doses[0], "%", "share of a day's noise, all tools",
        how="The shares of all tools with a stated noise, added as if all ran on the same day. Bare ears.",
        kind=FROM_PLAN, source=f"{DOSE}.3", high=doses[1],
    )  # fmt: skip
    averages = [noise.average_dba(dose, criterion=noise.NIOSH) for dose in doses]
    book.add(
        "noise.average", averages[0], "dB(A)", "your longest day as a steady noise over 8 hours",
        how="The steady noise that would use the same share.", kind=FROM_PLAN, source=f"{DOSE}; {DIRECTIVE_NOISE}",
        high=averages[1],
    )  # fmt: skip
    lower, upper = noise.LOWER_ACTION.level_dba, noise.UPPER_ACTION.level_dba
    worst = averages[1]
    book.said["noise.verdict"] = "below" if worst < lower else "between" if worst < upper else "above"
    loudest = max(dba for dba, _ in loud) + unsure
    book.said["noise.too_loud"] = loudest > noise.NO_LONGER_DBA
    book.said["noise.loudest_needs"] = loudest > lower
    for name, rating, mark in (
        ("snr", noise.rating_needed_db, "SNR"),
        ("nrr", noise.american_rating_needed_db, "NRR"),
    ):
        book.add(
            f"noise.{name}", rating(level_dba=loudest, wanted_dba=lower), "dB", f"least {mark} on the packet",
            how="Brings your loudest tool, its uncertainty counted in, down to the lower action value. On real heads "
            f"protection is worse than in the laboratory: {_shortfall(mark)}.",
            kind=[*FROM_PLATE, Kind.COMMON_PRACTICE], source=_RATING_SOURCES[mark],
        )  # fmt: skip


_RATING_SOURCES = {
    "SNR": "ISO 4869-2, SNR method (from memory); HSE real-world factor of 4 dB, as quoted",
    "NRR": "29 CFR 1910.95, appendix B, with OSHA's safety factor of a half (from memory)",
}


def _shortfall(mark: str) -> str:
    return "4 dB are taken off" if mark == "SNR" else "7 dB and then half of the rest are taken off"


def _add_vibration_of_the_day(book: FigureBook, plates: Sequence[Plate]) -> None:
    shaking = [(p.vibration_m_s2, p.use_min) for p in plates if p.vibration_m_s2 is not None]
    book.said["vibration.verdict"] = "unknown"
    if not shaking:
        return
    days = [[Hold(a + more, minutes) for a, minutes in shaking] for more in (0.0, vibration.PLATE_UNSURE_M_S2)]
    totals = [vibration.points_of(day) for day in days]
    book.add(
        "vibration.points", totals[0], "points", "points on your longest day, all tools",
        how="The points of all tools with a stated vibration, added as if all ran on the same day.",
        kind=FROM_PLAN, source=HSE_POINTS, high=totals[1],
    )  # fmt: skip
    averages = [vibration.day_average_m_s2(day) for day in days]
    book.add(
        "vibration.average", averages[0], "m/s2", "your longest day as a steady vibration over 8 hours",
        how="The steady vibration that would give the same points.", kind=FROM_PLAN, source="ISO 5349-1:2001",
        high=averages[1], step=0.1,
    )  # fmt: skip
    limits = (vibration.ACTION_POINTS, vibration.LIMIT_POINTS)
    book.said["vibration.verdict"] = ("below", "between", "above")[sum(totals[1] >= limit for limit in limits)]


def _row(n: int, plate: Plate) -> dict[str, object]:
    """One tool as the page tells it; `long_…` where the time is a whole day even with the uncertainty counted in."""
    level, unsure = plate.noise_dba, noise.PLATE_UNSURE_DB
    times = {
        name: level is not None and noise.allowed_min(level_dba=level + unsure, criterion=criterion) >= DAY_MIN
        for name, criterion in (("long_lower", noise.LOWER_ACTION), ("long_upper", noise.NIOSH))
    }
    return {
        "n": n,
        "name": plate.tool,
        "noise_key": f"noise.{n}",
        "vibration_key": f"vibration.{n}",
        "noise": level is not None,
        "vibration": plate.vibration_m_s2 is not None,
        "too_loud": level is not None and level + unsure > noise.NO_LONGER_DBA,
        **times,
    }


def _missing(builder: Builder) -> tuple[dict[str, object], ...]:
    """Powered tools in the builder's list for which a value is still wanted."""
    plates = {plate.tool: plate for plate in builder.plates}
    rows = []
    for tool in builder.tools:
        plate = plates.get(tool)
        if tool not in HELD_AND_POWERED and plate is None:
            continue
        noise_given = plate is not None and plate.noise_dba is not None
        vibration_given = plate is not None and plate.vibration_m_s2 is not None
        if not (noise_given and vibration_given):
            rows.append(
                {"name": tool, "noise": not noise_given, "vibration": not vibration_given, "use": plate is None}
            )
    return tuple(rows)
