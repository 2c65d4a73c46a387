"""Marks that stand by nothing and words that nothing took: each is named by the rule that it concerns."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Place, Sign, Spot
from lint.rules._finding import Finding
from lint.rules._places import source


def strays(rule_id: str, panel: Panel, remedy: str) -> list[Finding]:
    """One place to look at for each stray of this rule."""
    return [
        Finding(
            place=Place(
                x=stray.at[0],
                y=stray.at[1],
                note=stray.sentence,
                sign=Sign.LOOK,
                source=source(stray.origin),
                traces=(Spot(x=stray.at[0], y=stray.at[1]),),
            ),
            remedy=remedy,
        )
        for stray in panel.strays
        if stray.rule == rule_id
    ]
