"""Rivet shanks against BS 275, BS 4620 and DIN 660."""

from __future__ import annotations

import pytest

from lint.shop.rivets import HEADS, head_allowance, hole_fill, shank_length

INCH = 25.4


@pytest.mark.parametrize(
    ("head", "volume"),
    [
        ("snap", 1.12467),
        ("countersunk", 0.66667),
        ("raised countersunk 60", 0.48412),
        ("raised countersunk 45", 0.58387),
        ("round", 1.0628),
    ],
)
def test_a_heads_allowance_is_its_volume_over_the_shanks_area(head: str, volume: float) -> None:
    # trade facts, section 4b: the published allowances are head volume over shank area, no hole fill
    assert HEADS[head].volume == pytest.approx(volume, abs=0.0001)
    assert HEADS[head].allowance == pytest.approx(volume, abs=0.0005)


@pytest.mark.parametrize(("shank", "printed"), [(1 / 2, 0.563), (3 / 4, 0.844), (1, 1.125)])
def test_a_snap_head_takes_what_bs_275_prints(shank: float, printed: float) -> None:
    assert head_allowance("snap", shank * INCH) / INCH == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize(("shank", "printed"), [(6, 4.00), (8, 5.34), (10, 6.67)])
def test_a_countersunk_head_takes_what_bs_4620_prints(shank: float, printed: float) -> None:
    # BS 4620:1970 table 6 prints 5.34 for 8 mm, being 8 x 0.667; 2/3 of 8 is 5.33
    assert head_allowance("countersunk", shank) == pytest.approx(printed, abs=0.0067)


@pytest.mark.parametrize(("head", "printed"), [("raised countersunk 60", 0.242), ("raised countersunk 45", 0.292)])
def test_raised_countersunk_heads_take_what_bs_275_prints(head: str, printed: float) -> None:
    assert head_allowance(head, INCH / 2) / INCH == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize(("shank", "hole", "grip", "fill"), [(6, 6.5, 20, 3.472), (8, 8.5, 24, 3.094)])
def test_a_wide_hole_takes_its_share_of_the_shank(shank: float, hole: float, grip: float, fill: float) -> None:
    assert hole_fill(grip, shank, hole) == pytest.approx(fill, abs=0.0005)


def test_a_shank_is_grip_and_head_and_hole() -> None:
    # 6 mm snap, hole 6.5, grip 20: 20 + 6.75 + 3.472
    assert shank_length(grip=20, shank=6, hole=6.5, head="snap") == pytest.approx(30.222, abs=0.0005)


def test_the_workshop_rule_is_the_standard_and_a_usual_hole() -> None:
    # "1.5 d is about 1.125 d plus that and upset loss": no fill is added twice
    assert shank_length(grip=20, shank=6, hole=6.5, head="workshop snap") == pytest.approx(29.0)
