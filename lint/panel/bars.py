"""Strokes and outlines to bars of metal: doubles made one, ids made unique, all metal made in one go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint.drawing.drawn import Drawn
from lint.geometry.area import Area
from lint.geometry.band import band, bands
from lint.panel.bevels import bevelled
from lint.panel.doubles import lying_on_one_another
from lint.panel.limit import refuse_heap
from lint.panel.metal import Outline, Part, Stroke, parts_of
from lint.panel.origins import id_of, origin_of, unlike
from lint.panel.outlined import outlines_as_bars
from lint.panel.parts import FRAME, Bar, DrawnAs, Origin, Role, Stray
from lint.panel.placing import Placing
from lint.panel.sections import SAME_WIDTH, depth_for
from lint.sheet.sheet import Sheet
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Metal:
    """All bars by role, in drawing order; `doubles` are (kept, dropped); `strays` as in Panel."""

    bars: dict[Role, tuple[Bar, ...]]
    doubles: tuple[tuple[Origin, Origin], ...]
    strays: tuple[Stray, ...]

    def of(self, role: Role) -> tuple[Bar, ...]:
        """The bars of one role."""
        return self.bars.get(role, ())


def metal_of(items: Sequence[tuple[Role, Drawn]], placing: Placing, sheet: Sheet) -> Metal:
    """The bars that objects of role frame, scroll, bar and sample stand for. Raises UnreadableDrawing where they lie in
    a heap."""
    parts, doubles = _singled(parts_of(items, placing, sheet))
    strokes = [part for part in parts if isinstance(part, Stroke)]
    outlines = [part for part in parts if isinstance(part, Outline)]
    edges = [(part.drawn, ring, 0.0) for part in outlines for ring in part.rings]
    refuse_heap([*((part.drawn, part.line, part.width or 0.0) for part in strokes), *edges])
    made: dict[int, list[Bar]] = {id(s): [bar] for s, bar in zip(strokes, _stroked(strokes, sheet), strict=True)}
    made |= {id(o): bars for o, bars in zip(outlines, outlines_as_bars(outlines, sheet), strict=True)}
    roles = [(part.role, bar) for part in parts for bar in made[id(part)]]
    named = list(zip((role for role, _ in roles), _with_ids(roles), strict=True))
    return Metal(
        bars={role: tuple(bar for r, bar in named if r is role) for role in dict.fromkeys(role for role, _ in named)},
        doubles=doubles,
        strays=tuple(_contradictions(strokes)),
    )


def _singled(parts: list[Part]) -> tuple[list[Part], tuple[tuple[Origin, Origin], ...]]:
    """The parts with doubles dropped: a stroke is kept before a fill, a broad stroke before a narrow one. The fill
    of what is drawn as a stroke too is half of one object, and no double that anyone need be told of."""
    dropped: dict[int, int] = {}
    for i, j in lying_on_one_another([part.line for part in parts]):
        if parts[i].role is not parts[j].role or i in dropped or j in dropped:
            continue
        keep, drop = (i, j) if _rank(parts[i]) >= _rank(parts[j]) else (j, i)
        dropped[drop] = keep
    told = {d: k for d, k in dropped.items() if isinstance(parts[d], Stroke) == isinstance(parts[k], Stroke)}
    pairs = tuple((origin_of(parts[k].drawn), origin_of(parts[d].drawn)) for d, k in sorted(told.items()))
    return [part for number, part in enumerate(parts) if number not in dropped], pairs


def _rank(part: Part) -> tuple[bool, bool, float]:
    return (isinstance(part, Stroke), isinstance(part, Stroke) and not part.hair, getattr(part, "width", None) or 0.0)


def _stroked(strokes: list[Stroke], sheet: Sheet) -> list[Bar]:
    known = [s for s in strokes if s.width]
    mitred = [s for s in known if s.drawn.paint.join == "miter" or s.hair]
    made = bands([s.line for s in mitred], [s.width or 0.0 for s in mitred], [_cap(s) for s in mitred])
    metal = {id(s): area for s, area in zip(mitred, made, strict=True)}
    metal |= {id(s): _other_join(s) for s in known if id(s) not in metal}
    return [_bar(s, sheet, metal.get(id(s))) for s in strokes]


def _other_join(stroke: Stroke) -> Area:
    if stroke.drawn.paint.join == "bevel":
        return bevelled(stroke.line, stroke.width or 0.0, _cap(stroke))
    return band(stroke.line, stroke.width or 0.0, cap=_cap(stroke), square_corners=False)


def _cap(stroke: Stroke) -> str:
    return "butt" if stroke.hair else stroke.drawn.paint.cap.value


def _bar(stroke: Stroke, sheet: Sheet, metal: Area | None) -> Bar:
    return Bar(
        id=id_of(stroke.drawn),
        origin=origin_of(stroke.drawn),
        line=stroke.line,
        width=stroke.width,
        depth=depth_for(stroke.width, stroke.named, stroke.role, sheet),
        metal=metal,
        drawn_as=DrawnAs.HAIRLINE if stroke.hair else DrawnAs.CENTRELINE,
        width_from=stroke.by,
    )


def _with_ids(bars: Sequence[tuple[Role, Bar]]) -> Iterator[Bar]:
    """The bars with the id of their object, made unique: a second of the same name says its line, then its number."""
    taken = {FRAME: 1}
    for _, bar in bars:
        name = unlike(bar.id, bar.origin.line, taken)
        yield bar if name == bar.id else replace(bar, id=name)


def _contradictions(strokes: list[Stroke]) -> Iterator[Stray]:
    """Bars whose name says one width and whose stroke another."""
    for stroke in strokes:
        named = stroke.named
        if named.width and stroke.width and abs(named.width - stroke.width) > SAME_WIDTH:
            first = stroke.line.points[0]
            said = f"its name says {named.width:g} mm wide and its stroke {stroke.width:.2f} mm"
            at = (float(first[0]), float(first[1]))
            yield Stray(rule="layers", sentence=said, origin=origin_of(stroke.drawn), at=at)
