"""What a rule says of a drawing, in the words of SARIF 2.1.0 (OASIS), section 3.27.9 `kind`.

All coordinates are real millimetres in the panel's plane (`Panel` says where zero is), y down.
Places and traces are plain figures: only `report/` makes strings or strokes of them.
"""

from __future__ import annotations

from enum import StrEnum

from lint.values import dataclass

Point = tuple[float, float]


class Kind(StrEnum):
    """The result of one rule on one drawing."""

    PASS = "pass"
    FAIL = "fail"
    REVIEW = "review"
    NOT_APPLICABLE = "notApplicable"


class Sign(StrEnum):
    """What a place asks of its reader."""

    MEND = "mend"  # must change
    LOOK = "look"  # a person must look
    STANDS = "stands"  # checked, and right
    FACT = "fact"  # a figure or a note


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where in the file a part was drawn."""

    line: int | None = None
    id: str | None = None
    layer: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """The sphere of the sheet at true size, where it passes. mm."""

    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """The largest circle of an opening, or a fitted radius. mm."""

    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """An area: what a ball's centre can reach, or what two bars share. Rings of points, mm; holes included."""

    rings: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A curve to lay over the drawing: a partner's centreline, a flat, a stretch of bar. mm."""

    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A distance from a to b, to be drawn and dimensioned. `length` in mm (it may be stated, not a to b)."""

    a: Point
    b: Point
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A point to mark: a kink, a contact, a fastener's axis, a scroll end. mm."""

    x: float
    y: float


Trace = Ball | Circle | Region | Line | Gap | Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One finding or fact of a rule: where, what, and what to draw there.

    `note` is a short phrase with its figure ("largest circle 118.4 mm"). `measured` is in the unit of the
    result it belongs to, or None. `remedy` says what to change here, where the result's own remedy says another thing.
    """

    x: float
    y: float
    note: str
    sign: Sign
    source: Source = Source()
    measured: float | None = None
    traces: tuple[Trace, ...] = ()
    remedy: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiver:
    """Why a fail is let stand. `drawing` is the glob, `sheet` the file that holds the waiver."""

    drawing: str
    rule: str
    reason: str
    sheet: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What one rule says of one drawing.

    `message` is a sentence with the figures, ending in a full stop. `remedy` says what to change in the
    drawing (empty only for a pass and for notApplicable). `measured` and `required` are numbers in `unit`
    ("mm", "deg", "mm2", "count", "" for none); `figure` and `asked` are the same for people, with the unit
    ("118.4 mm", "under 101.6 mm").
    `because` names the rule that must be mended first, where this one cannot be judged.
    """

    rule: str
    kind: Kind
    message: str
    remedy: str = ""
    measured: float | None = None
    required: float | None = None
    unit: str = ""
    figure: str = ""
    asked: str = ""
    places: tuple[Place, ...] = ()
    because: str | None = None
    waived: Waiver | None = None

    @property
    def stops(self) -> bool:
        """True where this result makes the run fail: a fail that is not waived."""
        return self.kind is Kind.FAIL and self.waived is None
