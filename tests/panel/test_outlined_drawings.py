"""The same drawing as centrelines and as outlines gives the same verdict and the same figures."""

from __future__ import annotations

from pathlib import Path

import pytest

from lint.check import check
from lint.drawing import read
from lint.panel import build
from lint.panel.parts import Frame
from lint.result import Result
from lint.sheet import load_default, sheet_for
from lint.verdict import Verdict
from tests.conftest import EXAMPLES, FIXTURES
from tests.panel.as_outlines import as_outlines

DRAWINGS = [*sorted(EXAMPLES.glob("*.svg")), FIXTURES / "panel.svg"]


def _both(path: Path, nodes: float = 0.0) -> tuple[Verdict, Verdict]:
    sheet = sheet_for(path)
    svg = path.read_bytes()
    return check(svg, sheet), check(as_outlines(svg, sheet, nodes=nodes), sheet)


def _same_figure(stroke: Result, outline: Result) -> bool:
    """Within 0.05 mm; a bend within 5 %: an outline's is looked for without the last two widths at its ends."""
    if stroke.measured is None or outline.measured is None:
        return stroke.measured == outline.measured
    slack = 0.05 * stroke.measured if stroke.rule == "fair-curve" else 0.05
    return outline.measured == pytest.approx(stroke.measured, abs=slack)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_outlines_are_judged_as_the_centrelines_are(path: Path) -> None:
    strokes, outlines = _both(path)
    assert outlines.error == ""
    for stroke, outline in zip(strokes.results, outlines.results, strict=True):
        assert (outline.rule, outline.kind) == (stroke.rule, stroke.kind), outline.message
        assert _same_figure(stroke, outline), (stroke.rule, stroke.measured, outline.measured)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_every_outlined_bar_has_its_length_and_its_width_back(path: Path) -> None:
    strokes, outlines = _both(path)
    assert strokes.panel is not None
    assert outlines.panel is not None
    for stroke, outline in zip(strokes.panel.scrolls, outlines.panel.scrolls, strict=True):
        assert outline.bar.unread == ""
        assert outline.bar.line.length == pytest.approx(stroke.bar.line.length, rel=0.002)
        assert outline.bar.width == pytest.approx(stroke.bar.width, abs=0.01)


def test_finer_nodes_change_no_verdict() -> None:
    strokes, outlines = _both(FIXTURES / "panel.svg", nodes=0.25)
    assert [r.kind for r in outlines.results] == [r.kind for r in strokes.results]


def test_a_scroll_fused_with_the_frame_is_reported_and_never_misread() -> None:
    path = FIXTURES / "panel.svg"
    sheet = sheet_for(path)
    strokes = check(path.read_bytes(), sheet)
    assert strokes.panel is not None
    assert strokes.panel.frame is not None
    members = [bar.id for bar in strokes.panel.frame.members]
    fused = check(as_outlines(path.read_bytes(), sheet, fused=(members[0], strokes.panel.scrolls[0].bar.id)), sheet)
    assert fused.error == ""
    assert any("fused" in result.message for result in fused.results)


def _frame(data: str, joints: str = "") -> Frame:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="1000mm" viewBox="-50 -50 700 1000">'
        f'<g id="frame"><path id="f" fill="#888" fill-rule="evenodd" d="{data}"/></g>{joints}</svg>'
    )
    frame = build(read(svg.encode()), load_default()).frame
    assert frame is not None
    return frame


# Inside 576 x 876, its two lower corners rounded to 6 mm; outside 600 x 900, square.
INSIDE = "M 12,12 H 588 V 882 A 6,6 0 0 1 582,888 H 18 A 6,6 0 0 1 12,882 Z"
OUTSIDE = {
    "plain": "M 0,0 H 600 V 900 H 0 Z",
    "nodes along the sides": "M 0,0 H 10 H 300 H 588 H 600 V 12 V 450 V 888 V 900 H 588 H 12 H 0 V 888 V 12 Z",
    "two nodes at each corner": "M 0,0.02 0.02,0 599.98,0 600,0.02 600,899.98 599.98,900 0.02,900 0,899.98 Z",
    "little steps where members met": "M 0,0 H 588 V 0.01 H 600 V 12 H 599.99 V 888 H 600 V 900 H 12 V 899.99 H 0 V 12 H 0.01 V 11 H 0 Z",  # noqa: E501
    "a node gone over twice": "M 0,0 0,0 300,0 300,0 600,0 600,900 600,900 0,900 0,900 Z",
}


@pytest.mark.parametrize("name", OUTSIDE)
def test_corners_are_found_among_the_nodes_that_a_union_leaves(name: str) -> None:
    """A frame of 600 x 900 mm of 12 mm bar drawn by hand: angles of 90 degrees, diagonals by Pythagoras."""
    frame = _frame(f"{OUTSIDE[name]} {INSIDE}")
    assert frame.trouble == ""
    assert frame.outside == pytest.approx((600, 900), abs=0.03)
    assert frame.inside == pytest.approx((576, 876), abs=0.03)
    assert frame.diagonals == pytest.approx([(600**2 + 900**2) ** 0.5] * 2, abs=0.05)
    assert [corner.angle for corner in frame.corners] == pytest.approx([90] * 4, abs=0.05)
    assert [corner.outside_radius for corner in frame.corners] == pytest.approx([0] * 4, abs=0.2)
    assert [corner.inside_radius for corner in frame.corners] == pytest.approx([0, 0, 6, 6], abs=0.2)


@pytest.mark.parametrize("radius", [3.0, 9.0, 18.0])
def test_outside_radii_are_measured_on_the_edge(radius: float) -> None:
    """A frame with its two upper corners rounded outside."""
    r = radius
    outside = f"M {r},0 H {600 - r} A {r},{r} 0 0 1 600,{r} V 900 H 0 V {r} A {r},{r} 0 0 1 {r},0 Z"
    frame = _frame(f"{outside} {INSIDE}")
    assert [corner.outside_radius for corner in frame.corners] == pytest.approx([r, r, 0, 0], abs=0.1)
