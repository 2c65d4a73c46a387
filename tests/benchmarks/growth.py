"""How the time of a check grows with the panel: python tests/benchmarks/growth.py [largest]

Draws panels of 2, 8, 32, 128, 512 and 2,048 C scrolls back to back in a frame (collared to one another, riveted to
the frame, every end named), checks each, and prints CPU seconds, the exponent from one size to the next, and the
peak of memory. Nothing is asserted: figures depend on the machine, ratios less so.
"""

from __future__ import annotations

import math
import resource
import sys
import time
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "examples"))

from panel_drawing import Paper, touches  # type: ignore[import-not-found]
from scrollwork import Spiral, c_scroll  # type: ignore[import-not-found]

from lint.check import judge
from lint.drawing import read
from lint.panel import build
from lint.sheet import load_default

SIZES = (2, 8, 32, 128, 512, 2048)
ENDS = ("ribbon", "fishtail", "halfpenny snub", "bolt end")


def panel_of(scrolls: int) -> bytes:
    """A panel of C scrolls in pairs, columns and rows about as many millimetres either way."""
    pairs = scrolls // 2
    columns = max(1, round(math.sqrt(pairs * 212 / 256)))
    while pairs % columns:
        columns -= 1
    rows = pairs // columns
    paper = Paper(f"{scrolls} scrolls", 256 * columns + 24, 212 * rows + 24, 12, 6)
    paper.u_frame()
    cell = c_scroll(128 - 6, 212 - 6, power=1.5, turns=1.3)
    for k in range(pairs):
        across, down = k % columns, k // columns
        middle, y = 12 + 256 * across + 128, 12 + 212 * down + 106
        left, right = cell.placed(middle - 3, y, flip_x=True), cell.placed(middle + 3, y)
        paper.scroll(left)
        paper.scroll(right)
        paper.collar((middle, y), 18, 12)
        _hold(paper, left, right, across, down, columns, rows)
    paper.overall(str(256 * columns + 24), str(212 * rows + 24))
    paper.size((12, 118), (140, 118), "128", height=6)
    return bytes(paper.svg())


def _hold(paper: Paper, left: Spiral, right: Spiral, across: int, down: int, columns: int, rows: int) -> None:
    """Rivets to the frame, collars to the next pair, names at the ends."""
    for scroll, edge, side in ((left, across == 0, "left"), (right, across == columns - 1, "right")):
        for x, y in touches(scroll, side):
            if edge:
                paper.ring("rivets", "rivet", (x - 3 if side == "left" else x + 3, y), 2.5)
            elif side == "right":
                paper.collar((x + 3, y), 18, 10)
        for x, y in touches(scroll, "bottom"):
            if down < rows - 1:
                paper.collar((x, y + 3), 10, 18)
        for k, name in ((0, ENDS[2 * (scroll is right)]), (-1, ENDS[2 * (scroll is right) + 1])):
            paper.words("ends", "end", (float(scroll.points[k, 0]), float(scroll.points[k, 1]) + 9), name, 5)


def main() -> None:
    """Print one line for each size."""
    sheet = load_default()
    largest = int(sys.argv[1]) if len(sys.argv) > 1 else SIZES[-1]
    before: tuple[int, float] | None = None
    first: tuple[int, float] | None = None
    print(" scrolls     read    build    judge   all, s  exponent  peak MiB  results")
    for scrolls in (size for size in SIZES if size <= largest):
        data = panel_of(scrolls)
        times = [time.process_time()]
        drawing = read(data)
        times.append(time.process_time())
        panel = build(drawing, sheet)
        times.append(time.process_time())
        results = judge(panel, sheet, "panel.svg")
        times.append(time.process_time())
        steps = [f"{b - a:8.3f}" for a, b in pairwise(times)]
        whole = times[-1] - times[0]
        grown = math.log(whole / before[1]) / math.log(scrolls / before[0]) if before else math.nan
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        words = ", ".join(f"{r.rule} {r.kind.value}" for r in results if r.kind.value in ("fail", "review")) or "pass"
        print(f"{scrolls:>8} {' '.join(steps)} {whole:8.3f} {grown:9.2f} {peak:9.0f}  {words}")
        before = (scrolls, whole)
        first = first or before
    if first and before and before != first:
        over_all = math.log(before[1] / first[1]) / math.log(before[0] / first[0])
        print(f"| growth from {first[0]} to {before[0]:,} scrolls | n^{over_all:.2f}; the last step n^{grown:.2f} |")
        print(f"| {before[0]:,} scrolls | {before[1]:.1f} s, {peak / 1024:.1f} GiB |")


if __name__ == "__main__":
    main()
