"""What a drawing states, and where it states it: origins, scale, dimensions, and what was not understood. mm."""

from __future__ import annotations

from lint.values import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """Where in the file a part was drawn; `name` is what a person called it (or "")."""

    line: int
    id: str | None
    layer: str | None
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A stated length and the one drawn between its two ends, mm. `of` is "width", "height", "inside width",
    "inside height", a scroll's id, or "" for a free length. `stated` is None where the words are no length
    (`trouble` says so); `between` are its two ends; `spans` is everything that lies between them, `of` first;
    `linear` is False for a radius or a diameter. Where `of` says what is measured, `drawn` is that part's own size."""

    origin: Origin
    text: str
    stated: float | None
    drawn: float
    between: tuple[Point, Point]
    of: str
    trouble: str = ""
    spans: tuple[str, ...] = ()
    linear: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    """Objects of one layer that no role names, or that are hidden or broken; `why` as on the page, `first` the first
    one, `reason` a clause on what is broken in it (else "")."""

    layer: str
    objects: int
    hidden: bool
    why: str
    first: Origin
    at: Point | None = None  # where the first of them is drawn, mm
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stray:
    """Something that is not as it seems meant: a mark that stands by nothing, words that nothing took, a broken
    path. `rule` is the rule that it concerns, `sentence` starts small and has no full stop."""

    rule: str
    sentence: str
    origin: Origin
    at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleSource:
    """One statement of size: who makes it ("option", "scale layer", "dimensions", "page"), what it says, and the
    real mm for each page unit that follows from it. `ratio` is real over paper, where it is stated so; `length`
    the longest real length it rests on, mm; `at` is where it is written (mm of the panel)."""

    by: str
    says: str
    mm_per_unit: float
    origin: Origin | None = None
    ratio: float | None = None
    length: float | None = None
    at: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """`mm_per_unit` is real mm for each page unit. Where nobody states a size, `known` is False and
    `mm_per_unit` is a nominal figure which makes the drawing's longer side 1,000 mm: shapes can then be judged,
    lengths cannot. Where statements contradict one another `known` is False too, and `sources` is not empty.
    `sources` are all statements, the one that holds first. `hint` names a known export ratio.
    """

    mm_per_unit: float
    known: bool
    by: str
    sources: tuple[ScaleSource, ...]
    hint: str = ""
    pixels_only: bool = False
