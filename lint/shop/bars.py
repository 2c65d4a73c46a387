"""Scrolls and infill bars as lines of the stock list: developed length, allowances, cut length, mass."""

from __future__ import annotations

from collections.abc import Sequence

from lint.geometry.curve import Curve
from lint.panel.parts import Bar, DrawnAs, Scroll
from lint.sheet.sheet import Section, Sheet
from lint.shop.entries import Allowance, BarLine
from lint.shop.sections import section_of
from lint.shop.weights import mass
from lint.shop.wording import cut_to
from lint.values import dataclass

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cut:
    """What a bar line is made from, before the allowances that all bars share are added. mm."""

    bar: Bar
    name: str
    kind: str
    asked: Section
    developed: float
    allowances: tuple[Allowance, ...]
    notes: tuple[str, ...] = ()
    line: Curve | None = None  # for the picture, where it is not the bar's own
    marks: tuple[float, ...] = ()


def note_of(sheet: Sheet, key: str) -> str:
    """The sheet's note of where a value comes from, or that it has none."""
    return sheet.sources.get(key) or sheet.sources.get(key.rpartition(".")[0]) or PRACTICE


def shown_name(bar: Bar) -> str:
    """What a person called the bar, else its id."""
    return bar.origin.name or bar.id


def scroll_line(scroll: Scroll, sheet: Sheet) -> BarLine:
    """A scroll or sample: its centreline, and what each end takes by its name."""
    kind = "sample" if scroll.sample else "scroll"
    width = scroll.bar.width or sheet.stock.scroll.width
    ends = [_end_allowance(end.name or "", end.written, width, sheet) for end in scroll.ends]
    notes = tuple(note for _, note in ends if note)
    cut = Cut(
        bar=scroll.bar,
        name=shown_name(scroll.bar),
        kind=kind,
        asked=sheet.stock.scroll,
        developed=_along(scroll.bar),
        allowances=tuple(allowance for allowance, _ in ends if allowance),
        notes=(*_drawn_notes(scroll.bar), *notes),
    )
    names = tuple(end.name or end.written or "not named" for end in scroll.ends)
    return bar_line(cut, sheet, family=scroll.family, ends=names)


def _end_allowance(name: str, written: str, width: float, sheet: Sheet) -> tuple[Allowance | None, str]:
    if not name:
        said = f'"{written}" is not in the sheet\'s list of ends' if written else "an end is not named"
        return None, f"{said}: nothing is allowed for it"
    if name not in sheet.allowances.ends:
        return None, f"the sheet allows nothing for the end {name}"
    widths = sheet.allowances.ends[name]
    return Allowance(what=f"end: {name}", mm=widths * width, source=note_of(sheet, f"allowances.ends.{name}")), ""


def plain_line(bar: Bar, sheet: Sheet) -> BarLine:
    """An infill bar that is no scroll."""
    cut = Cut(
        bar=bar,
        name=shown_name(bar),
        kind="bar",
        asked=sheet.stock.bar,
        developed=_along(bar),
        allowances=(),
        notes=_drawn_notes(bar),
    )
    return bar_line(cut, sheet)


def _drawn_notes(bar: Bar) -> tuple[str, ...]:
    if bar.widths is not None and bar.width and max(abs(bar.widths[[0, -1]] - bar.width)) > bar.width / 4:
        return ("an end is drawn in its shape: the length runs to its tip, so what is allowed for it is ample",)
    return ()


def _along(bar: Bar) -> float:
    """Length on the centreline, mm, with the metal that round or square stroke ends add (drawing convention, 4)."""
    if bar.drawn_as is not DrawnAs.CENTRELINE or bar.metal is None or not bar.width or bar.line.closed:
        return bar.line.length
    beyond = bar.metal.size / bar.width - bar.line.length
    # more than a bar's width is no cap: corners and turns that touch change the area too
    return bar.line.length + (beyond if 0.05 * bar.width < beyond <= 1.01 * bar.width else 0.0)


def bar_line(cut: Cut, sheet: Sheet, *, family: int = 0, ends: tuple[str, ...] = ()) -> BarLine:
    """Adds what every bar needs (scale lost to the fire, trim), and rounds up for the saw."""
    section, section_from = section_of(cut.bar, cut.asked)
    so_far = cut.developed + sum(allowance.mm for allowance in cut.allowances)
    allowances = (*cut.allowances, *_common(so_far, sheet))
    length = cut_to(cut.developed + sum(allowance.mm for allowance in allowances), sheet.units)
    return BarLine(
        id=cut.bar.id,
        name=cut.name,
        kind=cut.kind,
        section=section,
        section_from=section_from,
        line=cut.line or cut.bar.line,
        developed=cut.developed,
        allowances=allowances,
        cut=length,
        mass=mass(section, length, sheet.stock.density) if section else None,
        family=family,
        ends=ends,
        marks=cut.marks,
        notes=cut.notes,
    )


def _common(so_far: float, sheet: Sheet) -> Sequence[Allowance]:
    scaling = Allowance(
        what="lost to scale", mm=so_far * sheet.allowances.scaling, source=note_of(sheet, "allowances.scaling")
    )
    trim = Allowance(what="trim", mm=sheet.allowances.trim, source=note_of(sheet, "allowances.trim"))
    return [allowance for allowance in (scaling, trim) if allowance.mm > 0]
