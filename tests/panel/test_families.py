"""Families of scrolls: who covers whom, whatever the order, the hand and the way of drawing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from lint.panel.copies import copies
from lint.panel.families import sort_into_families
from lint.panel.laying import compared_curve
from lint.panel.parts import DrawnAs, Scroll
from lint.panel.scrolls import shape_of
from tests.panel.metalwork import SHEET, bar
from tests.panel.test_scrolls import c_scroll, s_scroll

Floats = NDArray[np.float64]


def scroll(name: str, points: Floats) -> Scroll:
    return shape_of(bar(name, points), SHEET)


def moved(points: Floats, degrees: float, over: bool = False, back: bool = False) -> Floats:
    turn = np.radians(degrees)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    new: Floats = points @ spin * [-1 if over else 1, 1] + [310.0, -120.0]
    return new[::-1] if back else new


def families(scrolls: list[Scroll]) -> list[int]:
    sorted_ones, _ = sort_into_families(scrolls, [], SHEET, True)
    return [one.family for one in sorted_ones]


def test_a_mirrored_turned_and_reversed_scroll_is_the_same_family() -> None:
    plain = c_scroll(1.3, 1.1)
    four = [plain, moved(plain, 37), moved(plain, 200, over=True), moved(plain, 90, over=True, back=True)]
    assert families([scroll(f"s{k}", one) for k, one in enumerate(four)]) == [1, 1, 1, 1]


def test_families_are_numbered_by_first_appearance() -> None:
    c, s = c_scroll(1.3, 1.1), s_scroll(1.3, 1.1)
    made = [scroll("a", s), scroll("b", c), scroll("c", moved(s, 10)), scroll("d", moved(c, 20))]
    assert families(made) == [1, 2, 1, 2]


@pytest.mark.parametrize(("grown", "same"), [(1.004, True), (1.1, False)])
def test_a_scaled_copy_is_of_the_family_only_within_the_tolerance(grown: float, same: bool) -> None:
    """A copy scaled about its middle lies off by (scale - 1) times its half extent at the most, some 40 mm here."""
    plain = c_scroll(1.3, 1.3)
    found = families([scroll("a", plain), scroll("b", plain * grown)])
    assert (found[0] == found[1]) == same


def test_samples_join_the_family_they_match_and_open_one_of_their_own() -> None:
    c, s = c_scroll(1.3, 1.1), s_scroll(1.3, 1.1)
    panel, samples = sort_into_families(
        [scroll("a", c), scroll("b", moved(c, 50))], [scroll("x", moved(c, 5)), scroll("y", s)], SHEET, True
    )
    assert [one.family for one in panel] == [1, 1]
    assert [one.family for one in samples] == [1, 2]


def test_a_chain_of_matching_scrolls_is_one_family_in_any_order() -> None:
    """Each covers its neighbour within 1/16 in, the first and the last do not."""
    plain = c_scroll(1.3, 1.3)
    chain = [scroll(f"s{k}", plain * (1 + 0.025 * k)) for k in range(6)]
    assert set(families(chain)) == {1}
    assert set(families(chain[::-1])) == {1}
    assert len(set(families([chain[0], chain[5]]))) == 2


@given(st.permutations(range(6)))
@settings(max_examples=15, deadline=None)
def test_order_changes_no_family(order: list[int]) -> None:
    c, s, small = c_scroll(1.3, 1.1), s_scroll(1.3, 1.1), c_scroll(1.3, 1.1) * 0.9
    six = [scroll(f"s{k}", moved(one, 31.0 * k, over=k % 2 == 1)) for k, one in enumerate([c, c, s, s, small, small])]
    found = families([six[k] for k in order])
    pairs = {frozenset(k for k, family in zip(order, found, strict=True) if family == n) for n in set(found)}
    assert pairs == {frozenset({0, 1}), frozenset({2, 3}), frozenset({4, 5})}


def test_without_a_scale_nothing_is_compared() -> None:
    (one,), _ = sort_into_families([scroll("a", c_scroll(1.3, 1.1))], [], SHEET, False)
    assert one.family == 0
    assert one.symmetry is None


def test_a_closed_path_and_an_unread_outline_have_no_family() -> None:
    ring = shape_of(bar("ring", c_scroll(1, 1), closed=True), SHEET)
    odd = scroll("odd", c_scroll(1, 1))
    odd = replace(odd, bar=replace(odd.bar, unread="branching"))
    assert families([ring, odd]) == [0, 0]


def test_a_symmetrical_scroll_has_no_distance_to_itself_and_a_lopsided_one_has() -> None:
    made, _ = sort_into_families(
        [scroll("c", c_scroll(1.3, 1.3)), scroll("s", s_scroll(1.3, 1.3)), scroll("odd", c_scroll(1.6, 1.0))],
        [],
        SHEET,
        True,
    )
    assert made[0].symmetry == pytest.approx(0.0, abs=0.05)
    assert made[1].symmetry == pytest.approx(0.0, abs=0.05)
    assert made[2].symmetry is not None
    assert made[2].symmetry > 5


def test_an_outline_is_compared_without_its_ends() -> None:
    """The last two bar widths at each end are left out: ends are meant to differ."""
    drawn = replace(bar("o", c_scroll(1.3, 1.1)), drawn_as=DrawnAs.OUTLINE)
    assert compared_curve(drawn, SHEET).length == pytest.approx(drawn.line.length - 4 * 6.0, abs=0.01)
    assert compared_curve(bar("c", c_scroll(1.3, 1.1)), SHEET).length == pytest.approx(drawn.line.length)


def test_exact_copies_are_found_and_near_ones_are_not() -> None:
    plain = c_scroll(1.3, 1.1)
    lines = [
        bar("s", points).line
        for points in (plain, moved(plain, 33), moved(plain, 5, over=True, back=True), plain * 1.0005, s_scroll(1.3, 1))
    ]
    assert copies(lines) == (0, 0, 0, 3, 4)


@given(st.floats(0, 360), st.booleans(), st.booleans())
@settings(max_examples=25, deadline=None)
def test_a_copy_is_a_copy_however_it_is_moved(degrees: float, over: bool, back: bool) -> None:
    plain = s_scroll(1.25, 1.0)
    assert copies([bar("a", plain).line, bar("b", moved(plain, degrees, over, back)).line]) == (0, 0)
