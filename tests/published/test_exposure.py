"""Noise, hand-arm vibration, masks and airing against the documents that set or tabulate them.

NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure, 98-126 (1998), section 1.1, Tables 1-1 and 1-2.
29 CFR 1910.95 (OSHA), Table G-16, appendices A and B. Directives 2003/10/EC and 2002/44/EC, article 3.
HSE, hand-arm vibration exposure ready-reckoner. CDC, MMWR 43 (RR-13), 1994, Table S3-1.

Columns `…_formula` of data/noise_table.csv are the documents' own rules worked out by another hand, to four decimals;
columns `…_printed` hold what was seen in print, rounded there to the hour, the minute or the second.
"""

import csv
import math
from pathlib import Path

import pytest

from generator.safety.dust import left_pct
from generator.safety.noise import (
    LIMIT_AT_EAR,
    LOWER_ACTION,
    NIOSH,
    NO_LONGER_DBA,
    OSHA,
    UPPER_ACTION,
    Exposure,
    allowed_min,
    american_rating_needed_db,
    average_dba,
    dose_pct,
    rating_needed_db,
)
from generator.safety.vapour import cleared_min
from generator.safety.vibration import (
    ACTION_M_S2,
    ACTION_POINTS,
    LIMIT_M_S2,
    LIMIT_POINTS,
    Hold,
    day_average_m_s2,
    minutes_to,
    points,
    points_of,
)

TABLE = Path(__file__).parent / "data" / "noise_table.csv"


def rows():
    lines = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["level_dba"])
def test_every_row_of_the_noise_table_by_both_rules(row):
    """Half of the last decimal printed."""
    level = float(row["level_dba"])
    minutes = allowed_min(level_dba=level, criterion=NIOSH)
    hours = allowed_min(level_dba=level, criterion=OSHA) / 60
    assert minutes == pytest.approx(float(row["niosh_minutes_formula"]), abs=5.1e-5)
    assert hours == pytest.approx(float(row["osha_hours_formula"]), abs=5.1e-5)


PRINTED = [(float(row["level_dba"]), row["niosh_printed"]) for row in rows() if row["niosh_printed"]]


def in_minutes(printed: str) -> float:
    words = printed.split()
    per = {"h": 60.0, "min": 1.0, "s": 1 / 60}
    return sum(float(number) * per[unit] for number, unit in zip(words[::2], words[1::2], strict=True))


@pytest.mark.parametrize(("level", "printed"), PRINTED)
def test_the_printed_rows_of_niosh_table_1_1(level, printed):
    """80, 85, 88, 91, 94, 100 and 129 dBA; print is rounded to a minute, at 129 dBA to a second."""
    half = 0.5 / 60 if printed.endswith(" s") else 0.5
    assert allowed_min(level_dba=level, criterion=NIOSH) == pytest.approx(in_minutes(printed), abs=half)


def test_the_table_has_seven_printed_rows_and_ends_under_a_second():
    assert [level for level, _ in PRINTED] == [80, 85, 88, 91, 94, 100, 129]
    for level in range(130, 141):  # Table 1-1: 130-140 dBA, under 1 s
        assert allowed_min(level_dba=level, criterion=NIOSH) * 60 < 1
    assert NO_LONGER_DBA == 115  # section 1.1.4


@pytest.mark.parametrize(("level", "hours"), [(90, 8), (100, 2), (115, 0.25)])
def test_osha_table_g_16_is_kept_apart(level, hours):
    """29 CFR 1910.95(b)(1), Table G-16. Under the NIOSH rule the same noise is allowed for far less."""
    assert allowed_min(level_dba=level, criterion=OSHA) == pytest.approx(60 * hours, rel=1e-9)
    assert allowed_min(level_dba=level, criterion=NIOSH) < 60 * hours / 3


@pytest.mark.parametrize("criterion", [NIOSH, OSHA, LOWER_ACTION, UPPER_ACTION, LIMIT_AT_EAR])
def test_eight_hours_at_a_limit_are_the_whole_dose(criterion):
    """D = 100 Σ C / T, NIOSH section 1.1.3 and 1910.95 appendix A."""
    assert dose_pct([Exposure(criterion.level_dba, 480)], criterion=criterion) == pytest.approx(100)
    assert average_dba(100, criterion=criterion) == pytest.approx(criterion.level_dba)


def test_doses_of_several_noises_add():
    """Table 1-1 by hand: 1 h of 94 (of 1 h), 1 h of 91 (of 2 h) and 15 min of 100 (of 15 min) are 250 %."""
    day = [Exposure(94, 60), Exposure(91, 60), Exposure(100, 15)]
    assert dose_pct(day, criterion=NIOSH) == pytest.approx(250)


@pytest.mark.parametrize("dose", [10, 50, 100, 200, 400, 1000])
def test_the_average_of_a_dose_as_both_documents_print_it(dose):
    """NIOSH Table 1-2, footnote: 10 log10(D/100) + 85, the 10 rounded from 3 / log10 2 = 9.966: 0.035 dB a decade.

    1910.95 appendix A: 16.61 log10(D/100) + 90, rounded from 16.6096.
    """
    niosh = 10 * math.log10(dose / 100) + 85
    assert average_dba(dose, criterion=NIOSH) == pytest.approx(niosh, abs=0.035 * abs(math.log10(dose / 100)) + 1e-9)
    osha = 16.61 * math.log10(dose / 100) + 90
    assert average_dba(dose, criterion=OSHA) == pytest.approx(osha, abs=0.001)


def test_osha_action_level_is_half_the_dose():
    """1910.95(c): 85 dBA, or a dose of 50 %."""
    assert average_dba(50, criterion=OSHA) == pytest.approx(85)
    assert dose_pct([Exposure(85, 480)], criterion=OSHA) == pytest.approx(50)


def test_the_action_values_and_limits_of_the_directives():
    """2003/10/EC: 80, 85, 87 dB(A). 2002/44/EC: 2.5 and 5 m/s². HSE: 100 and 400 points."""
    assert [c.level_dba for c in (LOWER_ACTION, UPPER_ACTION, LIMIT_AT_EAR)] == [80, 85, 87]
    assert (ACTION_M_S2, LIMIT_M_S2, ACTION_POINTS, LIMIT_POINTS) == (2.5, 5, 100, 400)


@pytest.mark.parametrize("level", [79.0, 83.5, 92.0, 101.0])
def test_three_decibels_for_half_the_time_is_equal_energy(level):
    """2003/10/EC by ISO 1999: L_EX,8h = L + 10 log10(T / 8 h). 3 against 3.0103 dB: 0.01 dB a halving."""
    for halvings in range(5):
        minutes = 480 / 2**halvings
        dose = dose_pct([Exposure(level, minutes)], criterion=UPPER_ACTION)
        equal_energy = level + 10 * math.log10(minutes / 480)
        assert average_dba(dose, criterion=UPPER_ACTION) == pytest.approx(equal_energy, abs=0.0104 * halvings + 1e-9)


def test_an_snr_example_of_the_makers_of_sound_level_meters():
    """97 dB(C) under an SNR of 28 is 73 dB at the ear, the 4 dB of HSE's real-world factor counted in."""
    assert rating_needed_db(level_dba=97, wanted_dba=73) == pytest.approx(28)


def test_an_nrr_example_with_oshas_half():
    """100 dBA under an NRR of 33: (33 − 7) / 2 = 13, so 87 dBA (1910.95 appendix B with half taken off)."""
    assert american_rating_needed_db(level_dba=100, wanted_dba=87) == pytest.approx(33)


# Hand-arm vibration


def test_the_example_of_the_ready_reckoner():
    """HSE: 5 m/s² for 3 h are 150 points."""
    assert points(Hold(5, 180)) == pytest.approx(150)


@pytest.mark.parametrize(
    ("acceleration", "hourly"), [(2.5, 12.5), (3, 18), (4, 32), (5, 50), (7, 98), (10, 200), (12, 288), (40, 3200)]
)
def test_points_an_hour_are_twice_the_square(acceleration, hourly):
    """HSE convention, 2 a² an hour, to the ends of the ready-reckoner (40 m/s², 10 h)."""
    assert points(Hold(acceleration, 60)) == pytest.approx(hourly)
    assert points(Hold(acceleration, 600)) == pytest.approx(10 * hourly)


def test_a_sander_of_three_metres_a_second_squared():
    """18 points an hour, so 100 / 18 = 5.56 h to the action value."""
    assert minutes_to(ACTION_POINTS, acceleration_m_s2=3) / 60 == pytest.approx(5.56, abs=0.005)


@pytest.mark.parametrize(("average", "wanted"), [(ACTION_M_S2, ACTION_POINTS), (LIMIT_M_S2, LIMIT_POINTS)])
def test_eight_hours_at_a_value_are_its_points(average, wanted):
    """2002/44/EC against HSE's points."""
    assert points(Hold(average, 480)) == pytest.approx(wanted)
    assert minutes_to(wanted, acceleration_m_s2=average) == pytest.approx(480)
    assert day_average_m_s2([Hold(average, 480)]) == pytest.approx(average)


@pytest.mark.parametrize("day", [[(7.5, 25), (4.5, 90)], [(3, 200)], [(12, 10), (2, 300), (6, 45)]])
def test_points_are_a_hundred_times_the_square_of_the_average_over_2_5(day):
    """ISO 5349-1:2001 (from memory): A(8) of several tools is the root of the sum of squares a √(T / 8 h)."""
    holds = [Hold(*one) for one in day]
    a8 = math.sqrt(sum((a * math.sqrt(minutes / 480)) ** 2 for a, minutes in day))
    assert day_average_m_s2(holds) == pytest.approx(a8)
    assert points_of(holds) == pytest.approx(100 * (a8 / 2.5) ** 2)


# Masks and airing


@pytest.mark.parametrize(("factor", "left"), [(4, 25), (10, 10), (20, 5)])
def test_what_a_mask_lets_in_by_its_assigned_factor(factor, left):
    """HSG53 / BS EN 529, as a university's safety page quotes them: FFP1, FFP2 and FFP3 divide by 4, 10 and 20."""
    assert left_pct(caught_pct=0, mask_factors=[factor]) == pytest.approx(left)
    assert left_pct(caught_pct=80, mask_factors=[factor]) == pytest.approx(left / 5)


S3_1 = {
    1: (138, 276, 414), 2: (69, 138, 207), 3: (46, 92, 138), 4: (35, 69, 104), 5: (28, 55, 83), 6: (23, 46, 69),
    7: (20, 39, 59), 8: (17, 35, 52), 9: (15, 31, 46), 10: (14, 28, 41), 12: (12, 23, 35), 15: (9, 18, 28),
    20: (7, 14, 21), 50: (3, 6, 8),
}  # fmt: skip


@pytest.mark.parametrize("changes", S3_1)
def test_airing_times_of_table_s3_1(changes):
    """Minutes to 90, 99 and 99.9 % removal; whole minutes are printed."""
    for left, minutes in zip((10, 1, 0.1), S3_1[changes], strict=True):
        assert cleared_min(changes_per_h=changes, left_pct=left) == pytest.approx(minutes, abs=0.51)
