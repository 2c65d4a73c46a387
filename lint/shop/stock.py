"""The stock list of a panel: every bar, collar, rivet and screw, the formers, and the bars to buy."""

from __future__ import annotations

from collections.abc import Iterable

from lint.errors import Refused
from lint.panel.panel import Panel
from lint.sheet.sheet import Section, Sheet
from lint.shop.bars import plain_line, scroll_line, shown_name
from lint.shop.collars import RULES
from lint.shop.cutting import Piece, plan
from lint.shop.entries import BarLine, CollarLine, SectionTotal, StockList
from lint.shop.fastenings import collar_lines, rivet_lines, screw_lines, strip_of
from lint.shop.frame_bars import member_line
from lint.shop.jigs import jigs_of, without_a_former
from lint.shop.known import refuse_without_size
from lint.shop.ring import members_of
from lint.shop.rivets import HEADS
from lint.shop.screws import THREADS
from lint.shown import shown


def stock_list(panel: Panel, sheet: Sheet, *, path: str = "-", failing: tuple[str, ...] = ()) -> StockList:
    """What to fetch from the rack for `panel`. `failing` are the rules it fails, to be said beside the list.

    Raises Refused where the drawing has no scale, or the sheet names a rule, head or thread that is not known.
    """
    _can_be_reckoned(panel, sheet, path)
    bars = bar_lines(panel, sheet)
    collars = collar_lines(panel, sheet)
    return StockList(
        title=panel.title,
        path=path,
        sheet=sheet.name,
        units=sheet.units,
        digest=panel.digest,
        bars=bars,
        collars=collars,
        rivets=rivet_lines(panel, sheet),
        screws=screw_lines(panel, sheet),
        jigs=jigs_of(panel, sheet.scroll_match.overlay),
        totals=_totals(bars, collars, sheet),
        kerf=sheet.stock.kerf,
        failing=failing,
        notes=_notes(panel),
    )


def bar_lines(panel: Panel, sheet: Sheet) -> tuple[BarLine, ...]:
    """Frame members, scrolls, infill bars and samples, in that order; those not read as a bar are left out."""
    frame = members_of(panel.frame, sheet.frame_joints.reach) if panel.frame else ()
    return (
        *(member_line(member, sheet) for member in frame if not member.bar.unread),
        *(scroll_line(scroll, sheet) for scroll in panel.scrolls if not scroll.bar.unread),
        *(plain_line(bar, sheet) for bar in panel.bars if not bar.unread),
        *(scroll_line(scroll, sheet) for scroll in panel.samples if not scroll.bar.unread),
    )


def _unread(panel: Panel) -> list[str]:
    """A sentence for each bar whose outline could not be read as one bar: no length of it can be trusted."""
    scrolls = (scroll.bar for scroll in (*panel.scrolls, *panel.samples))
    bars = (*(panel.frame.members if panel.frame else ()), *scrolls, *panel.bars)
    return [
        f"{shown(shown_name(bar), 40)} is not listed: its outline could not be read as one bar ({bar.unread})."
        for bar in bars
        if bar.unread
    ]


def _can_be_reckoned(panel: Panel, sheet: Sheet, path: str) -> None:
    refuse_without_size(panel, path)
    known = (
        ("collar_rule", sheet.stock.collar_rule, RULES),
        ("rivet_head", sheet.stock.rivet_head, HEADS),
        ("screw", sheet.stock.screw, THREADS),
    )
    for key, value, table in known:
        if value not in table:
            raise Refused(f'stock.{key}: "{value}" is not known (expected one of: {", ".join(table)}).')


def _totals(bars: Iterable[BarLine], collars: tuple[CollarLine, ...], sheet: Sheet) -> tuple[SectionTotal, ...]:
    """Bars by section, thickest first, then the collar strip; each with its cutting plan."""
    by_section: dict[tuple[float, float], list[BarLine]] = {}
    for bar in bars:
        if bar.section is not None:
            by_section.setdefault(_standing(bar.section), []).append(bar)
    totals = [
        _total(_lying(sides, lines), _what(lines), [(line.name, line.cut, line.mass or 0.0) for line in lines], sheet)
        for sides, lines in sorted(by_section.items(), reverse=True)
    ]
    wrapped = [(collar.name, collar.cut, collar.mass) for collar in collars if collar.cut > 0]
    return (*totals, _total(strip_of(sheet), "collars", wrapped, sheet)) if wrapped else tuple(totals)


def _standing(section: Section) -> tuple[float, float]:
    """One key for a section whichever way it lies in the panel; round bar apart from square."""
    if section.depth is None:
        return section.width, -1.0
    return max(section.width, section.depth), min(section.width, section.depth)


def _lying(sides: tuple[float, float], lines: list[BarLine]) -> Section:
    return lines[0].section or Section(width=sides[0], depth=sides[1])


def _what(lines: list[BarLine]) -> str:
    names = {"frame": "frame", "scroll": "scrolls", "bar": "bars", "sample": "samples"}
    return ", ".join(words for kind, words in names.items() if any(line.kind == kind for line in lines))


def _total(section: Section, what: str, cuts: list[tuple[str, float, float]], sheet: Sheet) -> SectionTotal:
    pieces = [Piece(name=name, length=length) for name, length, _ in cuts]
    return SectionTotal(
        section=section,
        what=what,
        pieces=len(cuts),
        length=sum(length for _, length, _ in cuts),
        mass=sum(kg for _, _, kg in cuts),
        plan=plan(pieces, sheet.stock.lengths, sheet.stock.kerf),
    )


def _notes(panel: Panel) -> tuple[str, ...]:
    notes = []
    if not (panel.frame or panel.scrolls or panel.bars or panel.samples):
        notes.append("No bar was read in this drawing, so there is nothing to cut.")
    if panel.scale.hint:
        notes.append(f"The scale needs a look before metal is cut: {panel.scale.hint}")
    if panel.crossings:
        notes.append("Bars lie over one another; a front view does not show what is taken up where they cross.")
    if any(f.kind == "weld" for f in panel.fasteners):
        notes.append("Welds are drawn; nothing is reckoned for them.")
    if panel.doubles:
        names = ", ".join(shown(dropped.name or dropped.id or "", 40) for _, dropped in panel.doubles[:5])
        notes.append(f"Drawn twice on one another and counted once: {names}{', ...' * (len(panel.doubles) > 5)}.")
    notes += _unread(panel)
    notes += without_a_former(panel)
    objects = sum(unread.objects for unread in panel.unread if not unread.hidden)
    if objects:
        notes.append(f"Not read as parts, so no stock is given for them: {objects} object{'s' * (objects > 1)}.")
    if panel.frame is None:
        notes.append("The drawing has no frame, so the list has none.")
    elif panel.frame.trouble:
        notes.append(f"The frame needs mending first: {panel.frame.trouble}")
    return tuple(notes)
