"""Tap drills and clearance holes against the tables."""

from __future__ import annotations

import pytest

from lint.shop.screws import THREADS, thread_for

INCH = 25.4
# name: pitch, tap drill, full thread %, minor diameter, clearance. Metric drills: Mechanical Engineer's Data Handbook,
# s. 8.2.4, p. 299; clearance: ISO 273 medium. Inch (in inches): a university drill chart, free fit. Percentages and
# minors computed in trade facts, section 4c.
METRIC = {
    "M4": (0.7, 3.3, 77.0, 3.242, 4.5),
    "M5": (0.8, 4.2, 77.0, 4.134, 5.5),
    "M6": (1.0, 5.0, 77.0, 4.917, 6.6),
    "M8": (1.25, 6.8, 73.9, 6.647, 9.0),
    "M10": (1.5, 8.5, 77.0, 8.376, 11.0),
}
UNIFIED = {
    "#10-24": (1 / 24, 0.1495, 74.8, 0.1389, 0.201),
    "1/4-20": (1 / 20, 0.201, 75.4, 0.1887, 0.266),
    "5/16-18": (1 / 18, 0.257, 76.9, 0.2443, 0.332),
    "3/8-16": (1 / 16, 0.3125, 77.0, 0.2983, 0.397),
}
Row = tuple[float, float, float, float, float]


@pytest.mark.parametrize(("name", "row"), METRIC.items())
def test_metric_threads_are_drilled_as_the_handbook_says(name: str, row: Row) -> None:
    thread = THREADS[name]
    assert (thread.pitch, thread.tap_drill, thread.clearance) == (row[0], row[1], row[4])
    assert thread.full_thread == pytest.approx(row[2], abs=0.06)
    assert thread.minor == pytest.approx(row[3], abs=0.0006)


@pytest.mark.parametrize(("name", "row"), UNIFIED.items())
def test_inch_threads_are_drilled_as_the_chart_says(name: str, row: Row) -> None:
    thread = THREADS[name]
    found = (thread.pitch / INCH, thread.tap_drill / INCH, thread.clearance / INCH)
    assert found == pytest.approx((row[0], row[1], row[4]))
    assert thread.full_thread == pytest.approx(row[2], abs=0.06)
    # the chart's minor diameters are the screw's root, d - 1.2269 P, where the metric table gives the nut's
    assert thread.root / INCH == pytest.approx(row[3], abs=0.0001)


def test_a_mark_that_fits_the_sheets_thread_takes_it() -> None:
    assert thread_for(5.9, "M6")[0].name == "M6"


def test_a_mark_of_another_size_takes_that_thread() -> None:
    assert thread_for(8.0, "M6")[0].name == "M8"


def test_a_mark_of_no_threads_size_takes_the_sheets() -> None:
    assert thread_for(14.0, "M6") == (THREADS["M6"], "sheet")


def test_an_inch_sheet_gets_no_metric_screw() -> None:
    assert thread_for(8.0, "1/4-20")[0].name == "5/16-18"


def test_a_blind_hole_is_deeper_than_its_thread() -> None:
    assert THREADS["M6"].blind_depth == pytest.approx(9.0)  # one diameter and three pitches
