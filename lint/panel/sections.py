"""A bar's section: width as seen and depth behind it, from the stroke, the object's name or the sheet."""

from __future__ import annotations

import re
from collections.abc import Iterable

from lint.drawing.drawn import Drawn
from lint.lengths import parse, parse_pair
from lint.panel.parts import Role
from lint.sheet.sheet import Section, Sheet
from lint.values import dataclass

_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)"
_UNIT = r"\s*(?:mm|cm|in(?:ch(?:es)?)?|[\"\u2033\u201d])"
_PAIR = re.compile(rf"(?<![\d.,/]){_NUMBER}(?:{_UNIT})?\s*[x\u00d7]\s*{_NUMBER}(?:{_UNIT})?(?![\d.,/])", re.IGNORECASE)
_SINGLE = re.compile(rf"(?<![\d.,/])(?:[\u00f8\u2300]\s*)?{_NUMBER}{_UNIT}", re.IGNORECASE)
SAME_WIDTH = 0.5  # mm: a bar drawn this near the sheet's section is of that section (EN 10059: rolled bar +-0.5 mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """`width` and `depth` in mm, None where nobody says; `by` is "name", "sheet" or ""."""

    width: float | None
    depth: float | None
    by: str


def section_named(drawn: Drawn, units: str) -> Stated:
    """The section in the object's name, its original's or its layer's: "scroll 6x12", "picket 1/2 in"."""
    namings = (drawn.own, *((drawn.clone_of,) if drawn.clone_of else ()), *drawn.above)
    for name in (name.replace("_", " ") for naming in namings for name in naming.names):
        if found := _PAIR.search(name):
            try:
                width, depth = parse_pair(_spaced(found.group()), units)
            except ValueError:
                continue
            if width > 0 and depth > 0:
                return Stated(width=width, depth=depth, by="name")
        if (single := _SINGLE.search(name)) and (alone := _length(single.group(), units)):
            return Stated(width=alone, depth=None, by="name")
    return Stated(width=None, depth=None, by="")


def section_of_sheet(role: Role, sheet: Sheet) -> Section:
    """What the sheet says such bars are made of; a sample is a scroll."""
    stock = sheet.stock
    return {Role.FRAME: stock.frame, Role.BAR: stock.bar}.get(role, stock.scroll)


def depth_for(width: float | None, named: Stated, role: Role, sheet: Sheet) -> float | None:
    """The depth behind a bar of `width`: as its name says, else the sheet's where the width is the sheet's."""
    if named.depth is not None:
        return named.depth
    section = section_of_sheet(role, sheet)
    return section.depth if width is not None and abs(width - section.width) <= SAME_WIDTH else None


def stock_beside(width: float, sizes: Iterable[float]) -> tuple[float, ...]:
    """The widths on sale either side of `width`; () where it is one of them, within 1 %."""
    known = sorted(sizes)
    if not known or any(abs(width / size - 1) <= 0.01 for size in known):
        return ()
    under = [size for size in known if size < width][-1:]
    over = [size for size in known if size > width][:1]
    return (*under, *over)


def _spaced(pair: str) -> str:
    return re.sub(r"\s*[x\u00d7]\s*", " x ", pair, flags=re.IGNORECASE)


def _length(text: str, units: str) -> float | None:
    try:
        return parse(text, units) or None
    except ValueError:
        return None
