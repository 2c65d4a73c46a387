"""What it means: the parts that a smith would name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from lint.drawing.drawn import Drawing, Drawn, Words
from lint.panel.bars import Metal, metal_of
from lint.panel.contacts import contacts_of
from lint.panel.digest import digest_of
from lint.panel.ends import name_ends
from lint.panel.families import sort_into_families
from lint.panel.fasteners import fasten
from lint.panel.fixings import fixings_of
from lint.panel.frame import frame_of
from lint.panel.joints import joints_marked, radii_marked, stray_radii
from lint.panel.limit import refuse_too_much
from lint.panel.notes import notes_on
from lint.panel.openings import openings_of
from lint.panel.origins import origin_of
from lint.panel.panel import Panel
from lint.panel.parts import Frame, Point, Role, Scale, Scroll, Stray
from lint.panel.placing import Placing
from lint.panel.roles import BARS, FASTENERS, Roles
from lint.panel.scale import bar_hint, scale_of
from lint.panel.scrolls import shapes_of
from lint.panel.sizes import dimensions_of
from lint.panel.spans import Span, spans_of
from lint.panel.unheard import unheard, unsaid
from lint.panel.unread import counts_of, unread_of
from lint.sheet.sheet import Sheet
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sorted:
    """Every object with its role."""

    items: tuple[tuple[Role | None, Drawn | Words], ...]

    def drawn(self, *roles: Role) -> list[Drawn]:
        """The shapes of some roles, in drawing order."""
        return [item for role, item in self.items if role in roles and isinstance(item, Drawn)]

    def words(self, role: Role) -> list[Words]:
        """The live texts of one role, in drawing order."""
        return [item for own, item in self.items if own is role and isinstance(item, Words)]

    def shapes(self, roles: frozenset[Role]) -> list[tuple[Role, Drawn]]:
        """The shapes of some roles with the role of each, in drawing order."""
        return [(role, item) for role, item in self.items if role in roles and isinstance(item, Drawn)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measures:
    """The scale that holds, where zero is, and the dimensions as drawn on the page."""

    scale: Scale
    placing: Placing
    spans: tuple[Span, ...]
    loose: tuple[Words, ...]


def build(drawing: Drawing, sheet: Sheet, *, scale: str | None = None) -> Panel:
    """The panel that a drawing shows, in real millimetres. `scale` overrides what the drawing states ("1:4").

    Raises UnreadableDrawing where the option `scale` is no scale, or where more is drawn than can be judged.
    """
    roles = Roles(sheet)
    everything: tuple[Drawn | Words, ...] = (*drawing.drawn, *drawing.words)
    found = _Sorted(items=tuple((roles.of(item), item) for item in everything))
    refuse_too_much(found.items, drawing.size)
    measures = _measured(drawing, found, sheet, scale)
    placing = measures.placing
    metal = metal_of(found.shapes(BARS), placing, sheet)
    radii, loose_radii = radii_marked(found.drawn(Role.RADIUS), found.words(Role.RADIUS), placing, sheet.units)
    joints = joints_marked(found.drawn(Role.JOINT), found.words(Role.JOINT), placing)
    frame = frame_of(metal.of(Role.FRAME), metal.of(Role.BAR), joints, radii, sheet)
    scrolls, samples, off_ends = _scrolls(metal, found, measures, sheet)
    panel = _assembled(drawing, found, measures, metal, frame, scrolls, samples, sheet)
    loose_radii += stray_radii(radii, frame.corners if frame else (), sheet)
    sizes = unheard(measures.loose, found.drawn(Role.DIMENSION), measures.spans, placing)
    words = unsaid(found.words(Role.SCALE), measures.scale, placing)
    strays = (*metal.strays, *loose_radii, *off_ends, *sizes, *words, *_faults(found, placing))
    panel = replace(panel, strays=strays)
    return replace(panel, digest=digest_of(panel))


def _measured(drawing: Drawing, found: _Sorted, sheet: Sheet, option: str | None) -> _Measures:
    spans, loose = spans_of(found.drawn(Role.DIMENSION), found.words(Role.DIMENSION), sheet.units)
    said = found.words(Role.SCALE)
    references, _ = spans_of(found.drawn(Role.SCALE), said, sheet.units)
    scale = scale_of(drawing.page, option, said, references, spans, lambda: _longest(found), sheet)
    zero = drawing.page.extent[:2] if drawing.page.extent else (0.0, 0.0)
    placing = Placing(zero=zero, mm=scale.mm_per_unit).laying(
        found.drawn(*BARS, *FASTENERS, Role.JOINT, Role.END, Role.RADIUS)
    )
    sources = tuple(replace(s, at=placing.point(s.at) if s.at else None) for s in scale.sources)
    return _Measures(scale=replace(scale, sources=sources), placing=placing, spans=spans, loose=loose)


def _longest(found: _Sorted) -> float:
    """The longer side of what is drawn, page units."""
    cubics = [chain.cubics for drawn in found.drawn(*Role) for chain in drawn.chains if len(chain.cubics)]
    return max(float(np.ptp(along)) for along in np.concatenate(cubics).reshape(-1, 2).T) if cubics else 0.0


def _scrolls(
    metal: Metal, found: _Sorted, measures: _Measures, sheet: Sheet
) -> tuple[tuple[Scroll, ...], tuple[Scroll, ...], tuple[Stray, ...]]:
    scrolls = shapes_of(metal.of(Role.SCROLL), sheet)
    samples = shapes_of(metal.of(Role.SAMPLE), sheet, sample=True)
    marks = found.drawn(Role.END), found.words(Role.END)
    named, off = name_ends([*scrolls, *samples], *marks, measures.placing, sheet)
    parted = named[: len(scrolls)], named[len(scrolls) :]
    return *sort_into_families(*parted, sheet, measures.scale.known), off


def _assembled(
    drawing: Drawing,
    found: _Sorted,
    measures: _Measures,
    metal: Metal,
    frame: Frame | None,
    scrolls: tuple[Scroll, ...],
    samples: tuple[Scroll, ...],
    sheet: Sheet,
) -> Panel:
    placing, bars = measures.placing, metal.of(Role.BAR)
    free = (*(scroll.bar for scroll in scrolls), *bars)
    contacts, closeness, crossings = contacts_of(frame, free, sheet)
    fasteners, contacts = fasten(fixings_of(found.shapes(FASTENERS), placing), frame, free, contacts, sheet)
    extent = placing.extent(drawing.page.extent) if drawing.page.extent else None
    return Panel(
        title=drawing.title, scale=bar_hint(measures.scale, frame.bar_width if frame else None, sheet),
        page_zero=placing.zero, page_extent=extent, origin=_upper_left(frame, extent),
        frame=frame, scrolls=scrolls, samples=samples, bars=bars,
        fasteners=fasteners, contacts=contacts, closeness=closeness, crossings=crossings,
        openings=openings_of(frame, free, fasteners, contacts, sheet),
        dimensions=dimensions_of(measures.spans, placing, frame, scrolls, sheet),
        unread=unread_of(found.items, drawing.asides, placing),
        counts=counts_of(found.items, drawing), elements=drawing.elements,
        doubles=metal.doubles, notes=notes_on(drawing, metal, sheet), digest="",
        written=tuple(placing.extent(words.extent) for words in drawing.words),
    )  # fmt: skip


def _upper_left(frame: Frame | None, page: tuple[float, float, float, float] | None) -> Point:
    if frame and frame.corners:
        return frame.corners[0].at
    box = frame.outer.extent if frame and frame.outer else page
    return (box[0], box[1]) if box else (0.0, 0.0)


def _faults(found: _Sorted, placing: Placing) -> Iterator[Stray]:
    """Objects whose path data is broken: read up to the error, and said so."""
    for drawn in (item for _, item in found.items if isinstance(item, Drawn) and item.fault):
        points: Sequence[Point] = [tuple(chain.cubics[0, 0]) for chain in drawn.chains if len(chain.cubics)]
        at = placing.point(points[0]) if points else (0.0, 0.0)
        yield Stray(rule="layers", sentence=drawn.fault.rstrip("."), origin=origin_of(drawn), at=at)
