"""Lengths as smiths write them. 1 in = 25.4 mm exactly (international yard and pound agreement, 1959)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.lengths import parse, parse_pair, say

# Spellings: drawing convention, section 3; millimetres worked by hand from 25.4 mm.
WRITTEN = [
    ("610", 610.0),
    ("610 mm", 610.0),
    ("610mm", 610.0),
    ("61 cm", 610.0),
    ("0.61 m", 610.0),
    ('24"', 609.6),
    ("24 in", 609.6),
    ("24in.", 609.6),
    ("24 inches", 609.6),
    ('1/2"', 12.7),
    (".5 in", 12.7),
    ("16 1/2 in", 419.1),
    ("16-1/2 in", 419.1),
    ("2'-0\"", 609.6),
    ("2'", 609.6),
    ("2 ft", 609.6),
    ("1' 6 1/2\"", 469.9),
    ("1 ft 6 1/2 in", 469.9),
    ("2'6", 762.0),
    ("2''", 50.8),
    ("Ø6", 6.0),
    ("⌀ 6 mm", 6.0),
    ("dia 6", 6.0),
    ('R 1/4"', 6.35),
    ("R6", 6.0),
    ("r 6", 6.0),
    ("4 3/8 in", 111.125),
    ("1 3/4 in", 44.45),
    ("21 in", 533.4),
    ("12,5 mm", 12.5),
    ("0", 0.0),
]


@pytest.mark.parametrize(("text", "mm"), WRITTEN)
def test_a_length_is_read_as_it_is_written(text: str, mm: float) -> None:
    assert parse(text) == mm


@pytest.mark.parametrize(
    "text", ["16 1/2\u2033", "16 1/2\u201d", "16\u00bd\u2033", "16 1\u20442 in", "\uff11\uff16 1/2 in"]
)
def test_curly_and_prime_marks_and_one_piece_fractions_are_read_alike(text: str) -> None:
    assert parse(text) == 419.1


@pytest.mark.parametrize("text", ["1\u2032 6\u2033", "1\u2019 6\u201d", "1'\u00a06\"", "1' - 6\""])
def test_feet_and_inches_are_read_with_any_marks(text: str) -> None:
    assert parse(text) == 457.2


def test_a_bare_number_takes_the_unit_of_the_sheet() -> None:
    assert parse("4", "in") == 101.6
    assert parse("4 mm", "in") == 4.0


def test_four_inches_are_exactly_the_limit_and_not_the_printed_102() -> None:
    assert parse("4 in") == 101.6
    assert parse("102 mm") > parse("4 in")


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "4in x",
        "-4 in",
        "\u22124",
        "nan",
        "inf",
        "1e3",
        "four",
        "1/0 in",
        "1 2",
        "4 in in",
        "R",
        "ft",
        "'",
        "١٢",
        "4 lb",
    ],
)
def test_what_is_no_length_is_refused_with_what_was_expected(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not a length \(expected like .*\)\.$"):
        parse(text)


def test_a_thousands_mark_is_refused_for_it_can_be_read_two_ways() -> None:
    with pytest.raises(ValueError, match="two ways"):
        parse("1,200 mm")


def test_a_kilometre_and_a_page_of_digits_are_refused() -> None:
    with pytest.raises(ValueError, match="kilometre"):
        parse("1000 m")
    with pytest.raises(ValueError, match="too long"):
        parse("9" * 65)
    with pytest.raises(ValueError, match="kilometre"):
        parse("9" * 64)


@pytest.mark.parametrize(
    ("text", "pair"),
    [
        ("16x24in", (406.4, 609.6)),
        ('16" x 24"', (406.4, 609.6)),
        ("16 X 24 in", (406.4, 609.6)),
        ("6x12", (6.0, 12.0)),
        ("1/4 × 1/2 in", (6.35, 12.7)),
        ("16 in x 400 mm", (406.4, 400.0)),
        ("400x600mm", (400.0, 600.0)),
    ],
)
def test_two_lengths_share_the_unit_of_the_second(text: str, pair: tuple[float, float]) -> None:
    assert parse_pair(text) == pair


@pytest.mark.parametrize("text", ["16", "16x", "x", "1x2x3", "4 in by 5 in"])
def test_what_is_not_two_lengths_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"expected like"):
        parse_pair(text)


def test_a_length_is_said_in_millimetres_with_two_decimals_at_most() -> None:
    assert [say(mm) for mm in (118.4, 101.6, 3.175, 610.0, 0.0, -0.001)] == [
        "118.4 mm",
        "101.6 mm",
        "3.18 mm",
        "610 mm",
        "0 mm",
        "0 mm",
    ]


def test_inches_are_said_to_a_thirty_second_with_the_decimal_where_it_is_not_exact() -> None:
    # 118.4 / 25.4 = 4.6614...; nearest 1/32: 149/32 = 4 21/32 (outputs of the design notes)
    assert say(118.4, "in") == "4 21/32 in (4.661)"
    assert say(101.6, "in") == "4 in"
    assert say(3.175, "in") == "1/8 in"
    assert say(-3.175, "in") == "-1/8 in"
    assert say(0.2, "in") == "0 in (0.008)"
    assert say(0.001, "in") == "0 in"


def test_a_figure_just_under_its_limit_does_not_read_as_the_limit() -> None:
    assert say(101.598, beside=101.6) == "101.598 mm"
    assert say(101.6, beside=101.6) == "101.6 mm"
    assert say(101.598, "in", beside=101.6) == "4 in (3.9999)"
    assert say(101.6, "in", beside=101.6) == "4 in"


@settings(max_examples=50)
@given(st.integers(0, 4000), st.sampled_from([2, 4, 8, 16, 32]))
def test_what_is_said_in_inches_is_read_back(whole: int, parts: int) -> None:
    mm = float(Fraction(whole, parts) * Fraction(127, 5))
    assert parse(say(mm, "in")) == pytest.approx(mm, abs=1e-9)


@settings(max_examples=50)
@given(st.text(max_size=80))
def test_no_text_does_anything_but_give_a_length_or_a_sentence(text: str) -> None:
    assert read_or_refused(text)


def read_or_refused(text: str) -> bool:
    try:
        return 0 <= parse(text) < 1e6
    except ValueError as trouble:
        return str(trouble).endswith(".")
