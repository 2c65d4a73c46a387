"""The same drawing as centrelines and as outlines gives the same verdict and the same figures."""

from __future__ import annotations

from pathlib import Path

import pytest

from lint.check import check
from lint.result import Result
from lint.sheet import sheet_for
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
