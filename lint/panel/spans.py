"""A line and the length written beside it: dimensions, and the reference line of the scale layer. Page units."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from lint.drawing.drawn import Drawn, Extent, Naming, Words
from lint.errors import UnreadableDrawing
from lint.lengths import parse
from lint.panel.origins import origin_of
from lint.panel.parts import Origin
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Point = tuple[float, float]

_REACH = 4.0  # text heights: farther from its line than this, a text belongs to something else
_ASIDE = 0.15  # how much a text's distance from the middle of the line counts beside its distance from the line
MOST_NEAR = 5_000  # lines within reach of texts, counted once for each text; an ordinary drawing has a few dozen
MORE_NEAR = 8  # for each text
_PLACES = np.linspace(0.0, 1.0, 65)  # along a line, where its distance from a text is measured
_CHATTER = re.compile(
    r"\b(?:overall|outside|inside|width|wide|height|high|tall|length|long|typ|ref|approx|across)\b\.?|[:=~]"
)
_BESIDE = re.compile(r"\([^()]*\)|\[[^\[\]]*\]|(?:\u00b1|\+/-|\+-).*$")  # the same in other units, and tolerances
_ROUND = re.compile(r"^\s*(?:r(?=[\s.\d])|radius|[øØ⌀∅]|dia)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """`a` and `b` are the ends of the line, `drawn` the distance between them, all in page units; `stated` is in
    real mm, None where `text` is no length (`trouble` says so). `linear` is False for a radius or a diameter."""

    origin: Origin
    text: str
    stated: float | None
    a: Point
    b: Point
    drawn: float
    linear: bool = True
    trouble: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """A straight distance between two ends, and the lines it is made of."""

    a: complex  # x + iy
    b: complex
    lines: tuple[int, ...]
    above: tuple[Naming, ...]

    @property
    def length(self) -> float:
        return abs(self.b - self.a)


def spans_of(lines: Sequence[Drawn], words: Sequence[Words], units: str) -> tuple[tuple[Span, ...], tuple[Words, ...]]:
    """Each text with the line it stands by, one to one, nearest first; and the texts that stand by no line.

    A line broken in two for its text counts as one. Arrowheads (closed or filled) and lines that no text
    takes (extension lines, ticks) are passed over. Raises UnreadableDrawing where texts and lines lie in a heap.
    """
    runs, stated = list(_runs(lines)), [_length(word.text, units) for word in words]
    taken_lines: set[int] = set()
    found: dict[int, _Run] = {}
    for _, word, run in sorted(_scores(runs, words, [length for length, _ in stated]), key=lambda score: score[0]):
        if word not in found and not taken_lines & set(run.lines):
            found[word] = run
            taken_lines |= set(run.lines)
    spans = tuple(_span(words[i], found[i], *stated[i]) for i in sorted(found))
    return spans, tuple(w for i, w in enumerate(words) if i not in found)


def _span(word: Words, run: _Run, stated: float | None, trouble: str) -> Span:
    return Span(
        origin=origin_of(word),
        text=word.text,
        stated=stated,
        a=(run.a.real, run.a.imag),
        b=(run.b.real, run.b.imag),
        drawn=run.length,
        linear=not _ROUND.match(word.text),
        trouble=trouble,
    )


def _length(text: str, units: str) -> tuple[float | None, str]:
    """The length that a text states, words such as "overall" passed over; or None and why."""
    try:
        return parse(text, units), ""
    except ValueError as trouble:
        bare = _CHATTER.sub(" ", _BESIDE.sub(" ", text.casefold())).strip()
        try:
            return (parse(bare, units), "") if bare != text.casefold() else (None, str(trouble))
        except ValueError:
            return None, str(trouble)


def _runs(lines: Sequence[Drawn]) -> Iterator[_Run]:
    """Every open line from its first point to its last."""
    for number, drawn in enumerate(lines):
        for chain in drawn.chains:
            if chain.closed or len(chain.cubics) == 0 or drawn.paint.stroke is None:
                continue
            a, b = complex(*chain.cubics[0, 0]), complex(*chain.cubics[-1, 3])
            if abs(b - a) > 1e-6:
                yield _Run(a=a, b=b, lines=(number,), above=drawn.above)


def _scores(
    runs: list[_Run], words: Sequence[Words], stated: Sequence[float | None]
) -> Iterator[tuple[float, int, _Run]]:
    ends = np.array([(run.a, run.b) for run in runs], dtype=np.complex128).reshape(-1, 2)
    for number, (word, around) in enumerate(zip(words, _all_around(words, ends), strict=True)):
        height, middle = _height(word), _middle(word.extent)
        offs = _off(word.extent, ends[around]).tolist()
        near = [(runs[k], off) for k, off in zip(around.tolist(), offs, strict=True) if off <= _REACH * height]
        worse = 0.0 if stated[number] else 2 * _REACH * height
        for run, off in [*near, *_mended([run for run, _ in near], middle, height)]:
            grouped = len(word.above) > 1 and word.above == run.above
            short = height if run.length < _length_of(word) else 0.0  # a line under a word is an underline or a tick
            aside = short + _ASIDE * abs((run.a + run.b) / 2 - middle)
            yield worse + (off + aside) * (0.25 if grouped else 1.0), number, run


def _all_around(words: Sequence[Words], ends: Complexes) -> list[NDArray[np.intp]]:
    """For each text the runs whose own boxes come within reach of its; all are counted before any is measured."""
    remaining, found = MOST_NEAR + MORE_NEAR * len(words), []
    low_x, high_x = ends.real.min(axis=1), ends.real.max(axis=1)
    low_y, high_y = ends.imag.min(axis=1), ends.imag.max(axis=1)
    for word in words:
        reach, (left, top, right, bottom) = _REACH * _height(word), word.extent
        beside = (low_x <= right + reach) & (high_x >= left - reach)
        found.append(np.flatnonzero(beside & (low_y <= bottom + reach) & (high_y >= top - reach)))
        remaining -= len(found[-1])
        if remaining < 0:
            raise UnreadableDrawing(
                f'Line {word.line}: so many lines lie about "{word.text[:80]}" and the other texts of its layer that '
                "nobody can tell which belongs to which. Keep one line for each dimension, with its figure beside it.",
                line=word.line,
            )
    return found


def _mended(runs: list[_Run], middle: complex, height: float) -> Iterator[tuple[_Run, float]]:
    """Two pieces of one straight line with the middle of a text in the break between them, as one run."""
    both = np.array([(run.a, run.b) for run in runs], dtype=np.complex128).reshape(-1, 2)
    for k, one in enumerate(runs[:-1]):
        level = ((one.b - one.a) / one.length).conjugate()  # what turns the piece to run along the real axis
        here = (middle - one.a) * level
        if abs(here.imag) > height:
            continue
        theirs = (both[k + 1 :] - one.a) * level
        straight = np.abs(theirs.imag).max(axis=1) <= 0.2 * height
        before = (one.length <= here.real) & (theirs.real.min(axis=1) >= here.real)
        after = (theirs.real.max(axis=1) <= here.real) & (here.real <= 0.0)
        for other in (np.flatnonzero(straight & (before | after)) + k + 1).tolist():
            two = runs[other]
            ends = sorted((one.a, one.b, two.a, two.b), key=lambda end: ((end - one.a) * level).real)
            yield _Run(a=ends[0], b=ends[-1], lines=(*one.lines, *two.lines), above=one.above), 0.0


def _height(word: Words) -> float:
    left, top, right, bottom = word.extent
    return max(min(right - left, bottom - top), 1e-6)


def _length_of(word: Words) -> float:
    left, top, right, bottom = word.extent
    return max(right - left, bottom - top)


def _middle(extent: Extent) -> complex:
    return complex(extent[0] + extent[2], extent[1] + extent[3]) / 2


def _off(extent: Extent, ends: Complexes) -> Floats:
    """How far each segment (n, 2) stays from a box (0 where it enters it), by 65 points along it."""
    points = ends[:, :1] + _PLACES * (ends[:, 1:] - ends[:, :1])
    across = np.maximum(np.maximum(extent[0] - points.real, points.real - extent[2]), 0)
    down = np.maximum(np.maximum(extent[1] - points.imag, points.imag - extent[3]), 0)
    off: Floats = np.hypot(across, down).min(axis=1)
    return off
