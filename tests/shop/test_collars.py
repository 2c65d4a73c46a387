"""Collar stock against the examples of the trade."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import MultiPolygon, Point, box

from lint.shop.collars import RULES, InBundle, perimeter, rule_for, stock_length

INCH = 25.4
TWO_SQUARES = (InBundle(width=12, depth=12), InBundle(width=12, depth=12))
TWO_ROUNDS = (InBundle(width=12, depth=None), InBundle(width=12, depth=None))


def test_two_half_inch_squares_take_three_and_a_quarter_inches() -> None:
    # The Backyard Blacksmith, 2006, p. 101: 4 x 1/2 + 2 x 1/2 + 2 x 1/8 = 3 1/4 in, t = 1/8 in
    bars = (InBundle(width=INCH / 2, depth=INCH / 2),) * 2
    assert stock_length(bars, INCH / 8, "butt") == pytest.approx(3.25 * INCH)


@pytest.mark.parametrize(
    ("rule", "asked"), [("butt", 82.0), ("2.5 t", 84.5), ("3 t", 87.0), ("round", 87.708), ("mitred", 92.0)]
)
def test_a_24_by_12_bundle_takes_what_each_rule_says(rule: str, asked: float) -> None:
    # bundle 24 x 12, t = 5, P = 72 (trade facts, section 4a, computed there by hand)
    assert stock_length(TWO_SQUARES, 5, rule) == pytest.approx(asked, abs=0.0005)


@pytest.mark.parametrize(
    ("rule", "asked"), [("butt", 3.25), ("2.5 t", 3.3125), ("3 t", 3.375), ("round", 3.3927), ("mitred", 3.5)]
)
def test_a_1_by_half_inch_bundle_takes_what_each_rule_says(rule: str, asked: float) -> None:
    bars = (InBundle(width=INCH / 2, depth=INCH / 2),) * 2
    assert stock_length(bars, INCH / 8, rule) / INCH == pytest.approx(asked, abs=0.00005)


def test_the_k_of_each_rule_is_the_published_one() -> None:
    found = [RULES[name].k for name in ("butt", "2.5 t", "3 t", "round")]
    assert found == pytest.approx([0.3183, 0.3979, 0.4775, 0.5], abs=0.00005)


def test_two_rounds_side_by_side_take_a_taut_band() -> None:
    # mid-line pi (d + t) + 2 d: d = 12, t = 4 gives 74.26548 (trade facts, section 4a)
    rule = rule_for(TWO_ROUNDS, "butt")
    assert rule.name == "round"
    assert stock_length(TWO_ROUNDS, 4, rule.name) == pytest.approx(74.26548, abs=0.000005)


def slow_perimeter(bars: tuple[InBundle, ...]) -> float:
    """The hull of the sections by shapely: a twin that shares no code."""
    start, shapes = 0.0, []
    for bar in bars:
        if bar.depth is None:
            shapes.append(Point(start + bar.width / 2, 0).buffer(bar.width / 2, quad_segs=2000))
        else:
            shapes.append(box(start, -bar.depth / 2, start + bar.width, bar.depth / 2))
        start += bar.width
    return float(MultiPolygon(shapes).convex_hull.length)


@pytest.mark.parametrize(
    "bars",
    [
        (InBundle(width=12, depth=12), InBundle(width=6, depth=12), InBundle(width=6, depth=12)),
        (InBundle(width=12, depth=25), InBundle(width=6, depth=12)),
        (InBundle(width=10, depth=None), InBundle(width=16, depth=None)),
        (InBundle(width=10, depth=None), InBundle(width=6, depth=20), InBundle(width=10, depth=None)),
        (InBundle(width=12, depth=None),) * 3,
        (InBundle(width=20, depth=5),),
    ],
)
def test_the_perimeter_is_the_hulls(bars: tuple[InBundle, ...]) -> None:
    assert perimeter(bars) == pytest.approx(slow_perimeter(bars), rel=2e-6)


def test_a_single_round_is_pi_d() -> None:
    assert perimeter((InBundle(width=10, depth=None),)) == pytest.approx(math.pi * 10)


def test_a_collar_round_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="round nothing"):
        perimeter(())
