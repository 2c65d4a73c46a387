"""The page grows for the mark sheet; a millimetre of the drawing stays a millimetre of paper.

The numbers are worked by hand from SVG 1.1: 7.7 (viewBox), 7.8 (preserveAspectRatio), 7.10 (1 in = 96 px = 25.4 mm).
"""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from lxml import etree

from lint.geometry.curve import curve
from lint.report.markup import markup
from lint.report.markup.page import grown, paper, plain
from tests.report.marked_panels import bar, drawing, verdict

_FACTORS = {"mm": 1.0, "cm": 10.0, "in": 25.4, "px": 25.4 / 96, "": 25.4 / 96, "pt": 25.4 / 72}


def _paper_mm(value: str) -> float:
    number, unit = re.fullmatch(r"([0-9.]+)([a-z]*)", value).groups()  # type: ignore[union-attr]
    return float(number) * _FACTORS[unit]


@pytest.mark.parametrize(
    ("width", "height", "viewbox", "fit", "view", "scale"),
    [
        ("340mm", "300mm", "0 0 340 300", None, (0, 0, 340, 300), 1.0),
        ("85mm", "75mm", "0 0 340 300", None, (0, 0, 340, 300), 0.25),
        ("10in", "5in", "2 3 10 5", None, (2, 3, 10, 5), 25.4),
        ("960", "480px", None, None, (0, 0, 960, 480), 25.4 / 96),
        ("100mm", "100mm", None, None, (0, 0, 377.95275590551182, 377.95275590551182), 25.4 / 96),
        ("72pt", "72pt", "0,0,100,100", None, (0, 0, 100, 100), 0.254),
        ("200mm", "100mm", "0 0 100 100", None, (-50, 0, 200, 100), 1.0),
        ("200mm", "100mm", "0 0 100 100", "xMinYMid meet", (0, 0, 200, 100), 1.0),
        ("200mm", "100mm", "0 0 100 100", "xMaxYMin", (-100, 0, 200, 100), 1.0),
        ("200mm", "100mm", "0 0 100 100", "xMidYMax slice", (0, 50, 100, 50), 2.0),
        ("200mm", None, "0 0 100 50", None, (0, 0, 100, 50), 2.0),
        (None, "100mm", "0 0 100 50", None, (0, 0, 100, 50), 2.0),
        ("100%", "100%", "0 0 100 50", None, (0, 0, 100, 50), None),
        (None, None, "5 6 7 8", None, (5, 6, 7, 8), None),
        (None, None, None, None, None, None),
        ("100mm", "1e999mm", "0 0 0 5", None, None, None),
    ],
)
def test_what_the_page_shows_and_how_large_a_unit_is_on_paper(
    width: str | None,
    height: str | None,
    viewbox: str | None,
    fit: str | None,
    view: tuple[float, ...] | None,
    scale: float | None,
) -> None:
    page = paper(width, height, viewbox, fit)
    assert page.view == (None if view is None else pytest.approx(view))
    assert page.mm_per_unit == (None if scale is None else pytest.approx(scale))


@pytest.mark.parametrize(
    ("root", "mm_per_unit"),
    [
        ('width="340mm" height="300mm" viewBox="0 0 340 300"', 1.0),
        ('width="34cm" height="300mm" viewBox="0 0 340 300"', 1.0),
        ('width="85mm" height="75mm" viewBox="0 0 340 300"', 0.25),
        ('width="1285" height="1133"', 25.4 / 96),
        ('width="400mm" height="300mm" viewBox="-20 -10 340 310" preserveAspectRatio="xMaxYMax"', 300 / 310),
        ('width="100pt" viewBox="0 0 340 300"', 100 / 72 * 25.4 / 340),
    ],
)
def test_a_print_at_full_size_stays_one(root: str, mm_per_unit: float) -> None:
    marked = etree.fromstring(markup(drawing(root), verdict()))
    box = [float(v) for v in marked.get("viewBox", "").split()]
    assert _paper_mm(marked.get("width", "")) / box[2] == pytest.approx(mm_per_unit, rel=1e-6)
    assert _paper_mm(marked.get("height", "")) / box[3] == pytest.approx(mm_per_unit, rel=1e-6)


def test_the_drawing_keeps_its_place_on_the_paper() -> None:
    for box in ("0 0 340 300", "-40 -50 500 600"):
        root = f'width="{box.split()[2]}mm" height="{box.split()[3]}mm" viewBox="{box}"'
        marked = etree.fromstring(markup(drawing(root), verdict()))
        assert marked.get("viewBox", "").split()[:2] == box.split()[:2]


def test_a_page_that_states_no_size_gets_none() -> None:
    marked = etree.fromstring(markup(drawing('viewBox="0 0 340 300"'), verdict(known=False)))
    assert marked.get("width") is None
    assert marked.get("height") is None


def test_a_page_stretched_on_purpose_stays_as_stretched() -> None:
    page = paper("200mm", "101mm", "0 0 200 100", "none")
    size = grown(page, (0.0, 0.0, 400.0, 100.0), ".2f")
    assert size == {"viewBox": "0 0 400 100", "width": "400mm", "height": "101mm"}


def test_metal_beyond_the_page_is_shown() -> None:
    marked = etree.fromstring(markup(drawing('width="200mm" height="100mm" viewBox="100 100 200 100"'), verdict()))
    left, top, width, height = (float(v) for v in marked.get("viewBox", "").split())
    assert left <= 36
    assert top <= 36
    assert left + width >= 304
    assert top + height >= 282


def test_a_part_that_strayed_far_away_does_not_shrink_the_drawing() -> None:
    judged = verdict()
    assert judged.panel is not None
    stray = bar("stray", curve(np.asarray([(9000.0, 9000.0), (9100.0, 9000.0)])), 6.0)
    far = replace(judged, panel=replace(judged.panel, bars=(stray,)))
    assert etree.fromstring(markup(drawing(), far)).get("viewBox") == etree.fromstring(markup(drawing(), judged)).get(
        "viewBox"
    )


def test_a_panel_drawn_wholly_off_its_page_is_shown() -> None:
    root = 'width="340mm" height="300mm" viewBox="5000 5000 340 300"'
    judged = verdict()
    assert judged.panel is not None
    off = replace(judged, panel=replace(judged.panel, page_extent=(5000.0, 5000.0, 5340.0, 5300.0)))
    left, top, width, height = (
        float(v) for v in (etree.fromstring(markup(drawing(root), off)).get("viewBox") or "").split()
    )
    assert left < 36
    assert left + width > 304
    assert top < 36
    assert top + height > 264


@pytest.mark.parametrize(("value", "text"), [(1.0, "1"), (-0.001, "0"), (1.5, "1.5"), (100.0, "100"), (0.126, "0.13")])
def test_a_coordinate_has_no_idle_zeros(value: float, text: str) -> None:
    assert plain(value, ".2f") == text


def test_lettering_stays_in_the_series_and_readable_on_a4() -> None:
    """Heights of ISO 3098 (2.5, 3.5, 5, 7, 10 mm ...): at least 2.5 on paper, and 1.6 on a page shrunk to A4."""
    for scale in (0.25, 0.5, 1.0, 2.0, 6.0):
        root = f'width="{340 * scale}mm" height="{300 * scale}mm" viewBox="0 0 340 300"'
        marked = markup(drawing(root), verdict())
        tree = etree.fromstring(marked)
        sizes = [float(v) for v in re.findall(r"font-size:([0-9.]+)px", marked.decode())]
        capital = sorted(sizes)[len(sizes) // 2] * 0.72 * scale
        series = [2.5 * 2 ** (n / 2) for n in range(13)]
        assert min(abs(capital / s - 1) for s in series) < 0.02, capital
        wide, high = _paper_mm(tree.get("width", "")), _paper_mm(tree.get("height", ""))
        shrink = min(max(wide / 297, high / 210), max(wide / 210, high / 297), key=float)
        assert capital >= 2.49
        assert capital / max(1.0, shrink) >= 1.59
