"""Which scale holds, and who says so (drawing convention, section 3)."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from lint.drawing.drawn import Page, PageSize, Words
from lint.errors import UnreadableDrawing
from lint.geometry.ranks import median
from lint.lengths import say
from lint.panel.origins import origin_of
from lint.panel.parts import Scale, ScaleSource
from lint.panel.ratios import export_ratio, ratio_in, said_ratio, unit_in, whole_ratio
from lint.panel.spans import Span
from lint.sheet.sheet import Sheet

_ROUNDED = 0.002  # width over height: exports round a page to whole points, or to a few digits
_OTHER_SHAPE = 0.025  # programs that get one axis wrong do so by up to 2 %
NOMINAL = 1000.0  # mm: the longer side of a drawing that has no size


def scale_of(
    page: Page,
    option: str | None,
    words: Sequence[Words],
    references: Sequence[Span],
    dimensions: Sequence[Span],
    longest: Callable[[], float],
    sheet: Sheet,
) -> Scale:
    """The scale of a drawing: the option, the scale layer, the dimensions, the page, whichever is there first.

    Where statements contradict one another none is known to be right: the scale is that of the first, and not
    `known`. Sources stand in page units: whoever places the panel moves them.

    `longest` gives the longer side of what is drawn, in page units. Raises UnreadableDrawing where the option is
    no scale, or is a ratio on a page that has no size to take it of.
    """
    sources = [
        *_from_option(option, page, sheet),
        *_from_words(words, page, sheet),
        *(source for span in references if (source := _from_span(span))),
        *_from_dimensions(dimensions, sheet, least=2 if page.size is PageSize.PHYSICAL else 1),
    ]
    physical = page.mm_per_unit if page.size is not PageSize.NONE else None
    if sources:
        held = _held(sources, page, physical, sheet)
        return replace(held, known=False) if disagreeing(held, sheet) else held
    return _by_page(page, physical) if physical else _nominal(longest())


def _by_page(page: Page, physical: float) -> Scale:
    pixels = page.size is PageSize.PIXELS
    source = _page_source(page)
    return Scale(mm_per_unit=physical, known=True, by="page", sources=(source,), hint=_axes(page), pixels_only=pixels)


def _nominal(longest: float) -> Scale:
    return Scale(mm_per_unit=NOMINAL / longest if longest > 0 else 1.0, known=False, by="", sources=())


def disagreeing(scale: Scale, sheet: Sheet) -> tuple[ScaleSource, ...]:
    """The statements that differ from the one that holds by more than the sheet allows."""
    held = scale.mm_per_unit
    return tuple(s for s in scale.sources if not _agree(s.mm_per_unit, held, s.length, sheet))


def bar_hint(scale: Scale, width: float | None, sheet: Sheet) -> Scale:
    """The scale with a hint, where the frame's bar is no stock size and a known export ratio would make it one.

    Nothing is said where two independent statements agree: then the bar is simply of another size.
    """
    if not scale.known or scale.hint or width is None or len(scale.sources) > 1 or _on_sale(width, sheet):
        return scale
    for ratio in (72 / 96, 90 / 96, 25.4 / 96, 25.4 / 72, 96 / 72, 96 / 90):
        if _on_sale(width / ratio, sheet):
            drawn, meant = say(width, sheet.units), say(width / ratio, sheet.units)
            hint = f"the frame's bar is drawn {drawn} wide, which is no stock size, and would be {meant} wide"
            return replace(scale, hint=f"{hint} if this were {export_ratio(ratio)}")
    return scale


def _on_sale(width: float, sheet: Sheet) -> bool:
    return any(abs(width / size - 1) <= 0.01 for size in sheet.stock.sizes)


def _held(sources: list[ScaleSource], page: Page, physical: float | None, sheet: Sheet) -> Scale:
    """The first statement's scale. Where the page has a size too, and the lengths on the drawing agree with it at
    1:1 or at an ordinary scale, the page's figure is the exact one: a written length is rounded."""
    first = sources[0]
    axes = _axes(page)
    if not physical or any(source.ratio for source in sources) or first.length is None:
        return Scale(mm_per_unit=first.mm_per_unit, known=True, by=first.by, sources=tuple(sources), hint=axes)
    if _agree(first.mm_per_unit, physical, first.length, sheet):
        by_page = _page_source(page)
        return Scale(mm_per_unit=physical, known=True, by="page", sources=(by_page, *sources), hint=axes)
    share = physical / first.mm_per_unit
    if step := whole_ratio(share):
        exact = physical / step
        hint = f"drawn at {said_ratio(step)} of the stated size, and no scale is written on the drawing"
        hint = hint if first.by == "dimensions" else ""
        return Scale(mm_per_unit=exact, known=True, by=first.by, sources=tuple(sources), hint=axes or hint)
    sources = sources if page.size is PageSize.PIXELS else [*sources, _page_source(page)]
    return Scale(
        mm_per_unit=first.mm_per_unit, known=True, by=first.by, sources=tuple(sources), hint=axes or _drawn_at(share)
    )


def _drawn_at(share: float) -> str:
    why = export_ratio(share)
    drawn = f"drawn at {share:.4g} of the stated size"
    return f"{drawn}: this looks like {why}; set the scale or export again" if why else drawn


def _axes(page: Page) -> str:
    """Why a page whose width and height nearly agree is in doubt, or "". Where they are far apart the page is simply
    of another shape than its viewBox, and SVG fits it in."""
    if page.axes is None or not _ROUNDED < abs(page.axes[0] / page.axes[1] - 1) <= _OTHER_SHAPE:
        return ""
    x, y = page.axes
    return f"the page gives {x:.5g} mm to the unit across and {y:.5g} down, which disagree by {abs(x / y - 1):.2%}"


def _from_option(option: str | None, page: Page, sheet: Sheet) -> list[ScaleSource]:
    if option is None:
        return []
    found = _stated("option", option, page, sheet)
    if found is None:
        has = ratio_in(option, sheet.units) is not None
        reason = (
            'the page has no physical size to take a ratio of; give the size of a unit, like "1 unit = 1 mm"'
            if has
            else 'it is no scale (expected like "1:4", "full size" or "1 unit = 1 mm")'
        )
        raise UnreadableDrawing(f"--scale {option!r}: {reason}.")
    return [found]


def _from_words(words: Sequence[Words], page: Page, sheet: Sheet) -> list[ScaleSource]:
    found = ((w, _stated("scale layer", w.text, page, sheet)) for w in words)
    return [replace(source, origin=origin_of(w), at=_middle(w)) for w, source in found if source]


def _middle(word: Words) -> tuple[float, float]:
    left, top, right, bottom = word.extent
    return (left + right) / 2, (top + bottom) / 2


def _stated(by: str, text: str, page: Page, sheet: Sheet) -> ScaleSource | None:
    if unit := unit_in(text, sheet.units):
        return ScaleSource(by=by, says=text, mm_per_unit=unit)
    ratio = ratio_in(text, sheet.units)
    if ratio is None or page.mm_per_unit is None:
        return None
    return ScaleSource(by=by, says=text, mm_per_unit=ratio * page.mm_per_unit, ratio=ratio)


def _from_span(span: Span) -> ScaleSource | None:
    if not span.stated or span.drawn <= 0:
        return None
    per_unit = span.stated / span.drawn
    return ScaleSource(
        by="scale layer",
        says=f"a line for {span.text}",
        mm_per_unit=per_unit,
        origin=span.origin,
        at=span.a,
        length=span.stated,
    )


def _from_dimensions(dimensions: Sequence[Span], sheet: Sheet, *, least: int) -> list[ScaleSource]:
    """What the dimensions say, where most of them agree with one another. A single one against a page that has a
    size is a figure to be checked and no scale: it takes `least` of them."""
    spans = [s for s in dimensions if s.stated and s.drawn > 0 and s.linear]
    every, stated = np.array([_per(s) for s in spans]), np.array([s.stated or 0.0 for s in spans])
    offs = (np.abs(_per(a) / every - 1) for a in spans)
    agree = ((off <= sheet.scale.label_ratio) | (off * stated <= sheet.scale.label_length) for off in offs)
    votes = [(int(np.count_nonzero(own)), a) for own, a in zip(agree, spans, strict=True)]
    if len(votes) < least:
        return []
    count, leader = max(votes, key=lambda vote: (vote[0], vote[1].drawn))
    if len(spans) > 1 and (count < 2 or 2 * count <= len(spans)):
        return []
    agreeing = [s for s in spans if _agree(_per(leader), _per(s), s.stated, sheet)]
    says = f"{len(agreeing)} of {len(spans)} dimensions" if len(spans) > 1 else f"the dimension {leader.text}"
    return [
        ScaleSource(
            by="dimensions",
            says=says,
            mm_per_unit=median(np.array([_per(s) for s in agreeing])),
            origin=leader.origin,
            at=leader.a,
            length=max(s.stated or 0.0 for s in agreeing),
        )
    ]


def _per(span: Span) -> float:
    return (span.stated or 0.0) / span.drawn


def _agree(a: float, b: float, length: float | None, sheet: Sheet) -> bool:
    off = abs(a / b - 1)
    return off <= sheet.scale.label_ratio or (length is not None and off * length <= sheet.scale.label_length)


def _page_source(page: Page) -> ScaleSource:
    says = "the page at 1:1" if page.size is PageSize.PHYSICAL else "the page in pixels, 96 to the inch"
    return ScaleSource(by="page", says=says, mm_per_unit=page.mm_per_unit or 1.0)
