"""The lines of a stock list, as plain values. Lengths mm, masses kg."""

from __future__ import annotations

from lint.geometry.curve import Curve
from lint.sheet.sheet import Section
from lint.shop.cutting import Plan
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """Stock beyond the developed length: for what, how much (mm), and where the figure comes from."""

    what: str
    mm: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BarLine:
    """One bar to cut.

    `kind` is "frame", "scroll", "bar" or "sample". `developed` is the length on the centreline, corners by
    volume; `allowances` what is added; `net` their sum and `cut` that rounded up for the saw. `line` is the
    centreline for the picture. `marks` are distances from the left end of the cut bar to the middle of each
    square corner. `mass` is of the cut bar.
    """

    id: str
    name: str
    kind: str
    section: Section | None
    section_from: str
    line: Curve
    developed: float
    allowances: tuple[Allowance, ...]
    cut: float
    mass: float | None
    family: int = 0
    ends: tuple[str, ...] = ()
    marks: tuple[float, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def net(self) -> float:
        """Developed length and all allowances, mm, before it is rounded up."""
        return self.developed + sum(allowance.mm for allowance in self.allowances)


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarLine:
    """One collar: what it embraces, the taut perimeter P round it, the strip it is cut from (width along the
    bars x thickness), the rule with its K, and the length of stock."""

    id: str
    name: str
    holds: tuple[str, ...]
    bundle: str
    perimeter: float
    strip: Section
    rule: str
    k: float
    adds: str
    source: str
    cut: float
    mass: float
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RivetLine:
    """One rivet: shank and hole across, the grip and how the bars lie in it, head, fill and shank length."""

    id: str
    name: str
    holds: tuple[str, ...]
    shank: float
    hole: float
    grip: float
    lies: str
    head: str
    head_allowance: float
    fill: float
    source: str
    cut: float
    mass: float
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewLine:
    """One hidden screw: thread, what to drill and tap, the thread that engages and the least length of screw."""

    id: str
    name: str
    holds: tuple[str, ...]
    thread: str
    thread_from: str
    tap_drill: str
    clearance: str
    engagement: float
    blind_depth: float
    least_length: float
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Jig:
    """One former: its family, what shape it is, the scrolls it makes as it stands and those it makes turned
    over, and whether half of it is enough because both curls are alike."""

    family: int
    shape: str
    as_it_stands: tuple[str, ...]
    turned_over: tuple[str, ...]
    either: bool
    half_is_enough: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionTotal:
    """All pieces of one section: how many, their cut length and mass, and the bars to buy."""

    section: Section
    what: str
    pieces: int
    length: float
    mass: float
    plan: Plan


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StockList:
    """What to fetch from the rack for one drawing. `failing` are the rules that the drawing fails."""

    title: str
    path: str
    sheet: str
    units: str
    digest: str
    bars: tuple[BarLine, ...]
    collars: tuple[CollarLine, ...]
    rivets: tuple[RivetLine, ...]
    screws: tuple[ScrewLine, ...]
    jigs: tuple[Jig, ...]
    totals: tuple[SectionTotal, ...]
    kerf: float
    failing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def mass(self) -> float:
        """kg of all bars and collars whose section is known."""
        return sum(total.mass for total in self.totals)
