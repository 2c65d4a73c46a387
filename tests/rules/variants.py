"""The same panel drawn another way: turned, mirrored, in other units, in other order, by other tools."""

from __future__ import annotations

import re
from collections.abc import Callable
from math import cos, radians, sin

import numpy as np
from lxml import etree
from numpy.typing import NDArray

SVG = "{http://www.w3.org/2000/svg}"
Floats = NDArray[np.float64]
Change = Callable[[etree._Element], None]
VARIANTS: dict[str, Change] = {}


def variant(change: Change) -> Change:
    """A way to draw the same panel."""
    VARIANTS[change.__name__.replace("_", " ")] = change
    return change


def redrawn(svg: bytes, *names: str) -> bytes:
    """The drawing under some variants, one after another."""
    root = etree.fromstring(svg)
    for name in names:
        VARIANTS[name](root)
    return etree.tostring(root)


def _box(root: etree._Element) -> list[float]:
    return [float(x) for x in root.get("viewBox", "").split()]


def _in_group(root: etree._Element, transform: str) -> None:
    """All layers in one more group, under a transform."""
    group = etree.Element(f"{SVG}g", {"transform": transform})
    for layer in [child for child in root if child.tag == f"{SVG}g"]:
        group.append(layer)
    root.append(group)


def _turned(root: etree._Element, degrees: float) -> None:
    left, top, width, height = _box(root)
    _in_group(root, f"rotate({degrees} {left + width / 2} {top + height / 2})")
    unit = float(re.sub(r"[a-z]+$", "", root.get("width", "1"))) / width
    suffix = re.sub(r"^[\d.]+", "", root.get("width", ""))
    a, b = abs(cos(radians(degrees))), abs(sin(radians(degrees)))
    new = (width * a + height * b, width * b + height * a)
    root.set("viewBox", f"{left + width / 2 - new[0] / 2} {top + height / 2 - new[1] / 2} {new[0]} {new[1]}")
    root.set("width", f"{new[0] * unit}{suffix}")
    root.set("height", f"{new[1] * unit}{suffix}")


@variant
def seen_from_the_back(root: etree._Element) -> None:
    left, _, width, _ = _box(root)
    _in_group(root, f"matrix(-1 0 0 1 {2 * left + width} 0)")


@variant
def upside_down(root: etree._Element) -> None:
    _turned(root, 180)


@variant
def on_its_side(root: etree._Element) -> None:
    _turned(root, 90)


@variant
def as_polylines(root: etree._Element) -> None:
    """Scrolls in straight pieces, sixteen for each curved one, as plotter files and old exports have them."""
    for path in _scrolls(root):
        pieces = _pieces(path)
        points = np.concatenate([*(_cubic(piece, 16) for piece in pieces), pieces[-1][3:]])
        path.set("d", "M " + " ".join(f"{x:.4f},{y:.4f}" for x, y in points))


@variant
def split_in_two_nodes_for_one(root: etree._Element) -> None:
    """Every cubic piece of a scroll halved (de Casteljau)."""
    for path in _scrolls(root):
        halves = [half for piece in _pieces(path) for half in _halved(piece)]
        path.set("d", _data(halves))


@variant
def run_the_other_way(root: etree._Element) -> None:
    for path in _scrolls(root):
        path.set("d", _data([piece[::-1] for piece in _pieces(path)[::-1]]))


@variant
def in_reverse_order(root: etree._Element) -> None:
    for layer in root.iter(f"{SVG}g"):
        if layer.find(f"{SVG}g") is None:
            layer[:] = list(layer)[::-1]


@variant
def with_two_decimals(root: etree._Element) -> None:
    """Coordinates rounded as exports round them: 0.01 of a page unit in mm, finer where a unit is larger."""
    digits = 2 if float(re.sub(r"[a-z]+$", "", root.get("width", "1"))) > 100 else 4
    for path in _scrolls(root):
        path.set("d", re.sub(r"-?\d+\.\d+", lambda m: f"{float(m[0]):.{digits}f}", path.get("d", "")))


@variant
def in_other_units(root: etree._Element) -> None:
    """The same page with user units of a quarter."""
    box = _box(root)
    _in_group(root, "scale(4)")
    root.set("viewBox", " ".join(f"{4 * x:g}" for x in box))


def _scrolls(root: etree._Element) -> list[etree._Element]:
    return [p for p in root.iter(f"{SVG}path") if (p.get("id") or "").startswith(("scroll", "sample"))]


def _pieces(path: etree._Element) -> list[Floats]:
    """The cubic pieces of a path of one M and one C, as the examples write them."""
    numbers = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
    points = np.array(numbers).reshape(-1, 2)
    return [points[3 * k : 3 * k + 4] for k in range((len(points) - 1) // 3)]


def _cubic(piece: Floats, count: int) -> Floats:
    t = np.linspace(0, 1, count + 1)[:-1, None]
    a, b, c, d = piece
    points: Floats = (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
    return points


def _halved(
    piece: Floats,
) -> list[Floats]:
    a, b, c, d = piece
    ab, bc, cd = (a + b) / 2, (b + c) / 2, (c + d) / 2
    abc, bcd = (ab + bc) / 2, (bc + cd) / 2
    middle = (abc + bcd) / 2
    return [np.array([a, ab, abc, middle]), np.array([middle, bcd, cd, d])]


def _data(pieces: list[Floats]) -> str:
    def say(point: Floats) -> str:
        return f"{point[0]:.6f},{point[1]:.6f}"

    return f"M {say(pieces[0][0])} C " + " ".join(" ".join(say(p) for p in piece[1:]) for piece in pieces)
