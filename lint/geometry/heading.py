"""The heading of a curve on equal steps of arc length, from points that may be few, many, or rounded."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import CORNER, Curve, vertex_turns
from lint.geometry.ranks import median, quantile
from lint.values import dataclass

Floats = NDArray[np.float64]

# Steps for each window. Fewer would show in the curvature of a bend as tight as the window; more only cost time.
STEPS = 12
MOST_STEPS = 1 << 15

# How many curves' figures are remembered: the questions about one scroll come one after another. Curves are frozen and
# compare by identity.
KEPT = 8

# A vertex turns the curve over half of the chord on either side, but never over more than twice the shorter chord on
# the longer side: beside a straight run, the first vertex of a bend belongs to the bend.
UNEVEN = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Heading:
    """Mean heading (radians, unwound, clockwise on the page) of each step, `lead` steps beyond either end included.

    Step i covers arc lengths (i - lead) * step to (i + 1 - lead) * step, mm.
    """

    means: Floats
    step: float
    lead: int

    @property
    def middles(self) -> Floats:
        """Arc length at the middle of each step that lies on the curve, mm."""
        places: Floats = (np.arange(len(self.means) - 2 * self.lead, dtype=np.float64) + 0.5) * self.step
        return places

    def against(self, odd: Floats) -> Floats:
        """The sum of the heading times an odd weight about the middle of every step on the curve. `odd` holds the
        weights 1, 2, ... steps ahead; behind, they count negative."""
        return self._weighed(np.concatenate([odd[::-1], [0.0], -odd]), len(odd), 0)

    def against_edges(self, odd: Floats) -> Floats:
        """The same about every edge between steps, both ends of the curve included; `odd` starts with the weight
        of the step just ahead."""
        return self._weighed(np.concatenate([odd[::-1], -odd]), len(odd), 1)

    def _weighed(self, kernel: Floats, reach: int, more: int) -> Floats:
        full = np.convolve(self.means, kernel, mode="valid")
        skip = self.lead - reach
        wanted: Floats = full[skip : skip + len(self.means) - 2 * self.lead + more]
        return wanted


def heading(line: Curve, window: float, lead: float) -> Heading:
    """The heading of `line` on steps of about `window` / 12 mm, carried on for `lead` mm beyond either end.

    Each vertex's turn is spread evenly over the halves of its chords (exact for points on a circle), a corner's is
    not. Averages over the steps, not samples, so that points denser than the steps lose their noise. Beyond an
    end the curve goes on with the bend it has over the last `lead` mm; a closed one goes round.
    """
    step = line.length / max(8, min(int(np.ceil(line.length * STEPS / window)), MOST_STEPS))
    ahead = max(2, int(np.ceil(lead / step)))
    count = round(line.length / step)
    inside = _step_means(*_spread(line), step, count)
    if line.closed:
        whole = float(np.radians(vertex_turns(line)).sum())
        before, after = _wound(inside, ahead, whole)
    else:
        before, after = _carried_on(inside, ahead)
    return Heading(np.concatenate([before, inside, after]), step, ahead)


@lru_cache(maxsize=KEPT)
def roughness(line: Curve) -> tuple[float, float]:
    """How far the points stray off a smooth curve, sideways (rms, mm), and the ordinary length of a chord (mm).

    Points that stray by e, each on its own, p apart, make the turn change from vertex to vertex by e sqrt(20) / p
    (third differences). Three in four of the changes are under 1.15 times their rms; that figure passes over corners,
    and is not misled by straights along the page, which rounding leaves alone. Rounding to two decimals on a drawing
    at 1:7 strays by 0.02 mm.
    """
    lengths = line.stations[1:] - line.stations[:-1]
    chord = median(lengths)
    turns = np.radians(vertex_turns(line))
    if len(turns) < 5:
        return 0.0, chord
    changes = np.abs(np.diff(turns)) * lengths[: len(turns) - 1]
    return float(quantile(changes, 0.75) / 1.15 / np.sqrt(20)), chord


@lru_cache(maxsize=KEPT)
def _spread(line: Curve) -> tuple[Floats, Floats]:
    """Breakpoints (mm), from before the start to past the end, and headings there (radians), straight between."""
    turns = np.radians(vertex_turns(line))
    lengths = line.stations[1:] - line.stations[:-1]
    across, down = (line.run[1] - line.points[0]).tolist()
    first = math.atan2(down, across)
    if line.closed:  # the first vertex stands at both ends
        before, at, after = np.append(lengths[-1], lengths), line.stations, np.append(lengths, lengths[0])
        first -= float(turns[0])
        turns = np.append(turns, turns[0])
    else:
        before, at, after = lengths[:-1], line.stations[1:-1], lengths[1:]
    half = np.where(np.abs(turns) <= math.radians(CORNER), 0.5, 0.0)
    back, ahead = half * np.minimum(before, UNEVEN * after), half * np.minimum(after, UNEVEN * before)
    levels = first + np.concatenate([[0.0], np.cumsum(turns)])
    breaks, values = np.empty(2 * len(levels)), np.empty(2 * len(levels))
    breaks[1:-1:2], breaks[2:-1:2] = at - back, at + ahead
    values[::2] = values[1::2] = levels
    breaks[0], breaks[-1] = min(0.0, breaks[1] - 1) if len(turns) else 0.0, line.length + 1
    if not line.closed and len(turns):  # the bend of the first and of the last vertex runs on to the ends
        values[0] -= _to_the_end(turns[0], back[0], ahead[0], before[0])
        values[-1] += _to_the_end(turns[-1], ahead[-1], back[-1], after[-1])
    return breaks, values


def _to_the_end(turn: float, to_end: float, inward: float, chord: float) -> float:
    """What the curve turns over the outer half of an end chord: as much as over its inner half, or nothing where the
    chord is so long that it must be a straight run."""
    return turn * to_end / (to_end + inward) if to_end == chord / 2 and to_end + inward > 0 else 0.0


def _step_means(breaks: Floats, values: Floats, step: float, count: int) -> Floats:
    """Mean over each of `count` steps from 0 of the function that runs straight from break to break."""
    widths = breaks[1:] - breaks[:-1]
    areas = np.cumsum(widths * (values[1:] + values[:-1]) / 2)
    slopes = (values[1:] - values[:-1]) / np.where(widths > 0, widths, 1.0)
    pieces = np.array([breaks[:-1], np.concatenate([[0.0], areas[:-1]]), values[:-1], slopes / 2])
    first = np.clip(np.ceil(breaks / step), 0, count + 1).astype(np.intp)
    first = np.maximum.accumulate(first)  # rounding may put breaks out of order
    start, before, level, half = np.repeat(pieces, first[1:] - first[:-1], axis=1)  # of each edge's piece
    into = np.arange(count + 1) * step - start
    total = before + (level + half * into) * into
    means: Floats = (total[1:] - total[:-1]) / step
    return means


def _wound(inside: Floats, ahead: int, whole: float) -> tuple[Floats, Floats]:
    rounds = ahead // len(inside) + 1
    before = np.concatenate([inside - whole * k for k in range(rounds, 0, -1)])[-ahead:]
    after = np.concatenate([inside + whole * k for k in range(1, rounds + 1)])[:ahead]
    return before, after


def _carried_on(inside: Floats, ahead: int) -> tuple[Floats, Floats]:
    """Headings beyond the two ends: the straight line through the last steps, carried on."""
    return _run_out(inside[::-1], ahead)[::-1], _run_out(inside, ahead)


def _run_out(means: Floats, ahead: int) -> Floats:
    last = means[-min(len(means), max(ahead, 2)) :]
    t = np.arange(len(last)) - (len(last) - 1) / 2
    slope = float((t * last).sum() / (t * t).sum())
    beyond: Floats = last.mean() + slope * (np.arange(1, ahead + 1) + t[-1])
    return beyond
