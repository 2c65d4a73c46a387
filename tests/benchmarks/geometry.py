"""What the plane geometry costs: python tests/benchmarks/geometry.py

Prints CPU milliseconds for each question about an ordinary scroll of 1.1 m and 300 points, and about the openings of
a panel of 256 of them. Nothing is asserted: figures depend on the machine.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2] / "examples"))

from scrollwork import c_scroll, s_scroll  # type: ignore[import-not-found]

from lint.geometry.area import Area, area
from lint.geometry.band import band
from lint.geometry.bending import backward_steps, flats, kinks, tightest, turning
from lint.geometry.chain import Chain
from lint.geometry.circle import largest_circles
from lint.geometry.curve import Curve, curve
from lint.geometry.faces import faces
from lint.geometry.motion import Motion, turned_about
from lint.geometry.overlay import overlay

ELSEWHERE = turned_about(1.0, True, np.zeros(2), np.array([300.0, -40.0]))
BAR = 12.0


def scroll(width: float, height: float, s_shape: bool = False) -> Curve:
    points = (s_scroll if s_shape else c_scroll)(width, height).points
    return curve(points[np.linspace(0, len(points) - 1, 300).astype(int)])


def cpu(question: Callable[[], object], times: int = 20) -> float:
    """Milliseconds of CPU, the least of the runs."""
    question()
    runs = []
    for _ in range(times):
        start = time.process_time()
        question()
        runs.append(time.process_time() - start)
    return 1000 * min(runs)


def moved(line: Curve, motion: Motion = ELSEWHERE) -> Curve:
    return curve(motion.apply(line.points))


def fairness(line: Curve) -> None:
    fresh = curve(line.points)  # answers are remembered for a curve
    turning(fresh)
    kinks(fresh, window=BAR)
    flats(fresh, window=BAR)
    backward_steps(fresh, window=BAR)
    tightest(fresh, window=BAR)


def free_of(rows: int) -> tuple[Area, list[Area]]:
    """The field and the metal of rows x rows scrolls that touch their neighbours."""
    left, top, right, bottom = band(scroll(200, 400), BAR).extent
    points = scroll(200, 400).points - [left, top]
    across, down = right - left - 0.01, bottom - top - 0.01
    metal = []
    for k in range(rows * rows):
        turned = points * [-1, 1] + [across, 0] if k % 2 else points
        place = np.array([k % rows * across, k // rows * down])
        metal.append(band(curve(turned + place), BAR))
    return area([np.array([[0, 0], [1, 0], [1, 1], [0, 1]]) * [rows * across, rows * down]]), metal


def main() -> None:
    one, pieces = scroll(200, 400), np.cumsum(np.random.default_rng(0).normal(0, 20, (40, 4, 2)), axis=0)
    near, other = moved(scroll(203, 400)), moved(scroll(200, 420, s_shape=True))
    questions: dict[str, Callable[[], object]] = {
        "flatten 40 cubic pieces": lambda: Chain(pieces, False).flattened(0.005),
        "metal of a scroll": lambda: band(one, BAR),
        "fairness of a scroll, all five questions": lambda: fairness(one),
        "overlay, congruent": lambda: overlay(one, moved(one)),
        "overlay, another family (C and S)": lambda: overlay(one, other),
        "overlay, near match (2 mm)": lambda: overlay(one, near),
    }
    for name, question in questions.items():
        print(f"{name:45s} {cpu(question):8.2f} ms")
    inside, metal = free_of(16)
    openings = faces(inside, metal)
    print(f"{'openings of 256 scrolls':45s} {cpu(lambda: faces(inside, metal), 3):8.1f} ms")
    print(f"{f'largest circles of {len(openings)} openings':45s} {cpu(lambda: largest_circles(openings), 3):8.1f} ms")


if __name__ == "__main__":
    main()
