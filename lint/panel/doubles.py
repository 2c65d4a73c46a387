"""Objects drawn twice on one another: one part, and the report names them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from lint.geometry.curve import Curve

LYING_ON = 0.05  # mm: editors round coordinates to hundredths; copies that differ by more were moved on purpose
_PROBES = 33  # places along a curve where two that agree in extent and length are held against one another


def lying_on_one_another(lines: Sequence[Curve]) -> Iterator[tuple[int, int]]:
    """Pairs (i, j), i < j, of curves that cover one another, whatever their direction or start."""
    if len(lines) < 2:
        return
    boxes = np.array([line.extent for line in lines])
    lengths = np.array([line.length for line in lines])
    order = np.argsort(boxes[:, 0], kind="stable")
    for place, i in enumerate(order):
        for j in order[place + 1 :]:
            if boxes[j, 0] - boxes[i, 0] > LYING_ON:
                break
            alike = np.abs(boxes[j] - boxes[i]).max() <= LYING_ON
            if (
                alike
                and abs(lengths[i] - lengths[j]) <= 1e-3 * lengths[i] + 4 * LYING_ON
                and _cover(lines[i], lines[j])
            ):
                yield (int(min(i, j)), int(max(i, j)))


def _cover(a: Curve, b: Curve) -> bool:
    probes = np.linspace(0, a.length, _PROBES)
    return all(b.nearest(point)[1] <= LYING_ON for point in a.at(probes))
