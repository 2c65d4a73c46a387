"""The clean examples and other ways to draw them: none raises an alarm, none changes a figure.

Truth is invariance: a panel does not change when its drawing is mirrored, turned, reordered, drawn in other units,
with more nodes, the other way round, or as a polyline.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.check import check
from lint.result import Kind
from lint.sheet import load_default
from tests.conftest import EXAMPLES
from tests.rules.variants import VARIANTS, redrawn

CLEAN = ("two-c-panel", "s-pair-panel", "six-c-window", "mixed-panel")
SHEET = load_default()
# Figures that the drawing of the same metal in other ways may move by no more, mm: two decimals, chords of 0.8 mm.
MOVED = 0.1


def alarms(svg: bytes) -> list[str]:
    return [f"{r.rule}: {r.message}" for r in check(svg, SHEET).results if r.kind in (Kind.FAIL, Kind.REVIEW)]


@pytest.mark.parametrize("name", CLEAN)
def test_the_examples_give_no_alarm(name: str) -> None:
    assert alarms((EXAMPLES / f"{name}.svg").read_bytes()) == []


@pytest.mark.parametrize("variant", VARIANTS)
@pytest.mark.parametrize("name", CLEAN)
def test_the_same_panel_drawn_another_way_gives_none_either(name: str, variant: str) -> None:
    assert alarms(redrawn((EXAMPLES / f"{name}.svg").read_bytes(), variant)) == []


@given(st.lists(st.sampled_from(sorted(VARIANTS)), min_size=2, max_size=4, unique=True))
@settings(max_examples=15, deadline=None)
def test_no_verdict_changes_however_the_ways_are_combined(names: list[str]) -> None:
    """Shapes first: a variant that rewrites paths reads them as the examples write them."""
    order = sorted(names, key=lambda name: ("polylines" in name, name))
    assert alarms(redrawn((EXAMPLES / "two-c-panel.svg").read_bytes(), *order)) == []


@pytest.mark.parametrize("variant", VARIANTS)
def test_no_fail_becomes_a_pass_and_no_figure_moves(variant: str) -> None:
    """The first attempt fails as it did, with the same figures."""
    plain = (EXAMPLES / "first-attempt.svg").read_bytes()
    before = {r.rule: r for r in check(plain, SHEET).results}
    for after in check(redrawn(plain, variant), SHEET).results:
        assert after.kind is before[after.rule].kind, after.message
        if after.unit == "mm" and after.measured is not None and after.rule != "scale":
            # A radius of curvature is a second derivative: rounded coordinates move it by more, a hundredth.
            rel = 0.01 if after.rule == "fair-curve" else 0
            assert after.measured == pytest.approx(before[after.rule].measured, abs=MOVED, rel=rel), after.message
