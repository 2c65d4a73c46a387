"""The page: CSS units, viewBox and preserveAspectRatio against the specifications' own words."""

from __future__ import annotations

import pytest

from lint.drawing.drawn import Page, PageSize
from lint.drawing.page import Fit, fit, onto
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import drawing


def page(root: str) -> Page:
    return drawing("", root).page


@pytest.mark.parametrize("width", ["254mm", "25.4cm", "10in", "720pt", "60pc", "1016Q", "254MM"])
def test_every_physical_unit_of_css_gives_the_same_page(width: str) -> None:
    """CSS Values and Units Level 3, 6.2."""
    found = page(f'width="{width}" height="{width}" viewBox="0 0 100 100"')
    assert found.size is PageSize.PHYSICAL
    assert found.mm_per_unit == pytest.approx(2.54, rel=1e-12)


@pytest.mark.parametrize("width", ["960", "960px"])
def test_pixels_are_a_ninety_sixth_of_an_inch_and_marked_as_pixels(width: str) -> None:
    found = page(f'width="{width}" height="{width}" viewBox="0 0 100 100"')
    assert found.size is PageSize.PIXELS
    assert found.mm_per_unit == pytest.approx(2.54, rel=1e-12)


@pytest.mark.parametrize(
    "root", ['width="100%" height="100%" viewBox="0 0 44 64"', 'viewBox="0 0 44 64"', "", 'width="auto"', 'width="0mm"']
)
def test_a_page_without_a_stated_size_has_none(root: str) -> None:
    """100 %, a bare viewBox or nothing is no size."""
    found = page(root)
    assert (found.size, found.mm_per_unit) == (PageSize.NONE, None)


def test_without_a_viewbox_a_unit_is_one_px_whatever_the_page() -> None:
    """SVG 1.1, 7.2: the initial user unit is one px; width's unit sizes the viewport only."""
    found = page('width="440mm" height="640mm"')
    assert found.size is PageSize.PHYSICAL
    assert found.mm_per_unit == pytest.approx(25.4 / 96)
    assert found.extent == pytest.approx((0, 0, 440 * 96 / 25.4, 640 * 96 / 25.4))


def test_old_inkscape_without_a_viewbox_drew_ninety_px_to_the_inch() -> None:
    """Inkscape wiki, CSS96: 90 px/in up to 0.91, 96 from 0.92. An A4 page was 744.09448 x 1052.3622."""
    old = page('width="744.09448" height="1052.3622" inkscape:version="0.48.4 r9939"')
    assert old.mm_per_unit is not None
    assert (744.09448 * old.mm_per_unit, 1052.3622 * old.mm_per_unit) == pytest.approx((210, 297), abs=1e-4)
    assert "90 px" in old.remark
    assert page('width="793.7" height="1122.5" inkscape:version="0.92.4"').mm_per_unit == pytest.approx(25.4 / 96)
    assert page('width="793.7" height="1122.5" inkscape:version="1.2.2"').mm_per_unit == pytest.approx(25.4 / 96)


def test_a_viewbox_may_have_commas_and_an_offset() -> None:
    found = page('width="440mm" height="640mm" viewBox="-10.5,20,1247.24409,1814.17323"')
    assert found.extent == pytest.approx((-10.5, 20, 1236.74409, 1834.17323))
    assert found.mm_per_unit == pytest.approx(440 / 1247.24409, rel=1e-4)


def test_one_stated_side_is_enough() -> None:
    assert page('width="440mm" viewBox="0 0 220 320"').mm_per_unit == pytest.approx(2)
    assert page('height="640mm" viewBox="0 0 220 320"').mm_per_unit == pytest.approx(2)
    assert page('width="440mm" height="100%" viewBox="0 0 220 320"').mm_per_unit == pytest.approx(2)


def test_a_small_disagreement_is_named_and_the_smaller_scale_taken() -> None:
    """A page rounded to whole centimetres, as Dia writes it."""
    found = page('width="41cm" height="62cm" viewBox="39 19 801 1221"')
    assert found.mm_per_unit == pytest.approx(620 / 1221)
    assert found.axes == pytest.approx((410 / 801, 620 / 1221))
    assert "disagree by 0.8 %" in found.remark


def test_a_stretched_page_is_refused() -> None:
    """SVG 1.1, 7.8: with "none" the drawing is scaled apart; then there is no one scale."""
    with pytest.raises(UnreadableDrawing, match=r"Line 1: the page is stretched: 2 mm a unit across and 1 mm down"):
        page('width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"')


def test_a_page_of_another_shape_keeps_one_scale() -> None:
    """SVG 1.1, 7.8: meet takes the smaller scale, slice the larger."""
    root = 'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="{}"'
    assert page(root.format("xMidYMid meet")).mm_per_unit == pytest.approx(1)
    assert page(root.format("xMidYMid slice")).mm_per_unit == pytest.approx(2)
    assert page(root.format("nonsense")).mm_per_unit == pytest.approx(1)
    assert "differ in shape" in page(root.format("xMidYMid")).remark


@pytest.mark.parametrize(
    ("viewport", "value", "expected"),
    [
        # SVG 1.1, 7.8, example PreserveAspectRatio: viewBox 0 0 30 40 on viewports of 50x30 and 30x60
        ((50, 30), "xMinYMid meet", (0.75, 0, 0)),
        ((50, 30), "xMidYMid meet", (0.75, (50 - 22.5) / 2, 0)),
        ((50, 30), "xMaxYMid meet", (0.75, 50 - 22.5, 0)),
        ((30, 60), "xMidYMin meet", (1.0, 0, 0)),
        ((30, 60), "xMidYMax meet", (1.0, 0, 20)),
        ((30, 60), "xMinYMid slice", (1.5, 0, 0)),
        ((30, 60), "xMaxYMid slice", (1.5, 30 - 45, 0)),
        ((50, 30), "xMidYMin slice", (5 / 3, 0, 0)),
        ((50, 30), "xMidYMax slice", (5 / 3, 0, 30 - 200 / 3)),
    ],
)
def test_the_viewport_examples_of_the_specification(
    viewport: tuple[float, float], value: str, expected: tuple[float, float, float]
) -> None:
    a, b, c, d, e, f = onto((0, 0, 30, 40), *viewport, fit(value))
    assert (a, d) == pytest.approx((expected[0], expected[0]))
    assert (b, c) == (0, 0)
    assert (e, f) == pytest.approx(expected[1:])


def test_none_scales_each_way_on_its_own() -> None:
    """SVG 2, 8.2: with align none, scale-x and scale-y stay apart."""
    assert fit("none") == Fit(0, 0, "none")
    assert onto((10, 20, 30, 40), 60, 40, fit("none")) == pytest.approx((2, 0, 0, 1, -20, -20))


@pytest.mark.parametrize("root", ['width="1e999mm"', 'viewBox="0 0 1e400 5"', f'width="{"9" * 65}mm"'])
def test_a_page_size_beyond_all_numbers_is_refused(root: str) -> None:
    with pytest.raises(UnreadableDrawing, match="Set the page size again"):
        page(root)
