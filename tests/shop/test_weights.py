"""Masses against the weight tables of the trade."""

from __future__ import annotations

import math

import pytest

from lint.sheet.sheet import Section
from lint.shop.weights import POUND, mass, section_area

EN_DENSITY = 7850.0  # kg/m3: EN bar tables state 7.85 kg/dm3
INCH_DENSITY = 489.6 * POUND / 0.3048**3  # inch tables: 489.6 lb/ft3 (Production Machining, Cribsheet 106)
INCH = 25.4
FOOT = 304.8

# EN 10059 table 1, via a mill's catalogue: side mm -> kg/m, three figures
EN_10059 = {
    8: 0.502, 10: 0.785, 12: 1.13, 13: 1.33, 14: 1.54, 15: 1.77, 16: 2.01, 18: 2.54, 20: 3.14, 22: 3.80, 24: 4.52,
    25: 4.91, 26: 5.31, 28: 6.15, 30: 7.07, 32: 8.04, 35: 9.62, 40: 12.6, 45: 15.9, 50: 19.6,
}  # fmt: skip
# EN 10060 table 1, via a mill's catalogue. Its line for 18 mm is a misprint: the true figure is 2.00, and stands here.
EN_10060 = {
    16: 1.58, 18: 2.00, 19: 2.23, 20: 2.47, 22: 2.98, 24: 3.55, 25: 3.85, 26: 4.17, 27: 4.49, 28: 4.83, 30: 5.55,
    32: 6.31, 35: 7.55, 36: 7.99, 38: 8.90, 40: 9.86,
}  # fmt: skip
# Civil-engineering weight tables (the d^2/162 rule). They print 10 mm as 0.616 where others print 0.617.
SMALL_ROUNDS = {6: 0.222, 8: 0.395, 12: 0.888}
# W = 0.00785 b t, a published formula page; 40 x 5 is its example, the others follow from it.
FLATS = {
    (40, 5): 1.57, (12, 5): 0.471, (16, 5): 0.628, (20, 5): 0.785, (20, 6): 0.942, (20, 8): 1.256, (20, 10): 1.570,
    (25, 5): 0.981, (25, 6): 1.178, (25, 8): 1.570, (30, 8): 1.884, (30, 10): 2.355, (40, 8): 2.512, (40, 10): 3.140,
}  # fmt: skip
# Square 3.4 x area in lb/ft (Production Machining, Cribsheet 106): side in inches -> lb/ft
INCH_SQUARES = {
    1 / 4: 0.2125, 5 / 16: 0.3320, 3 / 8: 0.4781, 7 / 16: 0.6508, 1 / 2: 0.850, 9 / 16: 1.0758, 5 / 8: 1.3281,
    3 / 4: 1.9125, 7 / 8: 2.6031, 1: 3.400,
}  # fmt: skip
# Round 2.67 d^2 in lb/ft (the same source): its 2.67 is pi/4 x 3.4 = 2.6704 cut short.
INCH_ROUNDS = {1 / 4: 0.1669, 5 / 16: 0.2607, 3 / 8: 0.3755, 1 / 2: 0.6675, 5 / 8: 1.0430, 3 / 4: 1.5019, 1: 2.670}
INCH_FLATS = {
    (1 / 8, 1 / 2): 0.2125, (1 / 8, 1): 0.425, (3 / 16, 1): 0.6375, (1 / 4, 3 / 4): 0.6375, (1 / 4, 1): 0.850,
    (1 / 4, 1.5): 1.275, (3 / 8, 1): 1.275, (1 / 2, 1): 1.700,
}  # fmt: skip


def kg_per_metre(width: float, depth: float | None) -> float:
    return mass(Section(width=width, depth=depth), 1000.0, EN_DENSITY)


def pounds_per_foot(width: float, depth: float | None) -> float:
    section = Section(width=width * INCH, depth=None if depth is None else depth * INCH)
    return mass(section, FOOT, INCH_DENSITY) / POUND


def half_a_digit(printed: float, figures: int = 3) -> float:
    """Half a unit in the last of `figures` printed figures, and a hair for the halves."""
    return 0.5001 * 10.0 ** (math.floor(math.log10(printed)) - figures + 1)


@pytest.mark.parametrize(("side", "printed"), EN_10059.items())
def test_squares_weigh_what_en_10059_prints(side: int, printed: float) -> None:
    assert abs(kg_per_metre(side, side) - printed) <= half_a_digit(printed)


@pytest.mark.parametrize(("across", "printed"), (EN_10060 | SMALL_ROUNDS).items())
def test_rounds_weigh_what_en_10060_prints(across: int, printed: float) -> None:
    # 27 mm: 4.4947, printed 4.49; 36 mm: 7.9903, printed 7.99: all within the last printed figure
    assert abs(kg_per_metre(across, None) - printed) <= half_a_digit(printed)


def test_ten_millimetre_round_lies_within_a_last_figure_of_both_printed_values() -> None:
    found = kg_per_metre(10, None)
    assert found == pytest.approx(0.6165, abs=0.0001)
    assert abs(found - 0.616) < 0.001
    assert abs(found - 0.617) < 0.001


@pytest.mark.parametrize(("size", "printed"), FLATS.items())
def test_flats_weigh_what_the_formula_page_prints(size: tuple[int, int], printed: float) -> None:
    assert kg_per_metre(*size) == pytest.approx(printed, abs=0.0005001)  # printed to the gram


@pytest.mark.parametrize(("side", "printed"), INCH_SQUARES.items())
def test_inch_squares_weigh_what_the_inch_rule_says(side: float, printed: float) -> None:
    assert pounds_per_foot(side, side) == pytest.approx(printed, abs=0.00006)


@pytest.mark.parametrize(("across", "printed"), INCH_ROUNDS.items())
def test_inch_rounds_weigh_what_the_inch_rule_says(across: float, printed: float) -> None:
    assert pounds_per_foot(across, None) == pytest.approx(printed, rel=0.0003)  # 2.6704 against the rule's 2.67


@pytest.mark.parametrize(("size", "printed"), INCH_FLATS.items())
def test_inch_flats_weigh_what_the_inch_rule_says(size: tuple[float, float], printed: float) -> None:
    assert pounds_per_foot(*size) == pytest.approx(printed, abs=0.00006)


def test_the_published_bars_weigh_as_published_and_the_misprint_does_not() -> None:
    # Production Machining, bar weight article: 1/2 x 2 x 120 in = 33.99 lb, 1 in round x 144 in = 32.04 lb are right;
    # its 1 in square x 12 ft = 40.97 lb is a misprint for 40.795 (144 x 0.2833).
    assert pounds_per_foot(0.5, 2) * 10 == pytest.approx(33.99, abs=0.02)
    assert pounds_per_foot(1, None) * 12 == pytest.approx(32.04, abs=0.01)
    assert pounds_per_foot(1, 1) * 12 == pytest.approx(40.795, abs=0.01)
    assert pounds_per_foot(1, 1) * 12 != pytest.approx(40.97, abs=0.1)


def test_a_round_bar_has_a_circles_area() -> None:
    assert section_area(Section(width=12, depth=None)) == pytest.approx(113.09733552923255)  # pi 6^2
