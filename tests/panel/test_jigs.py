"""One jig for each family: how near its scrolls come, and which of them lie turned over."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from lint.geometry.curve import curve
from lint.panel.jigs import copied_over, jigs
from lint.panel.parts import Scroll
from lint.sheet import load_default
from tests.report.hand_made import panel, scroll

Floats = NDArray[np.float64]


def spiral(turns: float = 1.5) -> Floats:
    """Archimedean spiral r = 10 + 8 t: no symmetry of its own."""
    t = np.linspace(0, turns * 2 * np.pi, 800)
    return np.stack([(10 + 8 * t) * np.cos(t), (10 + 8 * t) * np.sin(t)], axis=1)


def arc() -> Floats:
    """Three quarters of a circle: its own mirror image."""
    t = np.linspace(0, 1.5 * np.pi, 400)
    return np.stack([50 * np.cos(t), 50 * np.sin(t)], axis=1)


def moved(points: Floats, degrees: float = 0.0, *, over: bool = False, back: bool = False) -> Floats:
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    turned: Floats = points * [1.0, -1.0 if over else 1.0] @ np.array([[c, s], [-s, c]]) + [300.0, 40.0]
    return turned[::-1] if back else turned


def drawn(name: str, points: Floats, *, family: int = 1, copy_of: str = "") -> Scroll:
    made = scroll(name)
    return replace(made, bar=replace(made.bar, line=curve(points)), family=family, copy_of=copy_of)


@pytest.mark.parametrize("back", [False, True])
@pytest.mark.parametrize("over", [False, True])
def test_a_copy_is_known_to_lie_turned_over_whichever_way_it_was_drawn(over: bool, back: bool) -> None:
    assert copied_over(curve(moved(spiral(), 77, over=over, back=back)), curve(spiral())) is over


def test_a_curve_that_is_its_own_mirror_image_needs_no_turning_over() -> None:
    assert not copied_over(curve(moved(arc(), 33, over=True)), curve(arc()))


@pytest.mark.parametrize("copy_of", ["", "a"])
@pytest.mark.parametrize("over", [False, True])
def test_a_copy_and_a_scroll_drawn_anew_give_the_same_jig(copy_of: str, over: bool) -> None:
    held = panel(
        scrolls=(drawn("a", spiral()), drawn("b", moved(spiral(), 20, over=over), copy_of=copy_of)), samples=()
    )
    (jig,) = jigs(held, load_default())
    assert (jig.family, jig.scrolls, jig.turned_over) == (1, ("a", "b"), over)
    assert jig.overlay == pytest.approx(0.0, abs=0.02)


def test_a_stretched_partner_gives_its_distance() -> None:
    """A circle's arc against one of 1 mm more radius: no motion brings them nearer than about half of that."""
    t = np.linspace(0, 1.9 * np.pi, 600)
    rings = [np.stack([r * np.cos(t), r * np.sin(t)], axis=1) for r in (50.0, 51.0)]
    (jig,) = jigs(panel(scrolls=(drawn("a", rings[0]), drawn("b", rings[1])), samples=()), load_default())
    assert jig.overlay is not None
    assert 0.4 < jig.overlay <= 1.02


def test_a_scroll_alone_is_a_jig_without_a_distance_and_family_0_is_none() -> None:
    held = panel(scrolls=(drawn("a", spiral()), drawn("b", spiral(), family=0)), samples=())
    (jig,) = jigs(held, load_default())
    assert (jig.scrolls, jig.overlay, jig.turned_over) == (("a",), None, False)
