"""The stock list of panels whose metal is known."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from lint.panel.parts import Bar, DrawnAs
from lint.sheet import load_default
from lint.shop.stock import stock_list
from lint.shop.table import as_text
from tests.shop.panels import (
    TALL,
    WIDE,
    T,
    bar,
    fastener,
    origin,
    panel_of,
    scroll,
    two_c_panel,
)
from tests.shop.plain import by_name, plain_sheet

# ---------------------------------------------------------------- scrolls and bars


def arc(radius: float, degrees: float) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    angles = np.radians(np.linspace(0, degrees, 2000))
    return radius * np.column_stack([np.cos(angles), np.sin(angles)])


def test_a_scroll_is_as_long_as_its_centreline() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), (None, None)),)), plain_sheet())
    assert by_name(made)["arc"] == pytest.approx(math.radians(300) * 100, rel=1e-5)


def test_an_end_takes_its_bar_widths_and_says_its_source() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), ("ball", "ribbon")),)), plain_sheet())
    ball = next(a for a in made.bars[0].allowances if a.what == "end: ball")
    # the sheet: ball of 2 t on square bar, pi (2t)^3 / (6 t^2) = 4.19 t, given as 4.2; t = 6
    assert ball.mm == pytest.approx(math.pi * 8 / 6 * 6, abs=0.1)
    assert "ball of 2 t" in ball.source


def test_an_end_that_nobody_names_is_said() -> None:
    made = stock_list(panel_of(None, (scroll("arc", arc(100, 300), (None, "snub")),)), load_default())
    assert any("not named" in note for note in made.bars[0].notes)


def test_the_cut_is_never_under_the_net_length() -> None:
    for units, step in (("mm", 1.0), ("in", 25.4 / 16)):
        for line in stock_list(two_c_panel(), replace(load_default(), units=units)).bars:
            assert 0 <= line.cut - line.net < step + 1e-6


def test_round_stroke_ends_are_metal() -> None:
    straight = bar("straight", np.array([[0.0, 0.0], [500.0, 0.0]]), 10.0, 10.0)
    from lint.geometry.band import band

    for cap, more in (("butt", 0.0), ("square", 10.0), ("round", math.pi * 10 / 4)):
        capped = replace(straight, metal=band(straight.line, 10.0, cap=cap))
        line = stock_list(panel_of(None, (), bars=(capped,)), plain_sheet()).bars[0]
        assert line.developed == pytest.approx(500 + more, abs=0.02)


def test_a_section_that_the_drawing_does_not_give_is_the_sheets() -> None:
    def section(width: float, depth: float | None) -> tuple[float, float | None]:
        one = replace(bar("one", np.array([[0.0, 0.0], [500.0, 0.0]]), width), depth=depth)
        found = stock_list(panel_of(None, (), bars=(one,)), load_default()).bars[0].section
        assert found is not None
        return found.width, found.depth

    assert section(12.0, None) == (12.0, 12.0)
    assert section(10.0, None) == (10.0, 10.0)  # the sheet's bar is square
    assert section(10.0, 20.0) == (10.0, 20.0)


def test_a_bar_of_no_known_width_has_a_length_and_no_mass() -> None:
    hair = Bar(
        id="hair", origin=origin("hair"), line=bar("x", np.array([[0.0, 0], [100, 0]]), 5.0).line, width=None,
        depth=None, metal=None, drawn_as=DrawnAs.HAIRLINE,
    )  # fmt: skip
    made = stock_list(panel_of(None, (), bars=(hair,)), plain_sheet())
    assert made.bars[0].developed == pytest.approx(100)
    assert made.bars[0].mass is None
    assert "not known" in as_text(made)


def test_the_mass_is_section_times_cut_times_density() -> None:
    line = stock_list(two_c_panel(), load_default()).bars[0]
    assert line.mass == pytest.approx(0.012 * 0.012 * line.cut / 1000 * 7850)


# ---------------------------------------------------------------- fastenings


def test_a_collar_round_two_scrolls_takes_perimeter_and_two_thicknesses() -> None:
    collar = stock_list(two_c_panel(), load_default()).collars[0]
    # two of 6 x 12 side by side: 2 (12 + 12) = 48, strip 3 mm thick, butt: + 2 t
    assert (collar.perimeter, collar.cut) == (48.0, 54.0)
    assert collar.k == pytest.approx(1 / math.pi)


def test_a_rivet_in_the_plane_grips_the_seen_widths() -> None:
    rivet = stock_list(two_c_panel(), load_default()).rivets[0]
    assert rivet.grip == pytest.approx(6 + 12)
    assert "side by side" in rivet.lies


def test_a_rivet_through_lapped_bars_grips_their_depths() -> None:
    across = bar("across", np.array([[0.0, 50.0], [100.0, 50.0]]), 10.0, 4.0)
    down = bar("down", np.array([[50.0, 0.0], [50.0, 100.0]]), 10.0, 5.0)
    rivet = fastener("rivet", "r", (50.0, 50.0), (4.0, 4.0), ("across", "down"))
    made = stock_list(panel_of(None, (), (rivet,), bars=(across, down)), load_default()).rivets[0]
    assert made.grip == pytest.approx(9.0)
    assert "front to back" in made.lies


def test_a_bar_that_passes_a_collar_twice_counts_twice() -> None:
    hairpin = bar("hairpin", np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 6.5], [0.0, 6.5]]), 6.0, 12.0)
    other = bar("other", np.array([[0.0, -6.5], [100.0, -6.5]]), 6.0, 12.0)
    collar = fastener("collar", "c", (50.0, 0.0), (12.0, 26.0), ("hairpin", "other"))
    made = stock_list(panel_of(None, (), (collar,), bars=(hairpin, other)), load_default()).collars[0]
    assert made.perimeter == pytest.approx(2 * (18 + 12))


def test_a_screw_is_tapped_into_the_infill() -> None:
    panel = two_c_panel()
    screw = fastener("screw", "s", (WIDE - T, TALL / 2 - 100), (6.0, 6.0), ("right scroll", "frame"))
    line = stock_list(replace(panel, fasteners=(screw,)), load_default()).screws[0]
    assert (line.thread, line.tap_drill, line.clearance) == ("M6", "5.0 mm", "6.6 mm")
    assert line.least_length == pytest.approx(12 + 6)  # through the frame, and one diameter of thread
