"""The sheet to fill in at the bench: every measuring point, as a table to print and as a CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from lint.lengths import INCH, say
from lint.panel.panel import Panel
from lint.panel.parts import Bar
from lint.sheet.approved import Approved, Point
from lint.values import dataclass

_COLUMNS = ("number", "of", "what", "drawn", "least", "most", "measured")
_CAUTION = (
    "Try every opening with a real ball, all over and under a push: the figures here are those of the drawing. "
    "No sharp ends within reach. Loads, fixings, climbing, stairs, pools and escape windows: local code and licensed "
    "practice decide."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Balloon:
    """A number (or a run of them) on the small picture, in mm from the frame's corner."""

    x: float
    y: float
    words: str


def sheet_csv(points: Sequence[Point], units: str) -> str:
    """The points as a CSV with an empty column "measured"; lengths in the sheet's units."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(_COLUMNS)
    for point in points:
        least, most = _bounds(point)
        figures = (_say(point, value, units) for value in (point.value, least, most))
        table.writerow((point.number, point.of, point.what, *figures, ""))
    return out.getvalue()


def sheet_page(approved: Approved, panel: Panel, units: str) -> str:
    """The points as one printable page: a small picture with numbered balloons, and the table to fill in."""
    from jinja2 import Environment, PackageLoader, StrictUndefined  # loaded only where a page is asked for

    points = approved.last.points
    rows = [(p, *(_say(p, value, units) for value in (p.value, *_bounds(p)))) for p in points]
    left, top, right, bottom = _extent(panel)
    environment = Environment(loader=PackageLoader("lint.record"), autoescape=True, undefined=StrictUndefined)
    return environment.get_template("measuring-sheet.html").render(
        drawing=approved.drawing,
        revision=approved.last,
        rows=rows,
        metal=[_path(bar.metal.rings) for bar in _bars(panel) if bar.metal is not None],
        frame=_path(panel.frame.metal.rings) if panel.frame is not None and panel.frame.metal is not None else "",
        shift=f"{-panel.origin[0]:.2f} {-panel.origin[1]:.2f}",
        view=f"{left:.2f} {top:.2f} {right - left:.2f} {bottom - top:.2f}",
        balloons=_balloons(points, max(right - left, bottom - top) / 60),
        size=max(right - left, bottom - top) / 60,
        caution=_CAUTION,
        bases=sorted({point.basis for point in points}),
    )


def _bars(panel: Panel) -> list[Bar]:
    return [*(scroll.bar for scroll in panel.scrolls), *panel.bars]


def _bounds(point: Point) -> tuple[float, float]:
    """The least and the most that the piece may measure there; an opening never as much as the ball."""
    most = point.value + point.limit
    return point.value - point.limit, most if point.most is None else min(most, point.most)


def _say(point: Point, value: float, units: str) -> str:
    if point.unit == "deg":
        return f"{value:.2f}°"
    return f"{value / INCH:.3f} in" if units == "in" else say(value, units)


def _extent(panel: Panel) -> tuple[float, float, float, float]:
    """The picture's extent in mm from the frame's corner, with room for balloons."""
    if panel.frame is not None and panel.frame.outside is not None:
        wide, high = panel.frame.outside
    else:
        wide, high = 500.0, 500.0
    room = max(wide, high) * 0.06
    return (-room, -room, wide + room, high + room)


def _path(rings: Sequence[Sequence[tuple[float, float]]]) -> str:
    return " ".join("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in ring) + "Z" for ring in rings)


def _balloons(points: Sequence[Point], size: float) -> list[_Balloon]:
    """One balloon for each part, with the run of its numbers; those that would cover one another move apart."""
    runs: dict[tuple[str, tuple[float, float]], list[int]] = {}
    for point in points:
        runs.setdefault((point.of, point.at), []).append(point.number)
    placed: list[_Balloon] = []
    for (_, at), numbers in runs.items():
        words = str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]}-{numbers[-1]}"
        x, y = at
        while any(abs(x - b.x) < size * 4.2 and abs(y - b.y) < size * 2.1 for b in placed):
            y += size * 2.2
        placed.append(_Balloon(x=x, y=y, words=words))
    return placed
