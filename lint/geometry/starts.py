"""Motions to start from: curves laid on one another in step, by least squares."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.motion import Motion, turned_about
from lint.values import dataclass

Complexes = NDArray[np.complex128]

# Starts whose rms distance is over so many times the best are left out: they lie the wrong way round.
WORSE = 4.0

# Points in step on each curve. More would not change which start is best.
IN_STEP = 96


@dataclass(frozen=True, slots=True, eq=False)
class Start:
    """A motion, and the rms distance (mm) that it leaves between the points in step."""

    motion: Motion
    rms: float


def starts(moving: Curve, fixed: Curve, *, slide: float) -> tuple[Start, ...]:
    """Motions that lay `moving` on `fixed` point by point in step, the best first (least squares, Kabsch 1976).

    Both ways to run and both faces; with lengths that differ by more than `slide` mm, also from either end, the rest of
    the longer curve hanging over; closed curves from every point.
    """
    if moving.closed and fixed.closed:
        found = [_round(moving, fixed, over, back) for over in (False, True) for back in (False, True)]
    else:
        found = [
            in_step(z, w, over)
            for back in (False, True)
            for z, w in _ranges(moving, fixed, back, slide)
            for over in (False, True)
        ]
    found.sort(key=lambda one: one.rms)
    return tuple(one for one in found if one.rms <= WORSE * found[0].rms + slide)


def in_step(z: Complexes, w: Complexes, over: bool) -> Start:
    """The rms distance and the motion that lays the points z on the points w with the least of it."""
    source = z.conj() if over else z
    p, q = source - source.mean(), w - w.mean()
    turn = np.vdot(p, q)
    rms = float(np.sqrt(max(0.0, (np.vdot(p, p).real + np.vdot(q, q).real - 2 * abs(turn)) / len(z))))
    start, end = z.mean(), w.mean()
    angle = float(np.angle(turn))
    motion = turned_about(angle, over, np.array([start.real, start.imag]), np.array([end.real, end.imag]))
    return Start(motion, rms)


def along(line: Curve, start: float, end: float) -> Complexes:
    """Points in step from arc length `start` to `end`, as complex numbers."""
    points = line.at(np.linspace(start, end, IN_STEP))
    return points[:, 0] + 1j * points[:, 1]


def _ranges(moving: Curve, fixed: Curve, back: bool, slide: float) -> list[tuple[Complexes, Complexes]]:
    """The stretches of both curves to lay on one another; the moving one run backwards where asked."""
    a, b = moving.length, fixed.length
    spans = [((0.0, a), (0.0, b))]
    if abs(a - b) > slide:
        short = min(a, b)
        spans += [((0.0, short), (0.0, short)), ((a - short, a), (b - short, b))]
        spans += [((0.0, short), (b - short, b)), ((a - short, a), (0.0, short))] if back else []
    pairs = [(along(moving, *mine), along(fixed, *theirs)) for mine, theirs in spans]
    return [(z[::-1] if back else z, w) for z, w in pairs]


def _round(moving: Curve, fixed: Curve, over: bool, back: bool) -> Start:
    """The best start point of two closed curves: the peak of their circular correlation, by Fourier transform."""
    around = np.linspace(0, 1, 4 * IN_STEP, endpoint=False)
    z, w = (line.at(around * line.length) @ np.array([1, 1j]) for line in (moving, fixed))
    z = z[::-1] if back else z
    source = z.conj() if over else z
    matches = np.fft.ifft(np.conj(np.fft.fft(source - source.mean())) * np.fft.fft(w - w.mean()))
    return in_step(z, np.roll(w, -int(np.abs(matches).argmax())), over)
