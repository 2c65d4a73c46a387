"""Collars, rivets and screws as rows of a table, equal ones together: for the terminal and for the printed page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from lint.shop.entries import CollarLine, RivetLine, ScrewLine, StockList
from lint.shop.wording import length, section
from lint.shown import shown
from lint.values import dataclass

COLLARS = ("collar", "round", "P", "rule", "K", "strip", "cut to")
RIVETS = ("rivet", "shank", "hole", "grip", "head", "head takes", "hole takes", "shank length")
SCREWS = ("screw", "thread", "tap drill", "clearance", "thread in", "blind hole", "at least")
Line = TypeVar("Line", CollarLine, RivetLine, ScrewLine)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: a name, the figures, and the notes under it. The last figure is what to cut or buy."""

    name: str
    cells: tuple[str, ...]
    notes: tuple[str, ...]


def sources_of(stock: StockList) -> tuple[str, ...]:
    """Where the allowances come from, each once, in order of use: numbered from 1 on every paper."""
    told = [allowance.source for line in stock.bars for allowance in line.allowances]
    told += [_collar_source(line) for line in stock.collars]
    told += [_rivet_source(line) for line in stock.rivets]
    return tuple(dict.fromkeys(told))


def _collar_source(line: CollarLine) -> str:
    return f"{line.source} (collar rule {line.rule})"


def _rivet_source(line: RivetLine) -> str:
    return f"{line.source} ({line.head} head)"


def collar_rows(stock: StockList) -> list[Row]:
    """One row for collars that are cut alike."""
    units, sources = stock.units, sources_of(stock)

    def cells(line: CollarLine) -> tuple[str, ...]:
        rule = f"{line.rule}: P + {line.adds}"
        sizes = (f"{line.k:.4f}", section(line.strip, units), length(line.cut, units, 0))
        return (line.bundle or "nothing", length(line.perimeter, units), rule, *sizes)

    def notes(lines: Sequence[CollarLine]) -> list[str]:
        number = sources.index(_collar_source(lines[0])) + 1
        return [f"round {_holding(lines)} [{number}]", *lines[0].notes]

    return _rows("collar", stock.collars, cells, notes)


def rivet_rows(stock: StockList) -> list[Row]:
    """One row for rivets that are alike."""
    units, sources = stock.units, sources_of(stock)

    def cells(line: RivetLine) -> tuple[str, ...]:
        sizes = (length(line.shank, units), length(line.hole, units), length(line.grip, units))
        takes = (length(line.head_allowance, units), length(line.fill, units))
        return (*sizes, line.head, *takes, length(line.cut, units, 0))

    def notes(lines: Sequence[RivetLine]) -> list[str]:
        number = sources.index(_rivet_source(lines[0])) + 1
        return [f"{lines[0].lies} [{number}]", f"through {_holding(lines)}", *lines[0].notes]

    return _rows("rivet", stock.rivets, cells, notes)


def screw_rows(stock: StockList) -> list[Row]:
    """One row for screws that are alike."""
    units = stock.units

    def cells(line: ScrewLine) -> tuple[str, ...]:
        depths = (line.engagement, line.blind_depth, line.least_length)
        return (line.thread, line.tap_drill, line.clearance, *(length(depth, units) for depth in depths))

    def notes(lines: Sequence[ScrewLine]) -> list[str]:
        return [f"thread by the {lines[0].thread_from}", f"in {_holding(lines)}", *lines[0].notes]

    return _rows("screw", stock.screws, cells, notes)


def _rows(
    kind: str,
    lines: Sequence[Line],
    cells: Callable[[Line], tuple[str, ...]],
    notes: Callable[[Sequence[Line]], Iterable[str]],
) -> list[Row]:
    """Lines with equal figures and equal remarks are one row, in the order of their first."""
    alike: dict[tuple[tuple[str, ...], tuple[str, ...]], list[Line]] = {}
    for line in lines:
        alike.setdefault((cells(line), line.notes), []).append(line)
    return [
        Row(
            name=shown(some[0].name, 40) if len(some) == 1 else f"{len(some)} {kind}s",
            cells=figures,
            notes=tuple(shown(note, 2000) for note in notes(some)),
        )
        for (figures, _), some in alike.items()
    ]


def _holding(lines: Sequence[CollarLine | RivetLine | ScrewLine]) -> str:
    """What each holds: bare where it is one, with its own name where they are several."""
    said = [" and ".join(shown(name, 40) for name in line.holds) or "nothing" for line in lines]
    if len(lines) == 1:
        return said[0]
    return ", ".join(f"{holds} ({shown(line.name, 40)})" for line, holds in zip(lines, said, strict=True))
