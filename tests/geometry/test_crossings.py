"""Crossings counted: of a lattice as many as its bars multiplied, of a star polygon by its closed form."""

from __future__ import annotations

import math

import numpy as np
import pytest

from lint.geometry.crossings import FEW, crossed
from lint.geometry.curve import Curve, curve


def lattice(across: int, down: int) -> list[Curve]:
    upright = [curve(np.array([(10.0 * k, -5), (10.0 * k, 10.0 * down)])) for k in range(across)]
    level = [curve(np.array([(-5, 10.0 * k), (10.0 * across, 10.0 * k)])) for k in range(down)]
    return [*upright, *level]


def star(points: int) -> Curve:
    """The star polygon {n / (n - 1) / 2} of an odd number of points."""
    turns = 2 * math.pi * np.arange(points) * (points // 2) / points
    return curve(100 * np.column_stack([np.cos(turns), np.sin(turns)]), closed=True)


@pytest.mark.parametrize(("across", "down"), [(8, 8), (5, 20), (1, 40)])
def test_a_lattice_has_as_many_crossings_as_its_bars_multiplied(across: int, down: int) -> None:
    lines = lattice(across, down)
    assert crossed(lines, [0.0] * len(lines), across * down) is None
    found = crossed(lines, [0.0] * len(lines), across * down - 1)
    assert found is not None
    assert found.pairs == across * down


@pytest.mark.parametrize("points", [7, 15, 31])
def test_a_star_polygon_crosses_itself_as_often_as_its_closed_form_says(points: int) -> None:
    """The star polygon {n/m} has n (m - 1) crossings (Coxeter, "Regular Polytopes", 6.2: m - 1 on either half of each
    side, each shared by two sides)."""
    most = points * (points // 2 - 1)
    assert crossed([star(points)], [0.0], most) is None
    assert crossed([star(points)], [0.0], most - 1) is not None


def test_the_line_with_most_crossings_is_named() -> None:
    lines = lattice(1, 40)
    found = crossed(lines, [0.0] * len(lines), 30)
    assert found is not None
    assert found.worst == 0


def test_lines_side_by_side_count_only_where_they_are_near() -> None:
    lines = [curve(np.array([(0.0, k), (100.0, k)])) for k in range(10)]
    assert crossed(lines, [0.9] * 10, 0) is None
    found = crossed(lines, [1.1] * 10, 8)
    assert found is not None
    assert found.pairs == 9


def test_the_turns_of_a_spiral_and_its_own_neighbours_are_no_crossings() -> None:
    turn = np.linspace(0, 10 * math.pi, FEW + 2000)
    spiral = curve(np.column_stack([np.cos(turn), np.sin(turn)]) * (20 + 2 * turn)[:, None])
    assert crossed([spiral], [1.5], 0) is None


def test_nothing_has_no_crossings() -> None:
    assert crossed([], [], 0) is None
