"""Basic shapes and arcs against closed forms and the SVG specification's own rules."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
import svgpathtools
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.drawing.arcs import arc
from lint.geometry.chain import Chain, Floats
from tests.drawing.drawings import along, aside, corners, drawn, path


def of(pieces: Sequence[tuple[float, ...]]) -> Floats:
    return along(Chain(np.array(pieces).reshape(-1, 4, 2), False))


def test_a_circle_stays_on_its_radius() -> None:
    """Eight pieces of 45 degrees: radial error of (4/3) tan(a/4) handles under 5e-6 (Goldapp 1991, from memory)."""
    points = along(drawn('<circle cx="50" cy="40" r="30" stroke="red"/>').chains[0])
    r = np.hypot(points[:, 0] - 50, points[:, 1] - 40)
    assert np.abs(r / 30 - 1).max() < 5e-6


def test_an_ellipse_starts_at_three_oclock_and_runs_towards_positive_angles() -> None:
    """SVG 2, 10.4: the equivalent path of an ellipse starts at (cx + rx, cy) and goes to (cx, cy + ry)."""
    ends = corners(drawn('<ellipse cx="50" cy="40" rx="30" ry="20" stroke="red"/>').chains[0])
    assert ends[0].tolist() == [80, 40]
    assert ends[2] == pytest.approx([50, 60])


def test_a_rect_is_four_lines_from_its_upper_left() -> None:
    chain = drawn('<rect x="1" y="2" width="30" height="20" stroke="red"/>').chains[0]
    assert chain.closed
    assert corners(chain).tolist() == [[1, 2], [31, 2], [31, 22], [1, 22], [1, 2]]


@pytest.mark.parametrize(
    ("given_radii", "rx", "ry"),
    [
        ('rx="5" ry="3"', 5, 3),
        ('rx="5"', 5, 5),  # SVG 1.1, 9.2: one given, the other is the same
        ('ry="4"', 4, 4),
        ('rx="90" ry="3"', 15, 3),  # clamped to half the width
        ('ry="90"', 15, 10),
    ],
)
def test_the_corners_of_a_rounded_rect_are_quarter_ellipses(given_radii: str, rx: float, ry: float) -> None:
    chain = drawn(f'<rect width="30" height="20" {given_radii} stroke="red"/>').chains[0]
    assert chain.closed
    assert corners(chain)[0] == pytest.approx([rx, 0])
    points = along(chain)
    corner = points[(points[:, 0] < rx - 1e-9) & (points[:, 1] < ry - 1e-9)]
    assert ((corner[:, 0] - rx) / rx) ** 2 + ((corner[:, 1] - ry) / ry) ** 2 == pytest.approx(1, abs=1e-5)


def test_lines_polylines_and_polygons() -> None:
    assert corners(drawn('<line x1="1" y1="2" x2="3" y2="4" stroke="red"/>').chains[0]).tolist() == [[1, 2], [3, 4]]
    polyline = drawn('<polyline points="1,2 3,4, 5 6" stroke="red"/>').chains[0]
    assert (corners(polyline).tolist(), polyline.closed) == ([[1, 2], [3, 4], [5, 6]], False)
    polygon = drawn('<polygon points="0,0 5 0 5-5" stroke="red"/>').chains[0]
    assert (corners(polygon).tolist(), polygon.closed) == ([[0, 0], [5, 0], [5, -5], [0, 0]], True)


def test_an_odd_number_of_coordinates_is_reported_and_the_pairs_kept() -> None:
    """SVG 1.1, 9.7.1: with an odd number of coordinates the element is in error."""
    one = drawn('<polyline points="0,0 5,0 5,5 7" stroke="red"/>')
    assert len(one.chains[0].cubics) == 2
    assert "list of points breaks off" in one.fault


@pytest.mark.parametrize(
    ("shape", "why"),
    [
        ('<rect width="-1" height="5" stroke="red"/>', "broken"),
        ('<rect width="0" height="5" stroke="red"/>', "empty"),
        ('<circle r="0" stroke="red"/>', "empty"),
        ('<circle r="two" stroke="red"/>', "broken"),
        ('<ellipse rx="-3" ry="2" stroke="red"/>', "broken"),
        ('<path stroke="red"/>', "empty"),
        ('<path d="M5 5" stroke="red"/>', "empty"),
        ('<path d="M 0 0 C 0,0 0,0 0,0" stroke="red"/>', "empty"),
    ],
)
def test_a_shape_without_geometry_is_listed(shape: str, why: str) -> None:
    assert aside(shape).why == why


@pytest.mark.parametrize(
    ("text", "px"),
    [("1in", 96), ("2.54cm", 96), ("25.4mm", 96), ("101.6Q", 96), ("72pt", 96), ("6pc", 96), ("96px", 96), ("96", 96)],
)
def test_absolute_lengths_are_those_of_css(text: str, px: float) -> None:
    """CSS Values and Units Level 3, 6.2: 1in = 2.54cm = 25.4mm = 101.6Q = 72pt = 6pc = 96px."""
    assert corners(drawn(f'<line x2="{text}" stroke="red"/>', 'viewBox="0 0 100 100"').chains[0])[
        1, 0
    ] == pytest.approx(px)


def test_percentages_are_of_the_viewport() -> None:
    """SVG 1.1, 7.10: of the width, the height, or the diagonal over the root of two."""
    root = 'viewBox="0 0 300 400"'
    assert corners(drawn('<line x2="50%" y2="25%" stroke="red"/>', root).chains[0])[1].tolist() == [150, 100]
    chain = drawn('<circle r="10%" stroke="red"/>', root).chains[0]
    assert corners(chain)[0, 0] == pytest.approx(math.sqrt((300**2 + 400**2) / 2) / 10)


def _turning(points: Floats) -> float:
    """Twice the signed area swept from the origin: positive towards positive angles."""
    a, b = points[:-1], points[1:]
    return float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum())


# Arcs: SVG 1.1, appendix F.6


def test_the_four_arcs_between_two_points() -> None:
    """SVG 1.1, 8.3.8: large and sweep flags choose among four arcs of the example M 125,75 a100,50 0 ?,? 100,50.

    The two ellipses through the ends have their centres at 225,75 and 125,125.
    """
    for large, sweep, centre in ((0, 0, (225, 75)), (0, 1, (125, 125)), (1, 0, (125, 125)), (1, 1, (225, 75))):
        points = along(drawn(path(f"M 125,75 a100,50 0 {large},{sweep} 100,50")).chains[0])
        on = ((points[:, 0] - centre[0]) / 100) ** 2 + ((points[:, 1] - centre[1]) / 50) ** 2
        assert on == pytest.approx(1, abs=2e-5)
        signed = _turning(points - centre)
        assert (signed > 0) == bool(sweep)
        turned = np.unwrap(np.arctan2((points[:, 1] - centre[1]) / 50, (points[:, 0] - centre[0]) / 100))
        assert abs(turned[-1] - turned[0]) == pytest.approx(math.radians(270 if large else 90), abs=1e-6)


def test_a_radius_too_small_grows_until_the_arc_fits() -> None:
    """F.6.6, step 3: scaled up by the root of lambda until there is exactly one solution, a half ellipse."""
    points = along(drawn(path("M0 0 A 10 10 0 0 1 60 0")).chains[0])
    assert np.hypot(points[:, 0] - 30, points[:, 1]) == pytest.approx(30, rel=5e-6)


@pytest.mark.parametrize("radius", ["1e-300", "1e-9", "1"])
def test_a_radius_however_small_grows_to_a_half_circle(radius: str) -> None:
    points = along(drawn(path(f"M0 0 A {radius} {radius} 0 1 1 6 8", transform="scale(9)")).chains[0]) / 9
    assert np.hypot(points[:, 0] - 3, points[:, 1] - 4) == pytest.approx(5, rel=5e-6)


@pytest.mark.parametrize("radii", ["1e8 1e8", "1e-200 1", "1e8 1"])
def test_an_arc_too_flat_to_tell_is_a_straight_line(radii: str) -> None:
    points = along(drawn(path(f"M0 0 A {radii} 0 0 1 6 0")).chains[0])
    assert np.abs(points[:, 1]).max() < 1e-6


@pytest.mark.parametrize("radii", ["0 5", "5 0", "0 0"])
def test_a_radius_of_zero_makes_a_straight_line(radii: str) -> None:
    """F.6.2: if rx = 0 or ry = 0 then treat this as a straight line."""
    assert along(drawn(path(f"M0 0 A {radii} 0 0 1 60 0")).chains[0])[:, 1] == pytest.approx(0)


def test_an_arc_that_ends_where_it_starts_is_left_out() -> None:
    """F.6.2: if the end points are identical, then this is equivalent to omitting the segment."""
    assert corners(drawn(path("M0 0 A 5 5 0 1 1 0 0 h9")).chains[0]).tolist() == [[0, 0], [9, 0]]


def test_negative_radii_lose_their_sign() -> None:
    """F.6.6, step 2."""
    assert arc(0j, -30, -20, 10, False, True, 9 + 9j) == arc(0j, 30, 20, 10, False, True, 9 + 9j)


finite = st.floats(-100, 100)


@settings(max_examples=50, deadline=None)
@given(finite, finite, st.floats(0.5, 200), st.floats(0.5, 200), st.floats(-360, 360), st.booleans(), st.booleans())
def test_an_arc_lies_on_the_ellipse_that_a_second_reader_finds(
    x: float, y: float, rx: float, ry: float, turned: float, large: bool, sweep: bool
) -> None:
    """svgpathtools' own points of the same arc (general-purpose library), and the ellipse's equation."""
    end = complex(x, y)
    if abs(end) < 0.1:
        return
    reference = svgpathtools.Arc(0j, complex(rx, ry), turned, large, sweep, end)
    pieces = of(arc(0j, rx, ry, turned, large, sweep, end))
    spin = np.exp(-1j * math.radians(turned))
    z = ((pieces[:, 0] + 1j * pieces[:, 1]) - reference.center) * spin
    on = np.hypot(z.real / reference.radius.real, z.imag / reference.radius.imag)
    assert np.abs(on - 1).max() < 2e-4
    middle = reference.point(0.5)
    size = max(reference.radius.real, reference.radius.imag)
    assert np.hypot(pieces[:, 0] - middle.real, pieces[:, 1] - middle.imag).min() < 0.06 * size


def test_arcs_leave_the_imported_modules_as_they_were() -> None:
    import sys

    before = {name: sys.modules[name] for name in sys.modules if name.startswith(("svgpathtools", "scipy"))}
    arc(0j, 3, 4, 10, False, True, 1 + 1j)
    after = {name: sys.modules[name] for name in sys.modules if name.startswith(("svgpathtools", "scipy"))}
    assert before == after


def test_reading_arcs_loads_neither_scipy_nor_an_svg_writer() -> None:
    import subprocess
    import sys

    script = (
        "import sys; from lint.drawing.arcs import arc; arc(0j, 3, 4, 1, False, True, 1+1j);"
        "print([m for m in sys.modules if m.partition('.')[0] in ('scipy', 'svgwrite', 'svgpathtools')]);"
        "import svgpathtools, scipy.integrate; svgpathtools.parse_path('M0 0h1').length()"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
