"""The integer programme of the cutting plan, solved by scipy's milp (HiGHS). Imported only when a plan is made."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from lint.shop.ways import Way


def fewest(ways: Sequence[Way], demand: Sequence[int], seconds: float) -> tuple[list[tuple[Way, int]], float] | None:
    """How often to cut each way so that at least `demand` is cut and least metal bought, with a lower bound in mm.

    Among plans that buy the same metal the one of fewest bars is taken: a bar costs a ten-millionth of the
    longest more. None where no plan is found within `seconds`.
    """
    longest = max(way.stock for way in ways)
    nudge = longest * 1e-7
    cost = np.array([way.stock + nudge for way in ways])
    cuts = np.array([way.counts for way in ways], dtype=float).T
    answer = milp(
        cost,
        constraints=LinearConstraint(cuts, lb=np.array(demand, dtype=float)),
        integrality=np.ones(len(ways), dtype=int),
        bounds=Bounds(0, sum(demand)),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    if answer.x is None:
        return None
    times = np.rint(answer.x).astype(int)
    used = int(times.sum())
    dual = answer.mip_dual_bound
    bound = float(dual if dual is not None else 0.0) - nudge * used
    return [(way, int(n)) for way, n in zip(ways, times, strict=True) if n], max(bound, 0.0)


def shared_out(
    sizes: Sequence[float], demand: Sequence[int], lengths: Sequence[float], kerf: float, limits: tuple[int, float]
) -> tuple[list[tuple[Way, int]], float] | None:
    """As `fewest`, where the ways are too many to list: so many of each size from each of at most `limits[0]`
    bars, each bar of one length on sale, within `limits[1]` seconds. None where no plan is found, or the
    programme would have over 4,000 unknowns."""
    bars, seconds = limits
    stocks = sorted(set(lengths))
    each = len(sizes) + len(stocks)
    if bars * each > 4000:
        return None
    cost = np.tile([0.0] * len(sizes) + [stock + max(stocks) * 1e-7 for stock in stocks], bars)
    answer = milp(
        cost,
        constraints=_sharing(sizes, demand, stocks, kerf, bars),
        integrality=np.ones(bars * each, dtype=int),
        bounds=Bounds(0, np.tile([float(n) for n in demand] + [1.0] * len(stocks), bars)),
        options={"time_limit": seconds},
    )
    if answer.x is None:
        return None
    cut = np.rint(answer.x).astype(int).reshape(bars, each)
    chosen = [
        (Way(stock=stocks[int(of.argmax())], sizes=tuple(sizes), counts=tuple(int(n) for n in counts)), 1)
        for counts, of in zip(cut[:, : len(sizes)], cut[:, len(sizes) :], strict=True)
        if of.any()
    ]
    return chosen, max(float(answer.mip_dual_bound or 0.0) - max(stocks) * 1e-7 * len(chosen), 0.0)


def _sharing(
    sizes: Sequence[float], demand: Sequence[int], stocks: Sequence[float], kerf: float, bars: int
) -> list[LinearConstraint]:
    """All pieces are cut; a bar holds no more than its length and a kerf, and has one length; bars in order of
    length (any order is as good, and one is enough to search)."""
    all_cut = np.tile(np.hstack([np.eye(len(sizes)), np.zeros((len(sizes), len(stocks)))]), bars)
    room = np.kron(np.eye(bars), [size + kerf for size in sizes] + [-(stock + kerf) for stock in stocks])
    one = np.kron(np.eye(bars), [0.0] * len(sizes) + [1.0] * len(stocks))
    order = np.kron(np.eye(bars) - np.eye(bars, k=1), [0.0] * len(sizes) + list(stocks))[:-1]
    held = [LinearConstraint(all_cut, lb=np.array(demand, dtype=float)), LinearConstraint(room, ub=1e-6)]
    held.append(LinearConstraint(one, ub=1.0))
    return [*held, LinearConstraint(order, lb=0.0)] if bars > 1 else held
