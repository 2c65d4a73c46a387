"""One object's area to one bar or several; frames drawn as outlines in every way that people draw them."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area, area, union
from lint.geometry.curve import Curve, curve
from lint.panel.outlines import bars_of, nested
from tests.geometry.midline_shapes import Floats, archimedean, bar, half_turns, outline
from tests.panel.metalwork import drawing, panel

OUTER, INNER = shapely.box(0, 0, 600, 900), shapely.box(12, 12, 588, 888)


def _rings(shape: BaseGeometry) -> list[Curve]:
    return [
        curve(shapely.get_coordinates(ring), closed=True)
        for part in np.asarray(shapely.get_parts(shape))
        for ring in np.asarray(shapely.get_rings(part))
    ]


def _filled(*rings: Curve, evenodd: bool = True) -> Area:
    return area([ring.points for ring in rings], evenodd)


def test_rings_apart_are_several_bars_the_largest_first() -> None:
    two = shapely.union(bar(500), shapely.transform(bar(300), lambda points: np.add(points, [0, 40])))
    found = bars_of(Area(two))
    assert [one.line.length for one in found] == pytest.approx([500, 300], rel=0.002)
    assert [one.unread for one in found] == ["", ""]
    assert [one.width for one in found] == pytest.approx([12, 12], abs=0.01)


def test_a_ring_in_a_ring_is_a_hole_and_makes_a_closed_bar() -> None:
    (found,) = bars_of(_filled(*_rings(OUTER), *_rings(INNER)))
    assert found.line.closed
    assert found.line.length == pytest.approx(2 * (588 + 888), rel=0.002)


def test_a_stroke_turned_into_a_path_by_an_editor_is_one_bar() -> None:
    """Overlapping little loops on the inside of a bend and doubled nodes are what stroke-to-path leaves behind; a
    non-zero fill paints over them."""
    line = half_turns(8, 40, 80)
    along = np.gradient(line, axis=0)
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    across = (
        np.column_stack([-along[:, 1], along[:, 0]]) * 7.0
    )  # an eye of 8 mm in a 14 mm bar: the inside nearly folds
    ring = np.concatenate([line + across, (line - across)[::-1]])
    (found,) = bars_of(area([np.repeat(ring, 2, axis=0)], evenodd=False))
    assert found.unread == ""
    assert found.line.length == pytest.approx(math.pi * 128, rel=0.01)


def test_specks_left_by_a_union_are_no_bars() -> None:
    specks = [shapely.box(x, 30, x + 0.3, 30.3) for x in (10, 20, 30)]
    assert len(bars_of(Area(shapely.union_all([bar(), *specks])))) == 1


def test_an_empty_area_has_no_bars() -> None:
    assert bars_of(Area(shapely.Polygon())) == ()


def test_a_frame_with_a_scroll_fused_to_it_is_reported_and_never_misread() -> None:
    scroll = shapely.transform(outline(half_turns(30, 50), 10).shape, lambda points: np.add(points, [45, 300]))
    fused = shapely.unary_union([OUTER.difference(INNER), scroll, shapely.box(5, 290, 60, 300)])
    (found,) = bars_of(Area(fused))
    assert "fused" in found.unread
    assert "an outline of its own" in found.unread
    assert found.unread_at is not None
    assert shapely.distance(fused, shapely.Point(found.unread_at)) < 12
    assert found.width is None


def test_what_is_no_bar_keeps_its_metal_and_its_edge() -> None:
    disc = Area(shapely.Point(50, 50).buffer(40))
    (found,) = bars_of(disc)
    assert "two and a half times as long" in found.unread
    assert found.metal.size == pytest.approx(disc.size)
    assert found.line.closed


def test_a_bar_that_crosses_itself_says_so_with_the_place() -> None:
    """A bar bent into a loop over itself, its outline drawn in one go."""
    angle = np.linspace(-0.8 * math.pi, 0.8 * math.pi, 400)
    loop = np.column_stack([60 * np.sin(angle), 60 * np.cos(angle)])
    line = np.concatenate([[[150, -250]], loop[::-1], [[-150, -250]]])[::-1]
    line[0], line[-1] = [200, -230], [-200, -230]
    found = bars_of(*_by_hand(line))
    assert any("crosses itself" in one.unread for one in found)


def test_an_outline_twisted_in_the_middle_is_not_taken_for_two_bars() -> None:
    """A bow tie: its two halves meet in the crossing."""
    ring = curve(np.array([[0, 0], [200, 10], [400, 10], [400, 0], [200, 0], [0, 10]], dtype=float), closed=True)
    found = bars_of(_filled(ring, evenodd=False), (ring,))
    assert len(found) > 1
    for one in found:
        assert "crosses itself" in one.unread
        assert one.unread_at == pytest.approx((100, 5), abs=0.1)


def _by_hand(line: Floats) -> tuple[Area, tuple[Curve, ...]]:
    """The outline of a 10 mm bar as one ring, both sides drawn on through all crossings."""
    along = np.gradient(line, axis=0)
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    across = np.column_stack([-along[:, 1], along[:, 0]]) * 5.0
    ring = curve(np.concatenate([line + across, (line - across)[::-1]]), closed=True)
    return _filled(ring, evenodd=False), (ring,)


FRAMES: dict[str, list[BaseGeometry]] = {
    "one compound outline": [OUTER.difference(INNER)],
    "two nested outlines": [OUTER, INNER],
    "the inner drawn first": [INNER, OUTER],
    "four members, butted": [
        shapely.box(0, 0, 600, 12),
        shapely.box(0, 888, 600, 900),
        shapely.box(0, 12, 12, 888),
        shapely.box(588, 12, 600, 888),
    ],
    "four members, mitred": [
        shapely.Polygon([(0, 0), (600, 0), (588, 12), (12, 12)]),
        shapely.Polygon([(600, 0), (600, 900), (588, 888), (588, 12)]),
        shapely.Polygon([(600, 900), (0, 900), (12, 888), (588, 888)]),
        shapely.Polygon([(0, 900), (0, 0), (12, 12), (12, 888)]),
    ],
    "a U and a cross bar": [OUTER.difference(shapely.box(12, -1, 588, 888)), shapely.box(12, 0, 588, 12)],
}


@pytest.mark.parametrize("name", FRAMES)
def test_the_metal_of_a_frame_of_outlines_has_its_outside_and_its_inside(name: str) -> None:
    """600 x 900 outside, 576 x 876 inside, 12 mm bar."""
    metal = union([nest.metal for nest in nested([Area(shape) for shape in FRAMES[name]])])
    assert metal.size == pytest.approx(600 * 900 - 576 * 876)
    assert metal.extent == pytest.approx((0, 0, 600, 900))
    (inside,) = metal.holes
    assert inside.extent == pytest.approx((12, 12, 588, 888))


def test_a_small_outline_in_a_large_one_is_no_inside() -> None:
    """A member that lies within another's rectangle is not cut out of it."""
    nests = nested([Area(OUTER), Area(shapely.box(100, 400, 500, 412))])
    assert [nest.of for nest in nests] == [(0,), (1,)]


def test_three_nested_outlines_take_turns() -> None:
    shapes = [Area(OUTER), Area(INNER), Area(shapely.box(20, 20, 580, 880))]
    (nest,) = nested(shapes)
    assert nest.of == (0, 1, 2)
    assert nest.metal.size == pytest.approx(600 * 900 - 576 * 876 + 560 * 860)


def test_an_annulus_of_two_circles_is_a_closed_bar() -> None:
    """A round frame, 400 mm across its mean line."""
    (nest,) = nested([Area(shapely.Point(0, 0).buffer(206, 128)), Area(shapely.Point(0, 0).buffer(194, 128))])
    (found,) = bars_of(nest.metal)
    assert found.line.length == pytest.approx(math.pi * 400, rel=0.002)


def test_a_spiral_as_an_outline_keeps_its_width_along_it() -> None:
    (found,) = bars_of(outline(archimedean(15, 5, 4 * math.pi), 12))
    assert found.widths is not None
    assert len(found.widths) == len(found.line.points)
    assert np.abs(found.widths - 12).max() < 0.3


def test_a_filled_line_is_unread_and_not_dropped() -> None:
    """It paints nothing, and stands on the layer of the scrolls all the same."""
    found = panel(drawing(layers='<g id="scrolls"><path id="s" d="M 10,10 L 200,10" fill="#000"/></g>'))
    (scroll,) = found.scrolls
    assert scroll.bar.unread == "its outline encloses no metal"
    assert "no metal" in scroll.why_other
