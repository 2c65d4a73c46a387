"""The panel: the parts, and what may be asked of them."""

from __future__ import annotations

from lint.panel.parts import (
    Bar,
    Closeness,
    Contact,
    Dimension,
    Fastener,
    Frame,
    Opening,
    Origin,
    Point,
    Scale,
    Scroll,
    Stray,
    Unread,
)
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Panel:
    """A grille panel in real millimetres, y down, zero at the upper left of the page's viewBox.

    `origin` is the upper left outside corner of the frame (of the page where there is no frame): reports give
    places from there. `page_zero` and `scale.mm_per_unit` lead back to page units:
    `page unit = page_zero + mm / mm_per_unit`.

    `scrolls` and `samples` are apart; `bars` are infill bars that are no scroll. `closeness` lists every pair
    of bars (turns of one bar too) that overlap or come nearer than the sheet's clear gap, contacts excepted.
    `doubles` names objects drawn twice on one another: (kept, dropped). `strays` lists words that no end
    took, marks that stand by nothing, and the like.
    """

    title: str
    scale: Scale
    page_zero: tuple[float, float]
    page_extent: tuple[float, float, float, float] | None  # real mm
    origin: Point
    frame: Frame | None
    scrolls: tuple[Scroll, ...]
    samples: tuple[Scroll, ...]
    bars: tuple[Bar, ...]
    fasteners: tuple[Fastener, ...]
    contacts: tuple[Contact, ...]
    closeness: tuple[Closeness, ...]
    openings: tuple[Opening, ...]
    dimensions: tuple[Dimension, ...]
    unread: tuple[Unread, ...]
    doubles: tuple[tuple[Origin, Origin], ...]
    notes: tuple[str, ...]
    counts: dict[str, int]  # read, words, passed over, hidden, unread: they add up to `elements`
    elements: int
    digest: str
    written: tuple[tuple[float, float, float, float], ...] = ()  # where live text stands, real mm
    crossings: bool = False  # bars lie over one another: a front view cannot show the true gap
    strays: tuple[Stray, ...] = ()

    @property
    def blank(self) -> bool:
        """True where no object's name says that it is metal: there is no grille to judge."""
        return not (self.frame or self.scrolls or self.samples or self.bars or self.fasteners)

    @property
    def families(self) -> tuple[tuple[Scroll, ...], ...]:
        """Scrolls (samples excepted) by family, in order of number; those of family 0 are left out."""
        members: dict[int, list[Scroll]] = {}
        for scroll in self.scrolls:
            members.setdefault(scroll.family, []).append(scroll)
        return tuple(tuple(members[number]) for number in sorted(members) if number)

    def from_origin(self, point: Point) -> Point:
        """A point of the panel as reports give it: mm from the frame's upper left outside corner."""
        return (point[0] - self.origin[0], point[1] - self.origin[1])
