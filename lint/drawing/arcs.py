"""An elliptical arc of path data -> cubic pieces."""

from __future__ import annotations

import cmath
import importlib
import importlib.util
import math
import sys
import types
from functools import cache
from typing import Any

Cubic = tuple[float, float, float, float, float, float, float, float]
_WITHOUT: dict[str, types.ModuleType | None] = {  # None: "is not there", which it allows for
    "scipy": None,
    "scipy.integrate": None,
    "webbrowser": types.ModuleType("webbrowser"),
}


@cache
def _arc_type() -> Any:
    """svgpathtools' Arc, and no more of that package than it needs.

    Its front door imports scipy's quadrature, an SVG writer and a way to open a web browser, together half a second
    that no drawing here uses (lengths are measured on our own points); so the one module is imported under a bare
    package, and `sys.modules` is left as it was found.
    """
    if "svgpathtools.path" in sys.modules:
        return sys.modules["svgpathtools.path"].Arc
    spec = importlib.util.find_spec("svgpathtools")
    bare = types.ModuleType("svgpathtools")
    bare.__path__ = list((spec and spec.submodule_search_locations) or ())
    absent = object()
    before = {name: sys.modules.get(name, absent) for name in _WITHOUT}
    try:
        sys.modules["svgpathtools"] = bare
        sys.modules.update(_WITHOUT)  # type: ignore[arg-type]
        return importlib.import_module("svgpathtools.path").Arc
    finally:
        for name in [name for name in sys.modules if name.partition(".")[0] == "svgpathtools"]:
            del sys.modules[name]
        for name, module in before.items():
            if module is absent:
                sys.modules.pop(name, None)
            else:
                sys.modules[name] = module  # type: ignore[assignment]


def arc(start: complex, rx: float, ry: float, turned: float, large: bool, sweep: bool, end: complex) -> list[Cubic]:
    """The pieces of one arc, each of at most 45 degrees (radius error under 5e-6 of the radius).

    Units are the path's own, `turned` in degrees. SVG 1.1, F.6.2: an arc that ends where it starts is nothing,
    one with a radius of zero is a straight line; both are settled here, for svgpathtools asserts on them.
    Centre and angles are svgpathtools' (F.6.5, radii grown by F.6.6). It takes an arc within 0.02 degrees of a
    half circle for a half circle: the arc is then off by at most 1e-4 of its radius.
    """
    rx, ry = abs(rx), abs(ry)
    if start == end:
        return []
    if rx == 0 or ry == 0:
        return [_straight(start, end)]
    # The extremes that squares of radii would lose: far above the chord or quite flat, an arc is a straight line;
    # far below the chord it grows to fit (F.6.6), from whatever size.
    chord = abs(end - start)
    if min(rx, ry) > 1e7 * chord or min(rx, ry) < 1e-7 * max(rx, ry):
        return [_straight(start, end)]
    if max(rx, ry) < 1e-3 * chord:
        rx, ry = (r * (1e-3 * chord / max(rx, ry)) for r in (rx, ry))
    whole = _arc_type()(start, complex(rx, ry), turned % 360.0, large, sweep, end)
    return _pieces(whole, start, end)


def _pieces(whole: Any, start: complex, end: complex) -> list[Cubic]:
    rx, ry = float(whole.radius.real), float(whole.radius.imag)
    centre, turn = complex(whole.center), cmath.rect(1.0, float(whole.phi))
    delta = math.radians(float(whole.delta))
    count = max(1, math.ceil(abs(delta) / (math.pi / 4) - 1e-9))
    step, first = delta / count, math.radians(float(whole.theta))
    handle = 4 / 3 * math.tan(step / 4)
    found: list[Cubic] = []
    here = start
    for index in range(1, count + 1):
        a, b = first + (index - 1) * step, first + index * step
        leave = turn * complex(-rx * math.sin(a), ry * math.cos(a)) * handle
        reach = turn * complex(-rx * math.sin(b), ry * math.cos(b)) * handle
        there = end if index == count else centre + turn * complex(rx * math.cos(b), ry * math.sin(b))
        one, two = here + leave, there - reach
        found.append((here.real, here.imag, one.real, one.imag, two.real, two.imag, there.real, there.imag))
        here = there
    return found


def _straight(a: complex, b: complex) -> Cubic:
    one, two = (2 * a + b) / 3, (a + 2 * b) / 3
    return (a.real, a.imag, one.real, one.imag, two.real, two.imag, b.real, b.imag)
