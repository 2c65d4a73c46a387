"""What is on the page: plain values that have never heard of XML.

Coordinates are *page units*: the user units inside the root element (after its viewBox), every transform
below the root applied, y down. `Page.mm_per_unit` turns them into millimetres on paper.
"""

from __future__ import annotations

from enum import StrEnum

from lint.geometry.chain import Chain
from lint.values import dataclass

Extent = tuple[float, float, float, float]  # left, top, right, bottom


class Cap(StrEnum):
    """The end of an open stroke (SVG 1.1, 11.4)."""

    BUTT = "butt"
    ROUND = "round"
    SQUARE = "square"


class PageSize(StrEnum):
    """Who says how large a page unit is."""

    PHYSICAL = "physical"  # width or height in mm, cm, in, pt, pc or Q
    PIXELS = "pixels"  # px or unitless: 1/96 in by CSS, but several editors write points as px
    NONE = "none"  # 100 %, a bare viewBox, or nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """The sheet of paper. Extent in page units; `mm_per_unit` is None where there is no physical size.

    `axes` holds mm per unit along x and y by width/height against viewBox, before preserveAspectRatio picks
    one (equal on a sound page). `remark` is a sentence for the report, or "".
    """

    extent: Extent | None
    mm_per_unit: float | None
    size: PageSize
    axes: tuple[float, float] | None = None
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Naming:
    """The names people gave to one element, best source first, escapes undone; and its id for the report."""

    names: tuple[str, ...]
    id: str | None
    tag: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """Resolved paint. `fill` and `stroke` are "#rrggbb" or None (no visible paint); width in page units.

    `width` is None where the stroke's width has no meaning as one number (non-scaling stroke, or a transform
    that scales x and y apart: `skewed`).
    """

    fill: str | None
    stroke: str | None
    width: float | None
    cap: Cap = Cap.BUTT
    join: str = "miter"  # miter, round or bevel
    dashed: bool = False
    evenodd: bool = False
    skewed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One visible shape as it stands on the page (a clone counts where it stands).

    `own` names it, `above` names its ancestors from the inside out. `line` is the source line (of the `use`
    for a clone). `chains` are its subpaths. `fault` is a sentence where its path data is broken and was
    read only up to the error, else "". `layer` is the name to show for the layer it lies in, or None.
    """

    own: Naming
    above: tuple[Naming, ...]
    line: int
    paint: Paint
    chains: tuple[Chain, ...]
    layer: str | None
    fault: str = ""
    clone_of: Naming | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Live text. `text` is white-space-folded; `extent` is estimated from the font size. Page units."""

    own: Naming
    above: tuple[Naming, ...]
    line: int
    text: str
    extent: Extent
    colour: str | None
    layer: str | None
    clone_of: Naming | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """A drawable element that is not geometry: hidden, without paint, an image, out of reach, broken.

    `why` is one of: "hidden", "no paint", "image", "guide", "foreign", "empty", "broken", "marked".
    """

    own: Naming
    above: tuple[Naming, ...]
    line: int
    layer: str | None
    why: str
    detail: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """All that is on the page: drawn + words + asides = every drawable element (`elements` counts them).

    `notes` are sentences for the report (DOCTYPE read past, unknown namespace, scripts present, ...);
    `active` names scripts, handlers and external references found (the marked-up copy leaves them out).
    `size` is that of the file in bytes, unpacked.
    """

    page: Page
    drawn: tuple[Drawn, ...]
    words: tuple[Words, ...]
    asides: tuple[Aside, ...]
    elements: int
    title: str = ""
    notes: tuple[str, ...] = ()
    active: tuple[str, ...] = ()
    size: int = 0
