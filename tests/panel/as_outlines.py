"""A drawing of centrelines drawn again as outlines, as an editor's stroke-to-path would."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from lxml import etree
from numpy.typing import NDArray

from lint.check import check
from lint.panel.panel import Panel
from lint.panel.parts import Bar
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]


def as_outlines(svg: bytes, sheet: Sheet, *, nodes: float = 0.0, fused: tuple[str, ...] = ()) -> bytes:
    """The drawing with every stroked bar replaced by its outline, filled. `nodes` mm between the points of an outline
    (0: those that hold its shape). The bars whose ids are in `fused` become one shape, under the first's id."""
    panel = check(svg, sheet).panel
    assert panel is not None
    root = etree.fromstring(svg)
    by_id = {element.get("id"): element for element in root.iter() if element.get("id")}
    for bar in bars(panel):
        if bar.id in fused[1:]:
            parent = by_id[bar.origin.id].getparent()
            assert parent is not None
            parent.remove(by_id[bar.origin.id])
            continue
        together = [b.metal.shape for b in bars(panel) if b.metal and (b is bar or {b.id, bar.id} <= set(fused))]
        shape = shapely.union_all(together)
        if bar.id in fused:  # bars that only touch run into one another by a hair, as boolean unions need them to
            shape = shape.buffer(0.1).buffer(-0.1)
        _redraw(by_id[bar.origin.id], path_data(shape, panel, nodes))
    return bytes(etree.tostring(root, xml_declaration=True, encoding="UTF-8"))


def bars(panel: Panel) -> Iterator[Bar]:
    """Every bar of the panel: members, scrolls, samples, infill."""
    yield from panel.frame.members if panel.frame else ()
    yield from (scroll.bar for scroll in (*panel.scrolls, *panel.samples))
    yield from panel.bars


def path_data(shape: shapely.Geometry, panel: Panel, nodes: float = 0.0) -> str:
    """A shape (mm) as path data in page units, a subpath for each ring."""
    if nodes:
        shape = shapely.segmentize(shape, nodes)
    rings = [
        shapely.get_coordinates(ring)[:-1]
        for part in np.asarray(shapely.get_parts(shape))
        for ring in np.asarray(shapely.get_rings(part))
    ]
    return " ".join(_subpath(ring / panel.scale.mm_per_unit + panel.page_zero) for ring in rings)


def _subpath(points: Floats) -> str:
    return "M " + " L ".join(f"{x:.4f},{y:.4f}" for x, y in points) + " Z"


def _redraw(element: etree._Element, data: str) -> None:
    if any(ancestor.get("transform") for ancestor in (element, *element.iterancestors())):
        raise ValueError("a bar under a transform is not redrawn")
    tag = etree.QName(element).namespace
    for name in ("x", "y", "width", "height", "rx", "stroke", "stroke-width", "stroke-linecap", "style"):
        element.attrib.pop(name, "")
    element.tag = f"{{{tag}}}path"
    element.set("d", data)
    element.set("fill", "#555555")
    element.set("fill-rule", "evenodd")
    element.set("stroke", "none")
