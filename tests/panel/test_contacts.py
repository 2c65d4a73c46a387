"""Who touches whom: contacts, run-ins, near misses, turns, crossings."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from lint.geometry.area import area
from lint.panel.contacts import contacts_of
from lint.panel.parts import FRAME, Bar, Frame
from tests.panel.metalwork import SHEET, arc, bar


def frame(width: float, height: float, thick: float = 12.0) -> Frame:
    """A frame whose inside is `width` by `height` from (0, 0)."""
    outer = [(-thick, -thick), (width + thick, -thick), (width + thick, height + thick), (-thick, height + thick)]
    inner = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    metal = area([np.array(outer), np.array(inner)])
    return Frame(
        members=(), metal=metal, outer=metal.outer[0], inner=metal.holes[0], outside=None, inside=None, sides=None,
        diagonals=None, bar_width=thick, corners=(), meetings=(), joints=(), closed=True,
    )  # fmt: skip


def ring(name: str, x: float, y: float, radius: float) -> Bar:
    """A ring of 6 mm bar whose outer edge has this radius."""
    return bar(name, arc(x, y, radius - 3)[:-1], closed=True)


@pytest.mark.parametrize("gap", [-0.4, -0.05, 0.0, 0.3, 0.5])
def test_bars_within_the_tolerance_either_way_touch_and_nothing_else(gap: float) -> None:
    """A touch drawn as a tiny overlap or a hair's gap is a contact: 0.5 mm is the sheet's."""
    contacts, closeness, crossings = contacts_of(None, [ring("a", 0, 0, 50), ring("b", 100 + gap, 0, 50)], SHEET)
    assert [c.bars for c in contacts] == [("a", "b")]
    assert contacts[0].gap == pytest.approx(max(gap, 0), abs=0.01)
    assert contacts[0].at == pytest.approx((50 + gap / 2, 0), abs=1.1)  # boundary points stand 2 mm apart
    assert closeness == ()
    assert not crossings


@pytest.mark.parametrize("depth", [0.6, 1.0, 2.5])
def test_a_run_in_has_the_depth_that_the_lens_of_two_circles_has(depth: float) -> None:
    """Lens of two circles of radius R at distance d: its width is 2R - d (trade facts, computed)."""
    contacts, closeness, _ = contacts_of(None, [ring("a", 0, 0, 50), ring("b", 100 - depth, 0, 50)], SHEET)
    assert len(contacts) == len(closeness) == 1
    assert closeness[0].depth == pytest.approx(depth, abs=0.02)
    assert closeness[0].shared is not None


@pytest.mark.parametrize("gap", [0.7, 1.5, 2.9])
def test_a_gap_under_three_millimetres_is_a_near_miss(gap: float) -> None:
    contacts, closeness, _ = contacts_of(None, [ring("a", 0, 0, 50), ring("b", 100 + gap, 0, 50)], SHEET)
    assert contacts == ()
    assert [round(c.gap, 1) for c in closeness] == [gap]
    assert closeness[0].depth == 0.0


def test_a_clear_gap_is_nothing() -> None:
    assert contacts_of(None, [ring("a", 0, 0, 50), ring("b", 103.0, 0, 50)], SHEET) == ((), (), False)


def test_a_gap_that_a_third_bar_fills_is_none() -> None:
    thin = bar("thin", [(50.5, -90), (50.5, 90)], 1.0)
    contacts, closeness, _ = contacts_of(None, [ring("a", 0, 0, 50), thin, ring("b", 101, 0, 50)], SHEET)
    assert {c.bars for c in contacts} == {("a", "thin"), ("thin", "b")}
    assert closeness == ()


def test_a_scroll_touches_the_frame_at_each_place_of_its_own() -> None:
    contacts, _, _ = contacts_of(frame(100, 300), [ring("a", 50, 50, 50)], SHEET)
    assert [c.bars for c in contacts] == [(FRAME, "a")] * 3
    assert {(round(c.at[0]), round(c.at[1])) for c in contacts} == {(0, 50), (50, 0), (100, 50)}


def test_bars_that_cross_lie_over_one_another() -> None:
    _, closeness, crossings = contacts_of(None, [bar("a", [(0, -50), (0, 50)]), bar("b", [(-50, 0), (50, 0)])], SHEET)
    assert crossings
    assert len(closeness) == 1
    assert closeness[0].depth == pytest.approx(6.0, abs=0.05)
    assert closeness[0].shared is not None
    assert closeness[0].shared.size == pytest.approx(36.0, abs=0.1)


def test_a_bar_driven_into_the_frame_is_as_deep_as_it_goes() -> None:
    _, closeness, _ = contacts_of(frame(100, 100), [bar("a", [(50, -4), (50, 100)])], SHEET)
    assert [round(c.depth, 2) for c in closeness] == [4.0]


def test_turns_that_come_close_are_named_with_one_id_twice() -> None:
    angle = np.linspace(0, 6 * np.pi, 1500)
    r = 20 + 8 * angle / (2 * np.pi)
    spiral = np.column_stack([r * np.cos(angle), r * np.sin(angle)])
    contacts, closeness, _ = contacts_of(None, [bar("a", spiral)], SHEET)
    assert contacts == ()
    assert {c.bars for c in closeness} == {("a", "a")}
    assert min(c.gap for c in closeness) == pytest.approx(2.0, abs=0.1)


def test_a_bar_without_a_width_has_no_metal_and_touches_nothing() -> None:
    bare = replace(bar("bare", [(0, 0), (0, 100)]), width=None, metal=None)
    assert contacts_of(None, [bare, bar("b", [(0, 0), (100, 0)])], SHEET) == ((), (), False)


def test_the_order_of_drawing_changes_no_contact() -> None:
    bars = [ring("a", 0, 0, 50), ring("b", 100, 0, 50), ring("c", 50, 86.6, 50), ring("d", 102, 99, 40)]
    one = {(frozenset(c.bars), round(c.gap, 6)) for c in contacts_of(None, bars, SHEET)[0]}
    two = {(frozenset(c.bars), round(c.gap, 6)) for c in contacts_of(None, bars[::-1], SHEET)[0]}
    assert one == two
