"""A synthetic photograph: the approved panel seen by a known camera, with a known error in one scroll.

The camera is a plain pinhole (Hartley and Zisserman, Multiple View Geometry, 2nd ed. 2004, section 6.1), so where
each traced point must come back to is known exactly.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from lint.commands._job import Wanted, verdict_on
from lint.errors import Refused, UnreadableDrawing
from lint.geometry.curve import curve
from lint.geometry.overlay import overlay
from lint.panel.panel import Panel
from lint.record.traced import traced_results
from lint.record.tracing import read_tracing
from lint.result import Kind, Result
from lint.sheet import load_default

ROOT = Path(__file__).parent.parent.parent
Floats = NDArray[np.float64]
SHEET = load_default()


@pytest.fixture(scope="module")
def panel() -> Panel:
    panel = verdict_on(str(ROOT / "fixtures" / "panel.svg"), Wanted()).panel
    assert panel is not None
    return panel


def photographed(points: Floats, *, tilt: float = 14.0, roll: float = 4.0, away: float = 900.0) -> Floats:
    """Points of the panel's plane (mm) on the photograph (px): the camera `away` mm off, tilted and rolled, deg."""
    a, b = np.radians(tilt), np.radians(roll)
    about_y = np.array([[np.cos(a), 0, np.sin(a)], [0, 1, 0], [-np.sin(a), 0, np.cos(a)]])
    about_z = np.array([[np.cos(b), -np.sin(b), 0], [np.sin(b), np.cos(b), 0], [0, 0, 1]])
    world = np.column_stack([points - [170.0, 140.0], np.zeros(len(points))]) @ (about_z @ about_y).T
    world[:, 2] += away
    seen: Floats = 2600.0 * world[:, :2] / world[:, 2:] + [1500.0, 1100.0]
    return seen


def traced_svg(
    panel: Panel, scrolls: list[Floats], known: str = "280", outline: Floats | None = None, /, **camera: float
) -> bytes:
    """The tracing that a careful hand would make of the photograph."""
    assert panel.frame is not None
    corners = np.array([corner.at for corner in panel.frame.corners])
    edge = corners if outline is None else outline
    below = np.array([corners[3] + [0, 14], corners[2] + [0, 14]])

    def data(points: Floats) -> str:
        return "M " + " L ".join(f"{x:.2f},{y:.2f}" for x, y in photographed(points, **camera))

    lines = "".join(
        f'<path id="s{n}" d="{data(points)}" fill="none" stroke="red"/>' for n, points in enumerate(scrolls)
    )
    (ax, ay), (bx, by) = photographed(below, **camera)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="3000" height="2200" viewBox="0 0 3000 2200">'
        f'<g id="frame"><path d="{data(edge)} Z" fill="none" stroke="red"/></g><g id="scrolls">{lines}</g>'
        f'<g id="dimension"><line x1="{ax}" y1="{ay}" x2="{bx}" y2="{by}" stroke="blue"/>'
        f'<text x="{(ax + bx) / 2}" y="{(ay + by) / 2 - 8}" font-size="20">{known}</text></g></svg>'
    ).encode()


def _results(panel: Panel, scrolls: list[Floats], **camera: float) -> dict[str, Result]:
    tracing = read_tracing(traced_svg(panel, scrolls, **camera), SHEET)
    return {result.rule: result for result in traced_results(tracing, panel, SHEET)}


def _bumped(points: Floats, height: float) -> Floats:
    """The curve with its first third pushed aside by up to `height` mm, smoothly: a scroll that sprang open."""
    line = curve(points)
    s = line.stations / line.length
    tangent = line.tangent(line.stations)
    normal = np.column_stack([-tangent[:, 1], tangent[:, 0]])
    push = np.where(s < 1 / 3, np.sin(np.pi * s * 3) ** 2, 0.0)
    return np.asarray(points + normal * (height * push)[:, None])


def test_a_piece_forged_as_drawn_comes_back_as_drawn(panel: Panel) -> None:
    found = _results(panel, [scroll.bar.line.points for scroll in panel.scrolls])
    assert [found[rule].kind for rule in ("traced-scrolls", "traced-pairs")] == [Kind.PASS, Kind.PASS]
    assert found["traced-scrolls"].measured == pytest.approx(0.0, abs=0.1)


@pytest.mark.parametrize("tilt", [0.0, 10.0, 25.0])
@pytest.mark.parametrize("error", [2.0, 4.0])
def test_a_known_error_in_one_scroll_comes_back_within_three_tenths(panel: Panel, tilt: float, error: float) -> None:
    drawn = [scroll.bar.line for scroll in panel.scrolls]
    forged = _bumped(drawn[0].points, error)
    true = overlay(curve(forged), drawn[0], enough=50.0).distance
    found = _results(panel, [forged, drawn[1].points], tilt=tilt)["traced-scrolls"]
    assert true > 0.4 * error
    assert found.measured == pytest.approx(true, abs=0.3)
    places = {place.note.split(":")[0]: place.measured for place in found.places}
    assert places["scroll 2"] == pytest.approx(0.0, abs=0.1)


def test_a_pair_that_parts_is_told_though_each_is_within_its_own_limit(panel: Panel) -> None:
    drawn = [scroll.bar.line.points for scroll in panel.scrolls]
    found = _results(panel, [_bumped(drawn[0], 3.0), _bumped(drawn[1], 3.0)])
    assert found["traced-scrolls"].kind is Kind.PASS
    assert found["traced-pairs"].kind is Kind.FAIL


def test_straight_lines_from_corner_to_corner_say_nothing_of_the_error(panel: Panel) -> None:
    found = _results(panel, [scroll.bar.line.points for scroll in panel.scrolls])
    assert (found["traced-frame"].kind, found["traced-frame"].measured) == (Kind.REVIEW, None)
    assert "is not known" in found["traced-scrolls"].message


def test_sides_that_a_lens_bends_by_a_known_amount_give_that_error_back(panel: Panel) -> None:
    """Each side bowed outward in the panel's plane by 1.5 mm at its middle, as a lens bows it: the line of least
    squares through a bow of height h leaves about 2 h / 3 at its ends and h / 3 at its middle (by integration)."""
    assert panel.frame is not None
    corners = np.array([corner.at for corner in panel.frame.corners])
    middle = corners.mean(axis=0)
    t = np.linspace(0.0, 1.0, 41)[:-1, None]
    sides = []
    for n in range(4):
        a, b = corners[n], corners[(n + 1) % 4]
        out = (a + b) / 2 - middle
        sides.append(a + (b - a) * t + out / np.linalg.norm(out) * 1.5 * 4 * t * (1 - t))
    svg = traced_svg(panel, [scroll.bar.line.points for scroll in panel.scrolls], "280", np.concatenate(sides))
    found = {result.rule: result for result in traced_results(read_tracing(svg, SHEET), panel, SHEET)}
    assert found["traced-frame"].measured is not None
    assert 0.5 <= found["traced-frame"].measured <= 1.0
    assert found["traced-frame"].kind is Kind.PASS


@pytest.mark.parametrize("roll", [90.0, 180.0, -90.0])
def test_a_photograph_that_lies_on_its_side_is_read_as_well(panel: Panel, roll: float) -> None:
    found = _results(panel, [scroll.bar.line.points for scroll in panel.scrolls], roll=roll)
    assert found["traced-scrolls"].measured == pytest.approx(0.0, abs=0.1)


def test_a_known_length_that_does_not_fit_asks_a_person_to_look(panel: Panel) -> None:
    svg = traced_svg(panel, [scroll.bar.line.points for scroll in panel.scrolls], "300 mm")
    results = {result.rule: result for result in traced_results(read_tracing(svg, SHEET), panel, SHEET)}
    assert results["traced-frame"].kind is Kind.REVIEW


def test_a_scroll_that_was_not_traced_is_missed(panel: Panel) -> None:
    found = _results(panel, [panel.scrolls[0].bar.line.points])["traced-scrolls"]
    assert found.kind is Kind.FAIL
    assert "1 not traced" in found.message


def test_a_tracing_without_a_frame_is_refused_with_what_to_trace(panel: Panel) -> None:
    with pytest.raises(UnreadableDrawing, match="trace the frame's outside edge"):
        read_tracing(
            b'<svg xmlns="http://www.w3.org/2000/svg"><path id="scroll" d="M0 0H9" stroke="red"/></svg>', SHEET
        )


def test_corners_on_one_line_are_refused(panel: Panel) -> None:
    svg = (
        b'<svg xmlns="http://www.w3.org/2000/svg"><path id="frame" d="M0 0H900Z" fill="none" stroke="red"/>'
        b'<path id="scroll" d="M0 0C9 9 9 0 20 30" fill="none" stroke="red"/></svg>'
    )
    with pytest.raises((UnreadableDrawing, Refused)):
        traced_results(read_tracing(svg, SHEET), panel, SHEET)
