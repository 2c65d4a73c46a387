"""What an instructor asks of a panel. Every length in mm, every angle in degrees.

`lint/sheet/two-corner-panel.toml` holds the default of each value and the note of where it comes from; these
classes hold no defaults of their own. Section and field names are the TOML's.
"""

from __future__ import annotations

from collections.abc import Mapping

from lint.result import Waiver
from lint.sheet.approved import Approved
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleAsked:
    label_ratio: float  # how far two statements of size may differ, as a ratio (0.01)
    label_length: float  # or by this length, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameAsked:
    angle: float  # deg either side of 90
    sides: float  # opposite sides equal within, mm
    diagonals: float  # diagonals equal within, mm
    gap: float  # a gap between members up to this is closed, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareCornersAsked:
    least: int
    outside_radius: float  # at most, in bar widths


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideRadiusAsked:
    least: int
    smallest: float  # mm
    largest: float  # in bar widths


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameJointsAsked:
    least: int
    kinds: tuple[str, ...]  # which kinds count: ("mortise and tenon",)
    reach: float  # a mark stands on a meeting within this, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrollCountAsked:
    least: int
    turn: float  # each curl, deg


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrollMatchAsked:
    overlay: float  # mm
    ends_left_out: float  # of an outline, in bar widths
    width: float  # bar width of partners equal within, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class BalanceAsked:
    within: float  # mm
    fails: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FairCurveAsked:
    kink: float  # deg
    inner_radius: float  # in bar widths
    fails: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrollEndsAsked:
    least: int
    reach: float  # mm
    vocabulary: Mapping[str, tuple[str, ...]]  # name -> synonyms


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarsAsked:
    each_scroll: bool  # every scroll collared to another scroll


@dataclass(frozen=True, slots=True, kw_only=True)
class AttachmentAsked:
    least: int
    allowed: tuple[str, ...]  # ("rivet", "collar", "screw")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceAsked:
    overlap: float  # mm
    clear: float  # mm
    fails: bool  # whether a near miss fails


@dataclass(frozen=True, slots=True, kw_only=True)
class PassThroughAsked:
    sphere: float  # mm
    strict: bool
    band: float  # review within this below the limit, mm
    fasteners_are_metal: bool
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionsAsked:
    length: float  # mm
    ratio: float
    reach: float  # mm
    overall: bool  # overall width and height must be stated
    families: bool  # one size for each scroll family must be stated


@dataclass(frozen=True, slots=True, kw_only=True)
class ApprovalAsked:
    required: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A bar's section: width as seen and depth behind it, mm. Round bars have depth None."""

    width: float
    depth: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Sections where the drawing states none, and what is on sale. `density` in kg/m3, lengths mm."""

    frame: Section
    scroll: Section
    bar: Section
    collar: Section
    collar_rule: str  # butt, lap, round, mitred: trade rule for the length
    rivet_head: str
    screw: str
    sizes: tuple[float, ...]  # widths on sale, mm
    lengths: tuple[float, ...]  # lengths on sale
    kerf: float
    density: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """Stock beyond the developed length, mm or in bar widths as each says; `ends` maps an end's name to mm of
    bar beyond the point where the plain bar stops, in bar widths."""

    forged_corner: float  # per corner over the mean line, in bar widths
    tenon: float  # per tenon, in bar widths
    trim: float  # per bar, mm
    scaling: float  # as a ratio
    ends: Mapping[str, float]  # in bar widths


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerances:
    """contact: bars nearer than this touch; the rest are limits for the forged piece. mm and deg."""

    contact: float
    overall: float
    scroll: float
    fastener: float
    opening: float
    radius: float
    angle: float
    standard: str  # "common practice", or an ISO class by name ("ISO 2768-c", "ISO 13920-B")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One requirement sheet, complete.

    `units` is "in" or "mm": the unit of a bare number and of reports. `origins` maps a key path
    ("pass_through.sphere") to the file that set it, `sources` to the note of where the value comes from.
    `layers` maps a name as written (the panel compares it as names are) to a role word, `colours` a stroke colour
    "#rrggbb" to one.
    `warnings` are sentences about the sheet itself. `digest` is a SHA-256 over all values that a rule can see.
    """

    name: str
    title: str
    units: str
    path: str | None
    digest: str
    scale: ScaleAsked
    frame: FrameAsked
    square_corners: SquareCornersAsked
    inside_radius: InsideRadiusAsked
    frame_joints: FrameJointsAsked
    scroll_count: ScrollCountAsked
    scroll_match: ScrollMatchAsked
    balance: BalanceAsked
    fair_curve: FairCurveAsked
    scroll_ends: ScrollEndsAsked
    collars: CollarsAsked
    attachment: AttachmentAsked
    clearance: ClearanceAsked
    pass_through: PassThroughAsked
    dimensions: DimensionsAsked
    approval: ApprovalAsked
    stock: Stock
    allowances: Allowances
    tolerances: Tolerances
    layers: Mapping[str, str]
    colours: Mapping[str, str]
    waive: tuple[Waiver, ...]
    rules_off: tuple[str, ...]  # rules this sheet does not ask for
    origins: Mapping[str, str]
    sources: Mapping[str, str]
    warnings: tuple[str, ...] = ()
    approved: Approved | None = None  # the record kept beside the drawing, handed over with the sheet
