"""Every way to fill a bar with pieces, so that no further piece fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lint.values import dataclass

SLACK = 1e-6  # mm: pieces that fit to this are taken to fit


class TooManyWays(Exception):
    """There are more ways to fill a bar than may be weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way: `counts[i]` pieces of `sizes[i]` mm from a bar of `stock` mm."""

    stock: float
    sizes: tuple[float, ...]
    counts: tuple[int, ...]


def ways_to_cut(
    sizes: Sequence[float], demand: Sequence[int], lengths: Sequence[float], kerf: float, most: int
) -> tuple[Way, ...]:
    """All full ways to cut `sizes` (mm, longest first, at most `demand[i]` of each) from bars of `lengths`.

    A way is full where no further piece that is still wanted fits: others are never better. Raises TooManyWays
    beyond `most`, and also where the search itself runs on for a hundred times as many steps.
    """
    found: list[Way] = []
    for stock in sorted(set(lengths)):
        for counts in _filled(sizes, demand, stock + kerf, kerf, _Steps(100 * most)):
            found.append(Way(stock=stock, sizes=tuple(sizes), counts=counts))
            if len(found) > most:
                raise TooManyWays
    return tuple(found)


class _Steps:
    """A count of steps that runs out."""

    def __init__(self, most: int) -> None:
        self.left = most

    def take(self) -> None:
        self.left -= 1
        if self.left < 0:
            raise TooManyWays


def _filled(
    sizes: Sequence[float], demand: Sequence[int], room: float, kerf: float, steps: _Steps
) -> Iterator[tuple[int, ...]]:
    counts = [0] * len(sizes)

    def fill(index: int, left: float) -> Iterator[tuple[int, ...]]:
        steps.take()
        if index == len(sizes):
            wanting = any(
                n < wanted and size + kerf <= left + SLACK
                for n, wanted, size in zip(counts, demand, sizes, strict=True)
            )
            if any(counts) and not wanting:
                yield tuple(counts)
            return
        takes = sizes[index] + kerf
        most = min(demand[index], int((left + SLACK) // takes))
        for number in range(most, -1, -1):
            counts[index] = number
            yield from fill(index + 1, left - number * takes)
        counts[index] = 0

    return fill(0, room)
