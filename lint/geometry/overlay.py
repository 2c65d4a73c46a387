"""Overlay distance: how nearly one curve can be made to cover another, over all rigid motions."""

from __future__ import annotations

from dataclasses import dataclass

from lint.geometry.curve import Curve
from lint.geometry.motion import Motion


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Overlay:
    """`distance` is the two-way Hausdorff distance in mm after `motion` has laid `moving` on `fixed`.

    `on_moving` (where `motion` puts it) and `on_fixed` are the two ends of the largest gap. `exact` is False
    where the search was stopped early because the distance is an upper bound already over `enough`.
    """

    distance: float
    motion: Motion
    on_moving: tuple[float, float]
    on_fixed: tuple[float, float]
    exact: bool


def overlay(moving: Curve, fixed: Curve, *, accuracy: float = 0.02, enough: float = 5.0) -> Overlay:
    """The smallest largest gap over all rigid motions, with and without turning over. mm.

    Direction, start point and the splitting of the path do not matter. Within `accuracy` or 2 % of the true
    minimum where that is under `enough`; above that an upper bound (`exact` False).
    """
    raise NotImplementedError


def gap_between(a: Curve, b: Curve, accuracy: float = 0.02) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """Two-way Hausdorff distance of two curves as they lie, with the two ends of the largest gap. mm."""
    raise NotImplementedError


def own_symmetry(curve: Curve, half_turn: bool) -> float:
    """How far a scroll is from its own symmetry, mm: an S under its half turn, a C about its axis."""
    raise NotImplementedError


def signature(curve: Curve) -> tuple[float, ...]:
    """Figures that no rigid motion, reflection or reversal changes, to sort scrolls into families without
    comparing every pair: curves within an overlay distance d differ by a bounded multiple of d in each. mm."""
    raise NotImplementedError
