"""The panel's scrolls laid on their own image: how far the worst one lies off the nearest scroll."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve, dot
from lint.geometry.motion import Motion
from lint.geometry.overlay import gap_between
from lint.panel.laying import compared_curve, facing
from lint.panel.panel import Panel
from lint.panel.parts import Bar
from lint.result import Point
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]

STEPS = 64  # points along each curve for the first comparison
CLOSE = 0.05  # mm: a first comparison this near is the figure itself
BLOCK = 256  # images that are compared at once
NEIGHBOURS = 3  # scrolls about the place of an image that are tried against it


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Image:
    """For one motion the scroll (by index) whose image lies farthest off: by `off` mm, the image itself, and the two
    ends of the largest gap. `whole` is False where the search stopped at a scroll that lies too far off already."""

    motion: str
    off: float
    scroll: int
    line: Floats
    gap: tuple[Point, Point]
    whole: bool = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Laid:
    """All images under one motion: the scrolls about the place of each, and how far it lies off them in step."""

    name: str
    motion: Motion
    near: NDArray[np.intp]
    rough: Floats


def images(panel: Panel, sheet: Sheet) -> list[Image]:
    """The panel laid on itself about the frame's upright and level centre lines and by a half turn, best first.

    Every image is first compared in step with the scrolls about its place, which can only read too far; the true
    distance is then worked out for those that may be the worst. Once a motion is within the sheet's limit, the
    others are left; one that is worse than the best so far is left at the first scroll that shows it.
    """
    bars = [scroll.bar for scroll in panel.scrolls]
    curves = [compared_curve(bar, sheet) for bar in bars]
    places = np.linspace(0.0, [line.length for line in curves], STEPS, axis=1)
    steps = np.array([line.at(along) for line, along in zip(curves, places, strict=True)])
    axes, middles = _axes(panel), steps.mean(axis=1)
    laid = [_laid(name, _motion(*axes, name), steps, middles) for name in ("upright", "level", "half turn")]
    found: list[Image] = []
    for one in sorted(laid, key=lambda one: float(one.rough.max())):
        best = min((image.off for image in found), default=np.inf)
        if best <= sheet.balance.within:
            break
        found.append(_largest_off(bars, one, best, sheet))
    return sorted(found, key=lambda image: image.off)


def _laid(name: str, turn: Motion, steps: Floats, middles: Floats) -> _Laid:
    moved = turn.apply(steps)
    near = _neighbours(turn.apply(middles), middles)
    rough = np.concatenate([_in_step(moved[k : k + BLOCK], steps[near[k : k + BLOCK]]) for k in _blocks(moved)])
    return _Laid(name=name, motion=turn, near=near, rough=rough)


def _largest_off(bars: list[Bar], laid: _Laid, enough: float, sheet: Sheet) -> Image:
    """The worst image; the first that lies more than `enough` mm off will do."""
    worst: Image | None = None
    for k in np.argsort(-laid.rough, kind="stable").tolist():
        if worst is not None and laid.rough[k] <= worst.off:
            break
        found = _image(bars, laid, k, sheet)
        worst = found if worst is None or found.off > worst.off else worst
        if worst.off > enough:
            return replace(worst, whole=False)
    assert worst is not None  # there is a scroll
    return worst


def _motion(centre: Floats, across: Floats, motion: str) -> Motion:
    """The motion in the panel's plane, about the frame's own axes."""
    basis = np.array([across, [-across[1], across[0]]])
    signs = {"upright": (-1.0, 1.0), "level": (1.0, -1.0), "half turn": (-1.0, -1.0)}[motion]
    matrix = basis.T * signs @ basis
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
    for k in _blocks(images):
        across, down = (images[k : k + BLOCK, None, axis] - middles[None, :, axis] for axis in (0, 1))
        apart = across * across + down * down
        found.append(np.argsort(apart, axis=1, kind="stable")[:, :count])
    return np.concatenate(found)


def _blocks(images: Floats) -> range:
    return range(0, len(images), BLOCK)


def _in_step(images: Floats, others: Floats) -> Floats:
    """For each image (n, steps, 2) the least, over its others (n, m, steps, 2) and both directions, of the largest
    distance between points in step."""
    off = np.concatenate([others, others[:, :, ::-1]], axis=1) - images[:, None]
    least: Floats = np.sqrt(dot(off, off).max(axis=2).min(axis=1))
    return least


def _image(bars: list[Bar], laid: _Laid, k: int, sheet: Sheet) -> Image:
    own = compared_curve(bars[k], sheet)
    points, rough = laid.motion.apply(own.points), float(laid.rough[k])
    if rough <= CLOSE:
        start = (float(points[0, 0]), float(points[0, 1]))
        return Image(motion=laid.name, off=rough, scroll=k, line=points, gap=(start, start))
    facing_each = (facing(bars[k], bars[other], sheet) for other in laid.near[k].tolist())
    pairs = [(curve(laid.motion.apply(one.points), one.closed), other) for one, other in facing_each]
    nearest = min(pairs, key=lambda pair: _at_least(*pair))
    off, a, b = gap_between(*nearest)
    for pair in pairs:
        if pair is not nearest and _at_least(*pair) < off:
            off, a, b = min((off, a, b), gap_between(*pair), key=lambda found: found[0])
    return Image(motion=laid.name, off=off, scroll=k, line=points, gap=(a, b))


def _at_least(one: Curve, other: Curve) -> float:
    """What the largest gap between two curves is at least, mm: what their extents differ by."""
    return max(abs(a - b) for a, b in zip(one.extent, other.extent, strict=True))
