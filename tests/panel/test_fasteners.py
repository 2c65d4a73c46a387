"""What collars, rivets and screws hold."""

from __future__ import annotations

import pytest

from lint.panel.contacts import contacts_of
from lint.panel.fasteners import FastenerMark, fasten
from lint.panel.parts import FRAME, Bar, Contact, Fastener
from tests.panel.metalwork import SHEET, bar, mark
from tests.panel.test_contacts import frame


def held(marks: list[FastenerMark], bars: list[Bar], *, framed: bool = False) -> tuple[list[Fastener], list[Contact]]:
    whole = frame(200, 200) if framed else None
    contacts, _, _ = contacts_of(whole, bars, SHEET)
    fasteners, contacts = fasten(marks, whole, bars, contacts, SHEET)
    return list(fasteners), list(contacts)


def upright(name: str, x: float) -> Bar:
    return bar(name, [(x, 0), (x, 100)])


def test_a_collar_embraces_every_bar_whose_metal_it_meets() -> None:
    bars = [upright("a", 0), upright("b", 6), upright("c", 12), upright("far", 60)]
    (collar,), contacts = held([mark("collar", "collar-1", (6, 50), 20, 12)], bars)
    assert collar.holds == ("a", "b", "c")
    assert collar.gap == pytest.approx(0.0, abs=0.01)
    assert collar.short == 0.0
    assert all(contact.fasteners == ("collar-1",) for contact in contacts)


def test_a_bar_that_the_collars_edge_only_grazes_lies_outside() -> None:
    bars = [upright("a", 0), upright("b", 6), upright("beside", 15.4)]  # its face stands at 12.4, the collar's at 12.5
    (collar,), _ = held([mark("collar", "collar-1", (3, 50), 19, 12)], bars)
    assert collar.holds == ("a", "b")


@pytest.mark.parametrize("gap", [1.0, 2.2])
def test_a_collar_over_bars_that_do_not_touch_gives_the_gap(gap: float) -> None:
    (collar,), contacts = held([mark("collar", "c", (3, 50), 30, 12)], [upright("a", 0), upright("b", 6 + gap)])
    assert collar.holds == ("a", "b")
    assert collar.gap == pytest.approx(gap, abs=1e-6)
    assert contacts == []


def test_the_widest_gap_goes_from_each_bar_to_its_nearest_neighbour() -> None:
    bars = [upright("a", 0), upright("b", 6), upright("c", 13.5)]
    (collar,), _ = held([mark("collar", "c", (6, 50), 30, 12)], bars)
    assert collar.gap == pytest.approx(1.5, abs=1e-6)


@pytest.mark.parametrize(("across", "short"), [(12.0, 0.0), (9.0, 1.5), (8.0, 2.0)])
def test_a_collar_too_short_for_its_bars_says_by_how_much(across: float, short: float) -> None:
    """Two bars of 6 mm side by side need 12 mm; a collar in their middle falls short on either side."""
    (collar,), _ = held([mark("collar", "c", (3, 50), across, 12)], [upright("a", 0), upright("b", 6)])
    assert collar.short == pytest.approx(short, abs=0.02)


def test_a_collar_on_one_bar_or_none_is_as_far_from_the_contact_as_it_is() -> None:
    bars = [bar("a", [(0, 0), (0, 100)]), bar("b", [(3, 50), (60, 50)])]
    (alone, nowhere), contacts = held(
        [mark("collar", "one", (0, 90), 10, 8), mark("collar", "none", (40, 90), 10, 8)], bars
    )
    assert alone.holds == ("a",)
    assert nowhere.holds == ()
    assert contacts[0].at == pytest.approx((3, 50), abs=0.3)
    assert alone.to_contact == pytest.approx(40.1, abs=0.3)


def test_a_rivet_on_the_frame_holds_the_frame_and_the_scroll() -> None:
    scroll = bar("scroll", [(3, 40), (3, 160)])
    (rivet,), contacts = held([mark("rivet", "rivet-1", (0, 100), 5)], [scroll], framed=True)
    assert set(rivet.holds) == {FRAME, "scroll"}
    assert rivet.gap == pytest.approx(0.0, abs=0.01)
    assert [contact.fasteners for contact in contacts] == [("rivet-1",)]


@pytest.mark.parametrize(("off", "count"), [(2.9, 2), (3.1, 1)])
def test_a_rivet_reaches_its_radius_and_the_contact_tolerance(off: float, count: int) -> None:
    """Radius 2.5 and tolerance 0.5: 3 mm from the axis to the metal."""
    bars = [upright("a", 0), upright("b", 3 + off + 3)]
    (rivet,), _ = held([mark("rivet", "r", (3, 50), 5)], bars)
    assert len(rivet.holds) == count


def test_a_rivet_between_bars_apart_gives_their_gap_and_holds_no_contact() -> None:
    (rivet,), contacts = held([mark("rivet", "r", (4, 50), 5)], [upright("a", 0), upright("b", 8)])
    assert rivet.holds == ("a", "b")
    assert rivet.gap == pytest.approx(2.0, abs=1e-6)
    assert contacts == []


def test_only_the_contact_that_the_rivet_stands_on_is_held() -> None:
    ring = bar("ring", [(3, 60), (3, 140)])
    crossbar = bar("crossbar", [(6, 60), (200, 60)])
    (_,), contacts = held([mark("rivet", "r", (0, 100), 5)], [ring, crossbar], framed=True)
    by_bars = {frozenset(c.bars): c.fasteners for c in contacts}
    assert by_bars[frozenset((FRAME, "ring"))] == ("r",)
    assert by_bars[frozenset(("ring", "crossbar"))] == ()
    assert by_bars[frozenset((FRAME, "crossbar"))] == ()


def test_a_collar_on_a_long_touch_holds_it_wherever_it_stands() -> None:
    """Bars side by side for 100 mm are one contact: a collar near its end is on it."""
    (_,), contacts = held([mark("collar", "c", (3, 92), 14, 10)], [upright("a", 0), upright("b", 6)])
    assert contacts[0].fasteners == ("c",)


def test_no_marks_leave_the_contacts_as_they_were() -> None:
    fasteners, contacts = held([], [upright("a", 0), upright("b", 6)])
    assert fasteners == []
    assert [contact.fasteners for contact in contacts] == [()]
