"""Words on the layers of scale and dimensions that say nothing, and words that are there no more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lint.drawing.drawn import Drawn, Words
from lint.panel.marks import box_marks
from lint.panel.origins import origin_of
from lint.panel.parts import Point, Scale, Stray
from lint.panel.placing import Placing
from lint.panel.spans import Span

GLYPHS = 3  # filled shapes from which a layer without a word looks like one whose words were turned into outlines


def unheard(loose: Sequence[Words], drawn: Sequence[Drawn], spans: Sequence[Span], placing: Placing) -> Iterator[Stray]:
    """Texts among the dimensions that stand by no line, and dimensions whose texts are gone."""
    for word in loose:
        said = f'the size "{word.text[:80]}" stands by no line with two ends, so it measures nothing'
        yield Stray(rule="dimensions", sentence=said, origin=origin_of(word), at=_middle(word, placing))
    glyphs = [shape for shape in drawn if shape.paint.fill and shape.paint.stroke is None]
    if not spans and not loose and len(glyphs) >= GLYPHS:
        said = f"{len(glyphs)} filled shapes and no word lie among the dimensions: text in outlines has no figures"
        first = next(iter(box_marks(glyphs, (), placing)), None)
        if first:
            yield Stray(rule="dimensions", sentence=said, origin=first.origin, at=first.at)


def unsaid(words: Sequence[Words], scale: Scale, placing: Placing) -> Iterator[Stray]:
    """Words on the scale layer, where none of them states a scale."""
    if any(source.by == "scale layer" for source in scale.sources):
        return
    for word in words:
        said = f'"{word.text[:80]}" on the scale layer states no scale (expected like 1:4, full size, or 1/4" = 1")'
        yield Stray(rule="scale", sentence=said, origin=origin_of(word), at=_middle(word, placing))


def _middle(word: Words, placing: Placing) -> Point:
    left, top, right, bottom = placing.extent(word.extent)
    return (left + right) / 2, (top + bottom) / 2
