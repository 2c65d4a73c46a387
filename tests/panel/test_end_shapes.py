"""Scroll ends held against their names, on bars drawn as outlines."""

from __future__ import annotations

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area
from lint.panel.end_shapes import doubtful_ends, shown_ends
from lint.panel.outlines import bars_of
from lint.panel.parts import Bar, DrawnAs, End, Origin, Scroll
from tests.geometry.midline_shapes import bar
from tests.geometry.test_midline_ends import ENDS


def _scroll(name: str, shape: BaseGeometry, left: str, right: str, drawn_as: DrawnAs = DrawnAs.OUTLINE) -> Scroll:
    """A bar whose ends are named from left to right."""
    (found,) = bars_of(Area(shape))
    origin = Origin(line=1, id=name, layer="scrolls")
    made = Bar(
        id=name,
        origin=origin,
        line=found.line,
        width=found.width,
        depth=None,
        metal=found.metal,
        drawn_as=drawn_as,
        widths=found.widths,
        unread=found.unread,
    )
    points = found.line.points[[0, -1]]
    names = (left, right) if points[0, 0] < points[1, 0] else (right, left)
    first, last = (
        End(at=(float(x), float(y)), name=end or None) for (x, y), end in zip(points.tolist(), names, strict=True)
    )
    return Scroll(bar=made, kind="C", turns=(1.2, 1.2), ends=(first, last))


def test_one_name_on_two_outlines_is_doubtful() -> None:
    scrolls = [_scroll("a", ENDS["ball"][0], "", "ball"), _scroll("b", ENDS["fishtail"][0], "", "ball")]
    (pair,) = doubtful_ends(scrolls)
    assert not pair.alike
    assert (pair.one.scroll.bar.id, pair.other.scroll.bar.id) == ("a", "b")
    assert pair.apart > 0.5


def test_two_names_on_one_outline_are_doubtful() -> None:
    scrolls = [_scroll("a", ENDS["ball"][0], "", "ball"), _scroll("b", ENDS["ball"][0], "", "penny snub")]
    (pair,) = doubtful_ends(scrolls)
    assert pair.alike
    assert pair.apart == pytest.approx(0, abs=1e-6)


def test_four_ends_of_four_outlines_and_names_are_in_no_doubt() -> None:
    scrolls = [_scroll(name, ENDS[name][0], "", name) for name in ("ball", "fishtail", "drawn out", "hammer")]
    assert doubtful_ends(scrolls) == ()
    assert len(shown_ends(scrolls)) == 4


def test_ends_that_are_not_drawn_may_carry_any_names() -> None:
    """A stroke turned into a path has a plain cut, whatever its ends are called."""
    scrolls = [_scroll("a", bar(), "ball", "fishtail"), _scroll("b", ENDS["round"][0], "leaf", "snub")]
    assert all(end.plain for end in shown_ends(scrolls))
    assert doubtful_ends(scrolls) == ()


def test_a_name_drawn_on_one_scroll_and_left_out_on_the_other_is_doubtful() -> None:
    scrolls = [_scroll("a", ENDS["ball"][0], "", "ball"), _scroll("b", bar(), "", "ball")]
    assert len(doubtful_ends(scrolls)) == 1


def test_a_mirrored_and_a_scaled_end_are_the_same_end() -> None:
    shape = ENDS["sawn askew"][0]
    half = shapely.transform(shape, lambda points: points * [0.5, -0.5])
    assert doubtful_ends([_scroll("a", shape, "", "bevelled"), _scroll("b", half, "", "bevelled")]) == ()


def test_centrelines_and_unread_outlines_show_no_ends() -> None:
    stroke = _scroll("a", ENDS["ball"][0], "", "ball", DrawnAs.CENTRELINE)
    fused = _scroll("b", bar().union(shapely.box(240, 0, 252, 100)), "", "ball")
    assert shown_ends([stroke, fused]) == ()


def test_an_end_without_a_name_is_left_to_its_own_finding() -> None:
    assert len(shown_ends([_scroll("a", ENDS["ball"][0], "", "ball")])) == 1
