"""The frame's members as lines of the stock list: corners, tenons, and where to mark the bar for its corners."""

from __future__ import annotations

from itertools import accumulate

from lint.sheet.sheet import Sheet
from lint.shop.bars import Cut, bar_line, note_of
from lint.shop.entries import Allowance, BarLine
from lint.shop.members import Member, Seat
from lint.shop.wording import with_unit

TENON_SHARE = 0.5  # of the bar's section that the tenon keeps: half its thickness (common practice: 1/3 to 1/2)


def tenon_stock(depth: float, width: float, per_bar: float) -> float:
    """Bar in mm that a tenon takes, by section: its length times its share of the bar's section.

    `per_bar` is the sheet's figure in bar widths, for a tenon through a bar as wide as its own (`width`);
    `depth` is how deep this mortise is. A tenon of half the section with a head of 1 1/2 tenon thicknesses
    takes (depth + 1.5 x 0.5 width) x 0.5, which is 0.875 of a width where depth and width are one.
    """
    return per_bar * width + (depth - width) * TENON_SHARE


def member_line(member: Member, sheet: Sheet) -> BarLine:
    """One piece of the frame, shoulder to shoulder by volume, with what its corners and joints take."""
    width = member.bar.width or sheet.stock.frame.width
    each = sheet.allowances.forged_corner * width
    corners = [Allowance(what="square corner", mm=each, source=note_of(sheet, "allowances.forged_corner"))]
    seats = [_seat_allowance(seat, width, sheet) for seat in member.seats]
    cut = Cut(
        bar=member.bar,
        name=member.name,
        kind="frame",
        asked=sheet.stock.frame,
        developed=member.body,
        allowances=(*corners * len(member.corners), *(seat for seat in seats if seat)),
        notes=(*member.notes, *_tenon_notes(member, width, sheet.units)),
        line=member.line,
        marks=_marks(member, width, sheet),
    )
    return bar_line(cut, sheet)


def _seat_allowance(seat: Seat, width: float, sheet: Sheet) -> Allowance | None:
    if not seat.carries:
        return None
    if seat.kind == "mortise and tenon":
        mm = tenon_stock(seat.depth or width, width, sheet.allowances.tenon)
        return Allowance(what=f"tenon into {seat.into}", mm=mm, source=note_of(sheet, "allowances.tenon"))
    if seat.kind in {"halved", "pierced"}:
        return Allowance(what=f"{seat.kind}: runs on through {seat.into}", mm=seat.depth, source="the other's width")
    return None


def _tenon_notes(member: Member, width: float, units: str) -> list[str]:
    return (
        []
        if not any(seat.carries and seat.kind == "mortise and tenon" for seat in member.seats)
        else [f"tenons: forge them {with_unit(TENON_SHARE * width, units)} thick, square at the shoulder all round"]
    )


def _marks(member: Member, width: float, sheet: Sheet) -> tuple[float, ...]:
    """From the cut bar's first end to the middle of each square corner, mm: half of what is allowed for a corner
    lies on each side of it, half of the trim at each end. Scale comes off while it is worked."""
    if len(member.runs) < 2:
        return ()
    half = sheet.allowances.forged_corner * width / 2
    first = next((seat for seat in member.seats if seat.carries and _first_end(member, seat)), None)
    tenon = _seat_allowance(first, width, sheet) if first else None
    start = sheet.allowances.trim / 2 + (tenon.mm if tenon else 0.0)
    inner = [run - width + 2 * half for run in member.runs[1:-1]]
    return tuple(accumulate(inner, initial=start + member.runs[0] - width / 2 + half))


def _first_end(member: Member, seat: Seat) -> bool:
    (ax, ay), (bx, by) = member.line.points[0], member.line.points[-1]
    x, y = seat.at
    return bool((ax - x) ** 2 + (ay - y) ** 2 <= (bx - x) ** 2 + (by - y) ** 2)
