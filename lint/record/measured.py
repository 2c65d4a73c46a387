"""The forged piece by rule and caliper: each reading against the approved drawing, within or outside its limit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lint.lengths import say
from lint.panel.panel import Panel
from lint.record.readings import Reading
from lint.result import Kind, Place, Result, Sign, Source, Spot
from lint.sheet.approved import Point

_GROUPS = {  # the first word of what a point is of -> the name of its result
    "frame": "forged-frame",
    "upper": "forged-corners",
    "lower": "forged-corners",
    "dimension": "forged-stated-sizes",
    "scroll": "forged-scrolls",
    "opening": "forged-openings",
}
_FASTENERS = "forged-fasteners"


def measured_results(
    points: Sequence[Point], readings: Mapping[int, Reading], panel: Panel, units: str
) -> tuple[Result, ...]:
    """One result for each group of points: pass where all are within, fail where one is outside or missing.

    The measured figure of a result is its largest excess over the limit in mm or degrees (0 where all are within).
    """
    groups: dict[str, list[Point]] = {}
    for point in points:
        groups.setdefault(_GROUPS.get(point.of.split()[0], _FASTENERS), []).append(point)
    return tuple(_group(name, these, readings, panel, units) for name, these in groups.items())


def _group(name: str, points: list[Point], readings: Mapping[int, Reading], panel: Panel, units: str) -> Result:
    places = tuple(_place(point, readings.get(point.number), panel, units) for point in points)
    outside = [p for p, place in zip(points, places, strict=True) if place.sign is Sign.MEND]
    missing = sum(place.sign is Sign.LOOK for place in places)
    within = len(points) - len(outside) - missing
    excess = max((_excess(point, readings[point.number].value) for point in outside), default=0.0)
    said = f"{within} of {len(points)} points within their limits"
    said += f", {len(outside)} outside" if outside else ""
    said += f", {missing} not measured" if missing else ""
    return Result(
        rule=name,
        kind=Kind.FAIL if outside or missing else Kind.PASS,
        message=f"{said[0].upper()}{said[1:]}.",
        remedy=_remedy(len(outside), missing),
        measured=excess,
        required=0.0,
        unit="deg" if all(point.unit == "deg" for point in points) else "mm",
        figure=f"{within} of {len(points)} within",
        asked="all within",
        places=places,
    )


def _remedy(outside: int, missing: int) -> str:
    if outside:
        return "Mend the piece where it is outside, and measure there again."
    return "Measure the points that are left empty." if missing else ""


def _excess(point: Point, value: float | None) -> float:
    return 0.0 if value is None else max(0.0, abs(value - point.value) - point.limit)


def _place(point: Point, reading: Reading | None, panel: Panel, units: str) -> Place:
    value = reading.value if reading else None
    x, y = point.at[0] + panel.origin[0], point.at[1] + panel.origin[1]
    name = f"point {point.number}, {point.of}, {point.what}"
    drawn = _say(point, point.value, units)
    if value is None:
        note, sign = f"{name}: not measured (drawn {drawn})", Sign.LOOK
    else:
        off = value - point.value
        within = abs(off) <= point.limit + 1e-9
        word = "within" if within else "outside"
        limit = f"{point.limit:.2f} deg" if point.unit == "deg" else say(point.limit, units)
        sign_of = "-" if off <= -0.005 else "+"
        difference = f"{sign_of}{_say(point, abs(off), units)}"
        note = f"{name}: {_say(point, value, units)}, drawn {drawn} ({difference}), {word} {limit}"
        sign = Sign.STANDS if within else Sign.MEND
        if point.most is not None and value >= point.most:
            note += f", and a ball of {say(point.most, units)} passes"
            sign = Sign.MEND
    return Place(x=x, y=y, note=note, sign=sign, source=Source(), measured=value, traces=(Spot(x=x, y=y),))


def _say(point: Point, value: float, units: str) -> str:
    return f"{value:.2f} deg" if point.unit == "deg" else say(value, units)
