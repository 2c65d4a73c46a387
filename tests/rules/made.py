"""Verdicts on drawings, rule by rule."""

from __future__ import annotations

from pathlib import Path

from lint.check import check
from lint.result import Place, Result, Sign
from lint.sheet import load_default
from lint.sheet.sheet import Sheet

ROOT = Path(__file__).parents[2]
SHEET = load_default()


def judged(rule: str, svg: bytes, sheet: Sheet = SHEET) -> Result:
    """What one rule says of a drawing."""
    return next(result for result in check(svg, sheet).results if result.rule == rule)


def fixture(name: str) -> bytes:
    """A drawing under fixtures/."""
    return (ROOT / "fixtures" / f"{name}.svg").read_bytes()


def signed(result: Result, sign: Sign) -> list[Place]:
    """The places of a result with one sign."""
    return [place for place in result.places if place.sign is sign]
