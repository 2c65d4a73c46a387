"""How long a collar's stock must be: round the bundle, and what the bends take.

All trade rules are one formula, P + 2 pi K t: P the taut perimeter of what the collar embraces, t the thickness
of its stock, K where its neutral axis lies.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarRule:
    """A trade rule: its name, K, the same said as thicknesses of stock, and where it comes from."""

    name: str
    k: float
    adds: str
    source: str


_PRACTICE = "common practice, no source"
_RULES = (
    CollarRule(
        name="butt",
        k=1 / math.pi,
        adds="2 t",
        source="The Blacksmith's Craft, 1952; The Backyard Blacksmith, 2006, p. 101",
    ),
    CollarRule(name="lap", k=1 / (2 * math.pi), adds="1 t", source=_PRACTICE),
    CollarRule(name="2.5 t", k=2.5 / (2 * math.pi), adds="2.5 t", source=_PRACTICE),
    CollarRule(name="3 t", k=3 / (2 * math.pi), adds="3 t", source=_PRACTICE),
    CollarRule(name="round", k=0.5, adds="pi t", source="volume kept: sharp inside, round outside (computed)"),
    CollarRule(name="mitred", k=2 / math.pi, adds="4 t", source="volume kept: sharp inside and outside (computed)"),
)
RULES: Mapping[str, CollarRule] = MappingProxyType({rule.name: rule for rule in _RULES})


@dataclass(frozen=True, slots=True, kw_only=True)
class InBundle:
    """One bar's section inside a collar, mm: width along the wrap, depth behind it (None: round bar)."""

    width: float
    depth: float | None


def perimeter(bundle: Sequence[InBundle]) -> float:
    """Taut perimeter in mm of bars lying side by side, touching, on one mid-plane: their convex hull's.

    Equal rounds: the hull of their centres and one circle, exactly. Else by Cauchy's formula, the integral of
    the hull's support over all directions; short by less than 1e-6 of itself. ValueError for no bars.
    """
    if not bundle:
        raise ValueError("a collar round nothing has no length")
    row = sum(bar.width for bar in bundle)
    if all(bar.depth is not None for bar in bundle) and len({bar.depth for bar in bundle}) == 1:
        return 2 * row + 2 * float(bundle[0].depth or 0)
    if all(bar.depth is None for bar in bundle) and len({bar.width for bar in bundle}) == 1:
        return 2 * (row - bundle[0].width) + math.pi * bundle[0].width
    return _by_support(bundle)


def _by_support(bundle: Sequence[InBundle]) -> float:
    angles = np.linspace(0, 2 * np.pi, 7200, endpoint=False) + 2 * np.pi / 14400
    cos, sin = np.cos(angles), np.sin(angles)
    start, supports = 0.0, []
    for bar in bundle:
        middle, half = start + bar.width / 2, bar.width / 2
        own = half if bar.depth is None else np.abs(half * cos) + np.abs(bar.depth / 2 * sin)
        supports.append(middle * cos + own)
        start += bar.width
    support: Floats = np.max(np.array(supports), axis=0)
    return float(support.mean() * 2 * np.pi)


def stock_length(bundle: Sequence[InBundle], thickness: float, rule: str) -> float:
    """Length in mm of collar stock `thickness` mm thick by `rule`: P + 2 pi K t.

    KeyError for a rule that `RULES` does not have; ValueError for no bars.
    """
    return perimeter(bundle) + 2 * math.pi * RULES[rule].k * thickness


def rule_for(bundle: Sequence[InBundle], asked: str) -> CollarRule:
    """The rule that holds: the sheet's, but round bars in it make a taut band, whose mean line is K = 0.5."""
    if asked not in {"lap", "mitred"} and any(bar.depth is None for bar in bundle):
        return RULES["round"]
    return RULES[asked]
