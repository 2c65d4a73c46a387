"""How far a frame is from square: angles, sides and diagonals."""

from __future__ import annotations

import math

from lint.lengths import say
from lint.panel.parts import Frame
from lint.panel.sides import CORNERS, SIDES
from lint.result import Gap, Line, Place, Sign
from lint.rules._finding import Figure, Finding
from lint.rules._places import source
from lint.sheet.sheet import Sheet

HAIR = 1e-6  # mm and degrees: a limit that is met exactly is met, whatever the last digit of the arithmetic


def angles(frame: Frame, sheet: Sheet) -> list[Finding]:
    """Each corner that is not square."""
    found = []
    for name, corner in zip(CORNERS, frame.corners, strict=True):
        off = abs(corner.angle - 90.0)
        sign = Sign.MEND if off > sheet.frame.angle + HAIR else Sign.STANDS
        note = f"the {name} corner is {corner.angle:.2f}°"
        place = Place(x=corner.at[0], y=corner.at[1], note=note, sign=sign, source=source(frame.members[0].origin),
                      measured=corner.angle)  # fmt: skip
        figure = Figure(measured=corner.angle, required=90.0, unit="deg", asked=f"90° within {sheet.frame.angle:g}°")
        found.append(Finding(place=place, figure=figure, remedy="Move the corner until both diagonals are equal."))
    return found


def out_of_true(frame: Frame, sheet: Sheet) -> list[Finding]:
    """Opposite sides that differ, and diagonals that differ."""
    top, right, bottom, left = frame.sides or (0.0,) * 4
    pairs = (("top", top, "bottom", bottom), ("left", left, "right", right))
    found = [_sides(frame, pair, sheet) for pair in pairs if abs(pair[1] - pair[3]) > sheet.frame.sides + HAIR]
    a, b = frame.diagonals or (0.0, 0.0)
    return [*([_diagonals(frame, a, b, sheet)] if abs(a - b) > sheet.frame.diagonals + HAIR else []), *found]


def _diagonals(frame: Frame, a: float, b: float, sheet: Sheet) -> Finding:
    corners = [corner.at for corner in frame.corners]
    say_a, say_b, off = (say(length, sheet.units) for length in (a, b, abs(a - b)))
    note = f"the diagonals are {say_a} and {say_b}: {off} apart"
    traces = (Line(points=(corners[0], corners[2])), Line(points=(corners[1], corners[3])))
    x, y = ((corners[0][k] + corners[2][k]) / 2 for k in (0, 1))
    place = Place(
        x=x, y=y, note=note, sign=Sign.MEND, source=source(frame.members[0].origin), measured=abs(a - b), traces=traces
    )
    asked = f"diagonals equal within {say(sheet.frame.diagonals, sheet.units)}"
    figure = Figure(measured=abs(a - b), required=sheet.frame.diagonals, unit="mm", asked=asked)
    longer = "upper left to lower right" if a > b else "upper right to lower left"
    return Finding(place=place, figure=figure, remedy=f"Square the frame: its diagonal from {longer} is the longer.")


def _sides(frame: Frame, pair: tuple[str, float, str, float], sheet: Sheet) -> Finding:
    one, first, other, second = pair
    off = abs(first - second)
    longer = one if first > second else other
    start = SIDES.index(longer)
    a, b = frame.corners[start].at, frame.corners[(start + 1) % 4].at
    note = f"the {one} side is {say(first, sheet.units)} and the {other} side {say(second, sheet.units)}"
    at = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    place = Place(x=at[0], y=at[1], note=note, sign=Sign.MEND, source=source(frame.members[0].origin), measured=off,
                  traces=(Gap(a=a, b=b, length=math.dist(a, b)),))  # fmt: skip
    asked = f"opposite sides equal within {say(sheet.frame.sides, sheet.units)}"
    figure = Figure(measured=off, required=sheet.frame.sides, unit="mm", asked=asked)
    return Finding(place=place, figure=figure, remedy=f"Make the {one} and {other} sides of one length.")
