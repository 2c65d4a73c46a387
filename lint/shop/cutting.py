"""The cutting plan: which pieces from which bar, with the least metal bought.

Exact where every way to fill a bar can be listed: an integer programme over those ways (Gilmore and Gomory,
Operations Research 9, 1961, 849). Elsewhere longest first into the fullest bar that takes it, which says so.
A plan always carries a lower bound, so that a reader sees how far from the least it can be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from lint.shop.ways import SLACK, TooManyWays, Way, ways_to_cut
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece to cut, mm, and what it is for."""

    name: str
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBar:
    """One bar from the rack, mm: the pieces in cutting order, and what is left over after the saw."""

    stock: float
    pieces: tuple[Piece, ...]
    left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """`bars` to buy and how to cut each; `bought` their total and `bound` a total that no plan can beat, mm.
    `proven` is True where both are one. `how` says how the plan was made. `too_long` are pieces that no bar on
    sale can give."""

    bars: tuple[CutBar, ...]
    bought: float
    bound: float
    proven: bool
    how: str
    too_long: tuple[Piece, ...] = ()


def plan(
    pieces: Sequence[Piece], lengths: Sequence[float], kerf: float, *, seconds: float = 5.0, ways: int = 20_000
) -> Plan:
    """The bars to buy for `pieces` from bars of `lengths` on sale, each cut losing `kerf`. All mm.

    `seconds` limits the solver, `ways` the number of ways to fill a bar that it may weigh; at either limit the
    plan falls back to a rule of thumb and says so. ValueError where no length is on sale.
    """
    if not lengths:
        raise ValueError("no length is on sale, so nothing can be cut")
    longest = max(lengths)
    fits = [piece for piece in pieces if piece.length <= longest + SLACK]
    too_long = tuple(piece for piece in pieces if piece.length > longest + SLACK)
    if not fits:
        return Plan(bars=(), bought=0.0, bound=0.0, proven=True, how="nothing to cut", too_long=too_long)
    thumb = by_thumb(fits, lengths, kerf)
    low = lower_bound([piece.length for piece in fits], lengths, kerf)
    first = _told(thumb, low, "longest first, each into the fullest bar that takes it", too_long)
    return first if first.proven else _improved(first, fits, lengths, kerf, (seconds, ways))


def _improved(
    first: Plan, fits: Sequence[Piece], lengths: Sequence[float], kerf: float, limits: tuple[float, int]
) -> Plan:
    """The plan by integer programme, where it is made in time and buys no more than the `first` one."""
    from lint.shop import solver

    demand = Counter(round(piece.length, 3) for piece in fits)
    sizes = sorted(demand, reverse=True)
    wanted = [demand[size] for size in sizes]
    try:
        ways = ways_to_cut(sizes, wanted, lengths, kerf, limits[1])
        solved = solver.fewest(ways, wanted, limits[0])
        how = "integer programme over all ways to fill a bar"
    except TooManyWays:
        solved = solver.shared_out(sizes, wanted, lengths, kerf, (len(first.bars), limits[0]))
        how = "integer programme that shares the pieces out over the bars"
    if solved is None:
        return first
    bound = next_total(max(solved[1], first.bound), lengths)
    bars = _best(_laid_out(solved[0], fits, kerf), first.bars)
    return _told(bars, bound, first.how if bars is first.bars else how, first.too_long)


def _told(bars: Sequence[CutBar], bound: float, how: str, too_long: tuple[Piece, ...]) -> Plan:
    bought = sum(bar.stock for bar in bars)
    proven = bought <= bound * (1 + 1e-9) + SLACK
    ordered = tuple(sorted(bars, key=lambda bar: (-bar.stock, bar.left, [piece.name for piece in bar.pieces])))
    return Plan(bars=ordered, bought=bought, bound=min(bound, bought), proven=proven, how=how, too_long=too_long)


def _best(one: Sequence[CutBar], other: Sequence[CutBar]) -> Sequence[CutBar]:
    return min(one, other, key=lambda bars: (round(sum(bar.stock for bar in bars), 6), len(bars)))


def by_thumb(pieces: Sequence[Piece], lengths: Sequence[float], kerf: float) -> tuple[CutBar, ...]:
    """Longest piece first, each into the bar with the least room that still takes it; then every bar is changed
    for the shortest on sale that holds its pieces. At most 11/9 of the fewest bars and a bit, where one length
    is on sale (Johnson et al., SIAM J. Comput. 3, 1974, 299)."""
    longest = max(lengths)
    open_bars: list[list[Piece]] = []
    room: list[float] = []
    for piece in sorted(pieces, key=lambda p: (-p.length, p.name)):
        takes = piece.length + kerf
        fitting = [i for i, left in enumerate(room) if takes <= left + SLACK]
        if not fitting:
            open_bars.append([])
            room.append(longest + kerf)
            fitting = [len(room) - 1]
        tightest = min(fitting, key=lambda i: room[i])
        open_bars[tightest].append(piece)
        room[tightest] -= takes
    return tuple(_cut_bar(bar, lengths, kerf) for bar in open_bars)


def _cut_bar(pieces: Sequence[Piece], lengths: Sequence[float], kerf: float) -> CutBar:
    takes = sum(piece.length + kerf for piece in pieces)
    stock = min(length for length in lengths if takes <= length + kerf + 2 * SLACK)
    return CutBar(stock=stock, pieces=tuple(pieces), left=max(0.0, stock - takes))


def lower_bound(lengths_cut: Sequence[float], lengths: Sequence[float], kerf: float) -> float:
    """A total of bars, mm, that no plan can beat: the pieces with their kerfs must fit into the bars with theirs.

    A bar of length L holds L + kerf of pieces with kerfs, so a plan buys at least the pieces' sum times the
    best ratio L / (L + kerf), and then a total that whole bars make.
    """
    takes = sum(length + kerf for length in lengths_cut)
    return next_total(min((takes - SLACK) * length / (length + kerf) for length in lengths), lengths)


def next_total(bound: float, lengths: Sequence[float]) -> float:
    """The least total of whole bars that is not under `bound`, mm; beyond 300 bars `bound` itself."""
    if bound > 300 * min(lengths):
        return bound
    totals = {0.0}
    for length in sorted(set(lengths)):
        most = int(bound // length) + 1
        totals = {round(total + n * length, 6) for total in totals for n in range(most + 1) if total < bound + length}
    return min(total for total in totals if total >= bound - SLACK)


def _laid_out(chosen: Sequence[tuple[Way, int]], pieces: Sequence[Piece], kerf: float) -> tuple[CutBar, ...]:
    """The chosen ways with names on their pieces; a way that cuts more than is asked leaves the rest on the bar."""
    waiting: dict[float, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda p: p.name, reverse=True):
        waiting.setdefault(round(piece.length, 3), []).append(piece)
    bars = []
    for way, times in sorted(chosen, key=lambda pick: (-pick[0].stock, pick[0].counts)):
        for _ in range(times):
            mine = [
                waiting[size].pop()
                for size, count in zip(way.sizes, way.counts, strict=True)
                for _ in range(min(count, len(waiting[size])))
            ]
            left = way.stock - sum(piece.length + kerf for piece in mine)
            if mine:
                bars.append(CutBar(stock=way.stock, pieces=tuple(mine), left=max(0.0, left)))
    return tuple(bars)
