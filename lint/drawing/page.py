"""Width, height and viewBox -> the page, and millimetres for each page unit where somebody states a size."""

from __future__ import annotations

import re

from lxml import etree

from lint.drawing.drawn import Page, PageSize
from lint.drawing.names import INKSCAPE
from lint.drawing.transforms import Matrix
from lint.drawing.values import NUMBER, BadNumber, line_of, number, split_length
from lint.errors import UnreadableDrawing
from lint.values import dataclass

MM_PER_PX = 25.4 / 96  # CSS Values and Units 3, section 6.2
OLD_INKSCAPE = 25.4 / 90  # Inkscape up to 0.91 drew 90 px to the inch (its release notes for 0.92)
SAME = 1e-4  # x and y scales this close are equal: page sizes are written with four or five digits
NEARLY = 0.02

_PHYSICAL = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}  # mm, as above
_MM = {**_PHYSICAL, "px": MM_PER_PX, "": MM_PER_PX}
_BOX = re.compile(rf"^\s*({NUMBER})[\s,]+({NUMBER})[\s,]+({NUMBER})[\s,]+({NUMBER})\s*$")
_VERSION = re.compile(r"^\s*0\.(\d{1,3})")

Box = tuple[float, float, float, float]  # x, y, width, height


@dataclass(frozen=True, slots=True)
class Fit:
    """preserveAspectRatio: where the box lies (0 left or top, 0.5 middle, 1), and how it is scaled."""

    x: float = 0.5
    y: float = 0.5
    how: str = "meet"  # meet, slice or none


def fit(text: str | None) -> Fit:
    """The value of a preserveAspectRatio attribute (SVG 1.1, 7.8); what cannot be read counts as not written."""
    words = (text or "").replace("defer", " ").split()
    if words[:1] == ["none"]:
        return Fit(0.0, 0.0, "none")
    found = re.fullmatch(r"x(Min|Mid|Max)Y(Min|Mid|Max)", words[0]) if words else None
    if not found:
        return Fit()
    place = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
    return Fit(place[found[1]], place[found[2]], "slice" if words[1:2] == ["slice"] else "meet")


def view_box(element: etree._Element) -> Box | None:
    """The viewBox as x, y, width, height; commas are separators too. None where there is none or it is empty.

    Raises UnreadableDrawing for a number no drawing needs.
    """
    found = _BOX.match((element.get("viewBox") or "")[:1000])
    if not found:
        return None
    try:
        x, y, width, height = (number(part) for part in found.groups())
    except BadNumber as trouble:
        line = line_of(element)
        raise UnreadableDrawing(
            f"Line {line}: the viewBox holds {trouble}. Set the page size again.", line=line
        ) from trouble
    return (x, y, width, height) if width > 0 and height > 0 else None


def onto(box: Box, width: float, height: float, how: Fit) -> Matrix:
    """The transform that lays `box` on a viewport of width x height at 0, 0 (SVG 2, 8.2)."""
    x, y, w, h = box
    sx, sy = width / w, height / h
    if how.how == "none":
        return (sx, 0.0, 0.0, sy, -x * sx, -y * sy)
    s = min(sx, sy) if how.how == "meet" else max(sx, sy)
    return (s, 0.0, 0.0, s, -x * s + how.x * (width - w * s), -y * s + how.y * (height - h * s))


@dataclass(frozen=True, slots=True)
class _Side:
    """Width or height of the page as the root states it."""

    mm: float  # 0 where not stated
    physical: bool


def page(root: etree._Element) -> Page:
    """The sheet of paper the root element describes.

    Raises UnreadableDrawing where x and y scales differ by more than 2 % and are meant to (preserveAspectRatio
    "none"): such a drawing has no one scale.
    """
    width, height = _side(root, "width"), _side(root, "height")
    box = view_box(root)
    size = _who(width, height)
    extent = _extent(box, width, height)
    if size is PageSize.NONE:
        return Page(extent=extent, mm_per_unit=None, size=size)
    if box is None:
        return _without_box(root, extent, size)
    return _with_box(root, box, width, height, size)


def _side(root: etree._Element, name: str) -> _Side:
    try:
        parts = split_length(root.get(name) or "")
    except BadNumber as trouble:
        line = line_of(root)
        raise UnreadableDrawing(
            f"Line {line}: the page's {name} is {trouble}. Set the page size again.", line=line
        ) from trouble
    if parts is None or parts[0] <= 0 or parts[1] not in _MM:
        return _Side(0.0, False)
    return _Side(parts[0] * _MM[parts[1]], parts[1] in _PHYSICAL)


def _who(width: _Side, height: _Side) -> PageSize:
    if width.physical or height.physical:
        return PageSize.PHYSICAL
    return PageSize.PIXELS if width.mm or height.mm else PageSize.NONE


def _extent(box: Box | None, width: _Side, height: _Side) -> Box | None:
    if box:
        x, y, w, h = box
        return x, y, x + w, y + h
    return (0.0, 0.0, width.mm / MM_PER_PX, height.mm / MM_PER_PX) if width.mm and height.mm else None


def _without_box(root: etree._Element, extent: Box | None, size: PageSize) -> Page:
    version = _VERSION.match(root.get(f"{{{INKSCAPE}}}version") or "")
    # 0.92 was written "0.92.x"; older ones "0.48", "0.91"
    if not version or int(version[1]) >= 92:
        return Page(extent=extent, mm_per_unit=MM_PER_PX, size=size, axes=(MM_PER_PX, MM_PER_PX))
    remark = "Drawn with an Inkscape older than 0.92, which put 90 px to the inch, and without a viewBox; read so."
    return Page(extent=extent, mm_per_unit=OLD_INKSCAPE, size=size, axes=(OLD_INKSCAPE, OLD_INKSCAPE), remark=remark)


def _with_box(root: etree._Element, box: Box, width: _Side, height: _Side, size: PageSize) -> Page:
    x, y, w, h = box
    # A side that is not stated follows from the other by the box's shape (CSS 2.1, 10.3.2: intrinsic ratio).
    if size is PageSize.PHYSICAL:  # "100 %" or px beside millimetres: the physical side speaks
        width, height = (s if s.physical else _Side(0.0, False) for s in (width, height))
    across, down = width.mm / w or height.mm / h, height.mm / h or width.mm / w
    how = fit(root.get("preserveAspectRatio"))
    apart = abs(across - down) / max(across, down)
    if how.how == "none" and apart > NEARLY:
        line = line_of(root)
        raise UnreadableDrawing(
            f"Line {line}: the page is stretched: {across:.4g} mm a unit across and "
            f"{down:.4g} mm down. Set width, height and viewBox to the same scale.",
            line=line,
        )
    scale = max(across, down) if how.how == "slice" else min(across, down)
    return Page(
        extent=(x, y, x + w, y + h),
        mm_per_unit=scale,
        size=size,
        axes=(across, down),
        remark=_apart(apart) if apart > SAME else "",
    )


def _apart(apart: float) -> str:
    if apart <= NEARLY:
        return (
            f"Width, height and viewBox disagree by {apart * 100:.2g} % between across and down; "
            "the smaller scale was taken, as SVG says. Check one known length."
        )
    return (
        f"Width, height and viewBox differ in shape by {apart * 100:.0f} %: the drawing does not fill its page. "
        "The smaller scale was taken, as SVG says. Check one known length."
    )


def viewport(root: etree._Element) -> tuple[float, float]:
    """Width and height in user units that percentages inside the root refer to."""
    box = view_box(root)
    if box:
        return box[2], box[3]
    width, height = _side(root, "width"), _side(root, "height")
    return width.mm / MM_PER_PX, height.mm / MM_PER_PX
