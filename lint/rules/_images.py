"""The panel's scrolls laid on their own image: how far the worst one lies off the nearest scroll."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve
from lint.geometry.motion import Motion
from lint.geometry.overlay import gap_between
from lint.panel.families import compared_curve
from lint.panel.panel import Panel
from lint.result import Point
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]

STEPS = 64  # points along each curve for the first comparison
CLOSE = 0.05  # mm: a first comparison this near is the figure itself
NEIGHBOURS = 3  # scrolls about the place of an image that are tried against it


@dataclass(frozen=True, slots=True, kw_only=True)
class Image:
    """The scroll (by index) whose image lies farthest off: by `off` mm, the image itself, and the two ends of the
    largest gap."""

    off: float
    scroll: int
    line: tuple[Point, ...]
    gap: tuple[Point, Point]


def largest_off(panel: Panel, sheet: Sheet, motion: str) -> Image:
    """For one motion ("upright", "level", "half turn") the image that lies farthest from the nearest scroll.

    Every image is first compared in step with the scrolls about its place, which can only read too far; the
    true distance is then worked out for those that may be the worst.
    """
    curves = [compared_curve(scroll.bar, sheet) for scroll in panel.scrolls]
    turn = _motion(panel, motion)
    steps = np.array([line.at(np.linspace(0, line.length, STEPS)) for line in curves])
    images = (steps.reshape(-1, 2) @ turn.matrix.T + turn.shift).reshape(steps.shape)
    near = _neighbours(images.mean(axis=1), steps.mean(axis=1))
    rough = np.array([_in_step(images[k], steps[near[k]]) for k in range(len(curves))])
    worst: Image | None = None
    for k in np.argsort(-rough).tolist():
        if worst is not None and rough[k] <= worst.off:
            break
        found = _image(curves, turn, k, near[k].tolist(), float(rough[k]))
        worst = found if worst is None or found.off > worst.off else worst
    assert worst is not None  # there is a scroll
    return worst


def _motion(panel: Panel, motion: str) -> Motion:
    """The motion in the panel's plane, about the frame's own axes."""
    centre, across = _axes(panel)
    basis = np.array([across, [-across[1], across[0]]])
    signs = {"upright": (-1.0, 1.0), "level": (1.0, -1.0), "half turn": (-1.0, -1.0)}[motion]
    matrix = basis.T @ np.diag(signs) @ basis
    return Motion(matrix, centre - matrix @ centre)


def _axes(panel: Panel) -> tuple[Floats, Floats]:
    """The frame's centre and the direction across it."""
    frame = panel.frame
    if frame is not None and len(frame.corners) == 4:
        corners = np.array([corner.at for corner in frame.corners])
        across = corners[1] - corners[0] + corners[2] - corners[3]
        return corners.mean(axis=0), across / np.hypot(*across)
    extent = frame.metal.extent if frame and frame.metal else (0.0, 0.0, 0.0, 0.0)
    return np.array([(extent[0] + extent[2]) / 2, (extent[1] + extent[3]) / 2]), np.array([1.0, 0.0])


def _neighbours(images: Floats, middles: Floats) -> NDArray[np.intp]:
    """For each image the scrolls whose middles lie nearest its own, a block of images at a time."""
    count = min(NEIGHBOURS, len(middles))
    found = []
    for k in range(0, len(images), 256):
        apart = ((images[k : k + 256, None, :] - middles[None, :, :]) ** 2).sum(axis=2)
        found.append(np.argsort(apart, axis=1, kind="stable")[:, :count])
    return np.concatenate(found)


def _in_step(image: Floats, others: Floats) -> float:
    """The least, over the others and both directions, of the largest distance between points in step."""
    both = np.concatenate([others, others[:, ::-1]])
    return float(np.sqrt(((both - image) ** 2).sum(axis=2)).max(axis=1).min())


def _image(curves: list[Curve], turn: Motion, k: int, near: list[int], rough: float) -> Image:
    line = curve(turn.apply(curves[k].points), curves[k].closed)
    points = tuple((float(x), float(y)) for x, y in line.points)
    if rough <= CLOSE:
        return Image(off=rough, scroll=k, line=points, gap=(points[0], points[0]))
    off, a, b = min((gap_between(line, curves[other]) for other in near), key=lambda found: found[0])
    return Image(off=off, scroll=k, line=points, gap=(a, b))
