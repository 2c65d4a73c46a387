"""Limits for the forged piece against the standards' own tables.

ISO 2768-1 tables 1 to 3 and ISO 13920 tables 1 and 2, as reproduced by modulusmetal.com (a second copy agrees).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from lint.record.limits import limit_for
from lint.sheet import load_default
from lint.sheet.sheet import Sheet


def _sheet(standard: str) -> Sheet:
    sheet = load_default()
    return replace(sheet, tolerances=replace(sheet.tolerances, standard=standard))


@pytest.mark.parametrize(
    ("standard", "size", "limit"),
    [
        ("ISO 2768-f", 3.0, 0.05),
        ("ISO 2768-f", 30.0, 0.1),
        ("ISO 2768-f", 1000.0, 0.3),
        ("ISO 2768-m", 6.0, 0.1),
        ("ISO 2768-m", 400.0, 0.5),
        ("ISO 2768-m", 400.1, 0.8),
        ("ISO 2768-m", 4000.0, 2.0),
        ("ISO 2768-c", 120.0, 0.8),
        ("ISO 2768-c", 609.6, 2.0),
        ("ISO 2768-v", 30.1, 1.5),
        ("ISO 2768-v", 2000.0, 6.0),
        ("ISO 13920-A", 609.6, 2.0),
        ("ISO 13920-B", 120.0, 2.0),
        ("ISO 13920-C", 400.0, 4.0),
        ("ISO 13920-D", 2500.0, 16.0),
        ("ISO 13920-D", 30.0, 1.0),
    ],
)
def test_a_class_gives_its_table_s_limit(standard: str, size: float, limit: float) -> None:
    found = limit_for("overall", size, _sheet(standard))
    assert found.limit == pytest.approx(limit)
    assert "analogue" in found.basis


@pytest.mark.parametrize(
    ("standard", "leg", "degrees"),
    [
        ("ISO 2768-m", 10.0, 1.0),
        ("ISO 2768-m", 50.0, 0.5),
        ("ISO 2768-m", 401.0, 5 / 60),
        ("ISO 2768-c", 120.0, 0.5),
        ("ISO 2768-v", 400.0, 0.5),
        ("ISO 13920-A", 400.0, 20 / 60),
        ("ISO 13920-B", 1000.0, 0.5),
        ("ISO 13920-D", 700.0, 1.25),
    ],
)
def test_an_angle_s_limit_goes_by_its_shorter_leg(standard: str, leg: float, degrees: float) -> None:
    assert limit_for("angle", 90.0, _sheet(standard), leg=leg).limit == pytest.approx(degrees)


def test_radii_have_a_table_of_their_own() -> None:
    assert limit_for("radius", 3.0, _sheet("ISO 2768-m")).limit == pytest.approx(0.2)
    assert limit_for("radius", 6.0, _sheet("ISO 2768-c")).limit == pytest.approx(1.0)
    assert limit_for("radius", 12.0, _sheet("ISO 2768-v")).limit == pytest.approx(2.0)


def test_where_a_table_has_no_figure_the_sheet_s_own_limit_holds() -> None:
    found = limit_for("overall", 3000.0, _sheet("ISO 2768-f"))
    assert (found.limit, found.basis) == (load_default().tolerances.overall, "common practice")


def test_the_default_is_common_practice_a_sixteenth_overall_and_an_eighth_for_scrolls() -> None:
    """Common practice, no source."""
    assert limit_for("overall", 600.0, load_default()).limit == pytest.approx(25.4 / 16)
    assert limit_for("scroll", 200.0, load_default()).limit == pytest.approx(25.4 / 8)
