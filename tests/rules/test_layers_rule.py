"""The rule of layers: what is not read has its reason and its mend (requirements: nothing in silence)."""

from __future__ import annotations

from lint.result import Kind, Sign
from tests.rules.made import fixture, judged


def test_what_is_broken_is_said_with_its_reason_and_its_mend() -> None:
    flat = fixture("panel").replace(b'<path id="scroll-1"', b'<path id="scroll-1" transform="scale(0)"')
    result = judged("layers", flat)
    assert result.kind is Kind.REVIEW
    (place,) = [place for place in result.places if place.sign is Sign.LOOK]
    assert place.note.endswith("layer scrolls: its transform flattens it to a line or a point")
    assert place.source.id == "scroll-1"
    assert result.remedy == "Draw again what cannot be read, or delete it."
