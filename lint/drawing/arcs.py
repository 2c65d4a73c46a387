"""An elliptical arc of path data -> cubic pieces."""

from __future__ import annotations

import cmath
import math

Cubic = tuple[float, float, float, float, float, float, float, float]


def arc(start: complex, rx: float, ry: float, turned: float, large: bool, sweep: bool, end: complex) -> list[Cubic]:
    """The pieces of one arc, each of at most 45 degrees (radius error under 5e-6 of the radius).

    Units are the path's own, `turned` in degrees. SVG 1.1, F.6.2: an arc that ends where it starts is nothing,
    one with a radius of zero is a straight line.
    """
    rx, ry = abs(rx), abs(ry)
    if start == end:
        return []
    if rx == 0 or ry == 0:
        return [_straight(start, end)]
    # The extremes that rounding would lose: far above the chord or quite flat, an arc is a straight line;
    # far below the chord it grows to fit (F.6.6), from whatever size.
    chord = abs(end - start)
    if chord < 1e-200 or min(rx, ry) > 1e7 * chord or min(rx, ry) < 1e-7 * max(rx, ry):
        return [_straight(start, end)]
    if max(rx, ry) < 1e-3 * chord:
        rx, ry = (r * (1e-3 * chord / max(rx, ry)) for r in (rx, ry))
    return _pieces(start, rx, ry, cmath.rect(1.0, math.radians(turned % 360.0)), large, sweep, end)


def _pieces(start: complex, rx: float, ry: float, turn: complex, large: bool, sweep: bool, end: complex) -> list[Cubic]:
    """Centre and angles by SVG 1.1, F.6.5 and F.6.6, in the plane where the ellipse is a circle of radius 1."""
    half = (start - end) / 2 / turn
    half = complex(half.real / rx, half.imag / ry)  # from the chord's middle to its start
    off = math.sqrt(max(1 - abs(half) ** 2, 0.0))  # of the centre from the chord
    grown = max(abs(half), 1.0)
    rx, ry, half = rx * grown, ry * grown, half / grown
    middle = half / abs(half) * off * (1j if large == sweep else -1j)
    first, angle = cmath.phase(half - middle), 2 * math.atan2(abs(half), -off if large else off)
    count = max(1, math.ceil(angle / (math.pi / 4) - 1e-6))  # a half circle is four, its rounding aside
    step = angle / count * (1 if sweep else -1)
    centre = (start + end) / 2 + turn * complex(rx * middle.real, ry * middle.imag)
    handle = 4 / 3 * math.tan(step / 4)
    found: list[Cubic] = []
    here, leave = start, _along(first, rx, ry) * turn * handle
    for index in range(1, count + 1):
        angle = first + index * step
        there = end if index == count else centre + turn * complex(rx * math.cos(angle), ry * math.sin(angle))
        reach = _along(angle, rx, ry) * turn * handle
        one, two = here + leave, there - reach
        found.append((here.real, here.imag, one.real, one.imag, two.real, two.imag, there.real, there.imag))
        here, leave = there, reach
    return found


def _along(angle: float, rx: float, ry: float) -> complex:
    return complex(-rx * math.sin(angle), ry * math.cos(angle))


def _straight(a: complex, b: complex) -> Cubic:
    one, two = (2 * a + b) / 3, (a + 2 * b) / 3
    return (a.real, a.imag, one.real, one.imag, two.real, two.imag, b.real, b.imag)
