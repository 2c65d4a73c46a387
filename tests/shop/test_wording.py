"""How the shop's papers say lengths, and what they do with hostile names."""

from __future__ import annotations

import pytest

from lint.sheet.sheet import Section
from lint.shop.wording import cut_to, escaped, fraction, length, mass, section, trimmed, with_unit

INCH = 25.4


@pytest.mark.parametrize(
    ("inches", "said"),
    [(24.125, "24 1/8"), (0.5, "1/2"), (3, "3"), (0, "0"), (4.65625, "4 21/32"), (4.66, "4 21/32"), (11 / 16, "11/16")],
)
def test_inches_are_mixed_fractions_to_a_thirty_second(inches: float, said: str) -> None:
    assert fraction(inches * INCH) == said


def test_lengths_stand_in_the_sheets_unit() -> None:
    assert length(612.49, "mm") == "612.5"
    assert length(612.49, "in") == "24 1/8"
    assert with_unit(612.49, "mm") == "612.5 mm"
    assert with_unit(INCH / 2, "in") == "1/2 in"
    assert with_unit(118.4, "in") == "4 21/32 in (4.661)"  # the decimal beside a fraction that is not exact


def test_metric_bar_keeps_its_name_on_an_inch_sheet() -> None:
    assert trimmed(12.0, "in") == "12 mm"
    assert trimmed(12.7, "in") == "1/2"
    assert trimmed(6.5, "mm") == "6.5"


def test_sections_are_width_by_depth_or_a_diameter() -> None:
    assert section(Section(width=6, depth=12), "mm") == "6 x 12"
    assert section(Section(width=INCH / 4, depth=INCH), "in") == "1/4 x 1"
    assert section(Section(width=12, depth=None), "mm") == "Ø12"


def test_a_cut_is_rounded_up_never_down() -> None:
    assert cut_to(699.0, "mm") == 699.0
    assert cut_to(699.01, "mm") == 700.0
    assert cut_to(INCH * 3.01, "in") == pytest.approx(INCH * 3.0625)


def test_masses_stand_in_the_sheets_unit() -> None:
    assert mass(0.45359237, "mm") == "0.45 kg"
    assert mass(0.45359237, "in") == "1.00 lb"


def test_a_name_is_harmless_on_paper() -> None:
    assert escaped("a\x1b[31mb\u202ec\n e") == "a\\x1b[31mb\\u202ec e"
    assert len(escaped("x" * 500)) == 80
    assert escaped('<b onload="x">&') == "&lt;b onload=&quot;x&quot;&gt;&amp;"
