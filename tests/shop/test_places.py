"""Where a family's scrolls are held, laid on one pattern."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from lint.panel.parts import Contact
from lint.sheet import load_default
from lint.shop.places import places_on
from tests.shop.panels import fastener, panel_of, placed, s_points, scroll, two_c_panel


def test_a_place_that_every_scroll_has_is_said_once() -> None:
    panel = two_c_panel()
    places = places_on(panel, panel.scrolls, load_default())
    collars = [place for place in places if "collar" in place.kinds]
    assert [place.words for place in collars] == ["collar"]
    assert collars[0].s == pytest.approx(450, abs=1.0)


def test_a_place_of_one_scroll_names_it() -> None:
    panel = two_c_panel()
    places = places_on(panel, panel.scrolls, load_default())
    assert [place.words for place in places if "rivet" in place.kinds] == ["rivet (right scroll)"]


def test_places_of_a_partner_turned_over_lie_where_its_own_bar_has_them() -> None:
    points = s_points(7)
    one = scroll("one", placed(points, 0, 0), ("ribbon", "snub"), kind="S")
    other = scroll("other", placed(points, 400, 0, mirror=True), ("ribbon", "snub"), kind="S")
    at = other.bar.line.at(200.0)
    rivet = fastener("rivet", "r", (float(at[0]), float(at[1])), (5.0, 5.0), ("other",))
    panel = panel_of(None, (one, other), (rivet,))
    places = places_on(panel, panel.scrolls, load_default())
    # an S covers itself after half a turn, so it may also lie end for end: 200 or 700 - 200
    assert min(abs(places[0].s - 200), abs(places[0].s - 500)) < 1.0


def test_a_touch_that_nothing_holds_is_a_place_of_its_own() -> None:
    panel = two_c_panel()
    at = panel.scrolls[0].bar.line.at(300.0) + np.array([3.0, 0.0])
    bare = Contact(bars=("right scroll", "frame"), at=(float(at[0]), float(at[1])), gap=0.0, length=3.0)
    places = places_on(replace(panel, contacts=(*panel.contacts, bare)), panel.scrolls[:1], load_default())
    assert any(place.kinds == ("touch",) and abs(place.s - 300) < 3 for place in places)


def test_kinds_at_one_place_are_one_place() -> None:
    panel = two_c_panel()
    at = panel.fasteners[0].at
    screw = fastener("screw", "s", (at[0] + 0.5, at[1]), (6.0, 6.0), ("right scroll",))
    places = places_on(replace(panel, fasteners=(*panel.fasteners, screw)), panel.scrolls[:1], load_default())
    shared = next(place for place in places if "collar" in place.kinds)
    assert shared.kinds == ("collar", "screw")
    assert shared.words == "collar, screw"
