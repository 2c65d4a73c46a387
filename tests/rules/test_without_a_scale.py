"""Where nobody states a size, no rule prints a length: the figures would be those of a nominal size."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lint.check import check
from lint.result import Result
from lint.sheet import load_default

FIXTURES = Path(__file__).parents[2] / "fixtures"
BENT = sorted((FIXTURES / "fair-curve").glob("*.svg"))
FRAMES = sorted((FIXTURES / "frame").glob("*.svg"))
_LENGTH = re.compile(r"\d (?:mm|in)\b")


def sizeless(path: Path) -> bytes:
    """The drawing with its page size and its dimensions taken away."""
    text = re.sub(r'(<svg[^>]*?) width="[^"]*" height="[^"]*"', r"\1", path.read_text(encoding="utf-8"), count=1)
    return re.sub(r'inkscape:label="dimensions"', 'inkscape:label="notes"', text).replace('"size-', '"n-').encode()


def lengths_said(result: Result) -> list[str]:
    words = [result.message, result.figure, *(place.note for place in result.places)]
    return [text for text in words if _LENGTH.search(text)]


@pytest.mark.parametrize("path", [*BENT, *FRAMES], ids=lambda path: path.stem)
def test_no_length_is_said_of_a_drawing_without_a_size(path: Path) -> None:
    verdict = check(sizeless(path), load_default())
    assert verdict.panel is not None
    assert not verdict.panel.scale.known
    said = {result.rule: lengths_said(result) for result in verdict.results if result.rule != "scale"}
    assert {rule: texts for rule, texts in said.items() if texts} == {}


@pytest.mark.parametrize("path", BENT, ids=lambda path: path.stem)
def test_what_is_not_fair_is_found_without_a_size_too(path: Path) -> None:
    result = next(r for r in check(sizeless(path), load_default()).results if r.rule == "fair-curve")
    assert result.kind.value == "review", result.message
