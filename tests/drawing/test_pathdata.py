"""The grammar of path data: SVG 1.1 (Second Edition), 8.3.9, and its error rule, F.2."""

from __future__ import annotations

import numpy as np
import pytest

from lint.drawing.pathdata import TooMany, commands
from lint.drawing.values import BadNumber
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import aside, corners, drawn, path


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        # SVG 1.1, 8.3.9: "M 100 100 L 200 200" may be written in each of these ways
        ("M 100-200", [("M", [100, -200])]),
        ("M100,100L200,200", [("M", [100, 100]), ("L", [200, 200])]),
        ("M 0.6.5", [("M", [0.6, 0.5])]),  # the section's own example: 0.6 and .5
        ("m1e2-1E-1", [("m", [100, -0.1])]),
        ("M+1.,+.5", [("M", [1, 0.5])]),
        ("\n\tM\r\n1 ,\f2 Z ", [("M", [1, 2]), ("Z", [])]),
        ("M0 0a1 1 0 0110 10", [("M", [0, 0]), ("a", [1, 1, 0, 0, 1, 10, 10])]),  # glued flags
        ("M0 0a1,1,30,1,0,-.5.5", [("M", [0, 0]), ("a", [1, 1, 30, 1, 0, -0.5, 0.5])]),
        ("M0 0a1 1 0 002 2 3 3 0 1140 40", [("M", [0, 0]), ("a", [1, 1, 0, 0, 0, 2, 2, 3, 3, 0, 1, 1, 40, 40])]),
        ("M1 2 3 4v6 594", [("M", [1, 2, 3, 4]), ("v", [6, 594])]),
        ("", []),
        ("  ", []),
    ],
)
def test_path_data_is_read_as_its_grammar_says(data: str, expected: list[tuple[str, list[float]]]) -> None:
    assert commands(data) == (expected, None)


@pytest.mark.parametrize(
    ("data", "read", "at"),
    [
        ("M10 10 L20 20 L30", 2, 17),  # F.2: up to the segment with the error
        ("M10 10 L20 20 X 30 30", 2, 14),
        ("M10 10 L20 20 30 30 40", 2, 22),
        ("M10 10 L20 NaN", 1, 11),
        ("L10 10", 0, 0),
        ("M,10 10", 0, 1),
        ("M10,,10", 0, 3),
        ("M10 10 a5 5 0 2 1 9 9", 1, 8),
        ("M10 10 L 20 20,", 2, 14),
        ("M10 10 zz 5", 3, 10),
        ("10 10", 0, 0),
        ("M10 10 l5", 1, 9),
        ("M10 10 l1e 5", 1, 9),
        ("M10 10 l0x10 5", 1, 9),
    ],
)
def test_a_broken_path_is_read_up_to_the_error_and_the_error_is_placed(data: str, read: int, at: int) -> None:
    found, fault = commands(data)
    assert fault is not None
    assert (len(found), fault.at) == (read, at)


def test_complete_sets_of_numbers_before_the_error_are_kept() -> None:
    one = drawn(path("M0 0 L10 0 20 0 30"))
    assert corners(one.chains[0]).tolist() == [[0, 0], [10, 0], [20, 0]]
    assert one.fault == ("Its path data breaks off at its end, where a number should stand; it was read up to there.")


def test_a_path_with_nothing_before_its_error_is_listed_as_broken() -> None:
    assert aside(path("10 10 L 20 20")).why == "broken"


@pytest.mark.parametrize("number", ["1e999", "-1e400", "1000000000", "1" * 65])
def test_a_number_no_drawing_needs_is_refused_with_its_place(number: str) -> None:
    with pytest.raises(BadNumber):
        commands(f"M0 0 L{number} 0")
    with pytest.raises(UnreadableDrawing, match=r"Line 1: the path 'here' holds .*number.*Draw this object again"):
        drawn(path(f"M0 0 L{number} 0", id="here"))


def test_half_a_million_segments_are_read_and_one_more_is_refused() -> None:
    found, fault = commands("M0 0h" + "1 " * 499_999)
    assert (len(found[1][1]), fault) == (499_999, None)
    with pytest.raises(TooMany):
        commands("M0 0" + "h1" * 500_001)


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        # SVG 1.1, 8.3.2 to 8.3.4: moves, implicit lines, relative commands, the start after z
        ("M 1 1 2 2 3 1", [[[1, 1], [2, 2], [3, 1]]]),
        ("m 1 1 1 1 1 -1", [[[1, 1], [2, 2], [3, 1]]]),
        ("M5 5h5v5H0V0", [[[5, 5], [10, 5], [10, 10], [0, 10], [0, 0]]]),
        ("M1 1h2v2z", [[[1, 1], [3, 1], [3, 3], [1, 1]]]),
        ("M1 1h2v2z m10 10 h1", [[[1, 1], [3, 1], [3, 3], [1, 1]], [[11, 11], [12, 11]]]),
        ("M1 1h2v2z h-1", [[[1, 1], [3, 1], [3, 3], [1, 1]], [[1, 1], [0, 1]]]),
        ("M1 1h2 M9 9", [[[1, 1], [3, 1]]]),  # the stray move at the end of cairo's paths
        ("M1 1h2v2H1V1z", [[[1, 1], [3, 1], [3, 3], [1, 3], [1, 1]]]),
    ],
)
def test_moves_and_lines_go_where_the_specification_sends_them(data: str, expected: list[list[list[float]]]) -> None:
    assert [corners(chain).tolist() for chain in drawn(path(data)).chains] == expected


def test_a_path_that_returns_to_its_start_without_z_is_closed() -> None:
    assert drawn(path("M0 0 10 0 10 10 0 0.000001")).chains[0].closed
    assert not drawn(path("M0 0 10 0 10 10 0 0.01")).chains[0].closed


def test_smooth_curves_reflect_the_last_control_point() -> None:
    """SVG 1.1, 8.3.6: the worked example M100,200 C100,100 250,100 250,200 S400,300 400,200 reflects to 250,300."""
    cubics = drawn(path("M100,200 C100,100 250,100 250,200 S400,300 400,200")).chains[0].cubics
    assert cubics[1].tolist() == [[250, 200], [250, 300], [400, 300], [400, 200]]


def test_a_smooth_curve_after_a_line_starts_at_its_own_point() -> None:
    """SVG 1.1, 8.3.6: the control point is the current point where the last command was no curve."""
    assert drawn(path("M0 0h5s5 5 5 0")).chains[0].cubics[1, 1].tolist() == [5, 0]
    assert drawn(path("M0 0q5 5 5 0s5 5 5 0")).chains[0].cubics[1, 1].tolist() == [5, 0]


def test_a_quadratic_is_raised_to_the_same_curve() -> None:
    """SVG 1.1, 8.3.7: M200,300 Q400,50 600,300 T1000,300, whose second control point is 800,550."""
    cubics = drawn(path("M200,300 Q400,50 600,300 T1000,300")).chains[0].cubics
    for start, control, end, piece in (
        ((200, 300), (400, 50), (600, 300), cubics[0]),
        ((600, 300), (800, 550), (1000, 300), cubics[1]),
    ):
        for t in (0.25, 0.5, 0.8):
            on = np.array(start) * (1 - t) ** 2 + 2 * t * (1 - t) * np.array(control) + t * t * np.array(end)
            p = (
                piece[0] * (1 - t) ** 3
                + 3 * t * (1 - t) ** 2 * piece[1]
                + 3 * t * t * (1 - t) * piece[2]
                + t**3 * piece[3]
            )
            assert p == pytest.approx(on)
