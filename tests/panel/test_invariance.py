"""The same panel, however its page is turned, mirrored, scaled, nested, reordered or named: property tests.

Truth is invariance: none of these changes what a smith would forge.
"""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree

from lint.drawing import read
from lint.panel import build
from lint.panel.panel import Panel
from tests.panel.pages import SHEET

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("two-c-panel", "s-pair-panel", "mixed-panel")
SVG = "{http://www.w3.org/2000/svg}"
INKSCAPE = "{http://www.inkscape.org/namespaces/inkscape}"
TEXTS = {name: (EXAMPLES / f"{name}.svg").read_text() for name in NAMES}


def words(panel: Panel) -> dict[str, object]:
    """What must not change and is no length."""
    frame = panel.frame
    assert frame is not None
    return {
        "corners": sorted(corner.made for corner in frame.corners),
        "joints": sorted(joint.kind for joint in frame.joints),
        "scrolls": sorted(scroll.kind for scroll in panel.scrolls),
        "ends": sorted(end.name or "" for s in (*panel.scrolls, *panel.samples) for end in s.ends),
        "families": sorted(len(family) for family in panel.families),
        "fasteners": sorted((fastener.kind, len(fastener.holds)) for fastener in panel.fasteners),
        "contacts": len(panel.contacts),
        "sizes": sorted(size.text for size in panel.dimensions),
    }


def lengths(panel: Panel) -> list[float]:
    """What must not change and is a length or an angle, each kind in order of size."""
    frame = panel.frame
    assert frame is not None
    kinds = [
        [*(frame.outside or ()), *(frame.inside or ()), *(frame.diagonals or ())],
        [corner.angle for corner in frame.corners],
        [corner.inside_radius or 0.0 for corner in frame.corners],
        [scroll.bar.line.length for scroll in panel.scrolls],
        [scroll.bar.width or 0.0 for scroll in panel.scrolls],
        [fastener.size[0] for fastener in panel.fasteners],
        [hole.diameter for hole in panel.openings],
        [size.drawn for size in panel.dimensions],
    ]
    return [figure for kind in kinds for figure in sorted(kind)]


def same(text: str | bytes, name: str) -> None:
    """The drawing shows the panel of the example."""
    panel = panel_of_text(text)
    assert words(panel) == words(BEFORE[name])
    assert lengths(panel) == pytest.approx(lengths(BEFORE[name]), abs=0.05)


def panel_of_text(text: str | bytes) -> Panel:
    return build(read(text.encode() if isinstance(text, str) else text), SHEET)


BEFORE = {name: panel_of_text(text) for name, text in TEXTS.items()}


def wrapped(text: str, transform: str) -> str:
    """All layers in one group under a transform, the page's box left alone."""
    start = text.index("  <g id=")
    return f'{text[:start]}<g transform="{transform}">{text[start:].rstrip()[:-6]}</g></svg>'


@settings(max_examples=8, deadline=None)
@given(
    name=st.sampled_from(NAMES),
    degrees=st.floats(-180, 180),
    mirrored=st.booleans(),
    shift=st.tuples(st.floats(-500, 500), st.floats(-500, 500)),
)
def test_moved_turned_and_mirrored(name: str, degrees: float, mirrored: bool, shift: tuple[float, float]) -> None:
    flip = "scale(-1 1)" if mirrored else ""
    text = wrapped(TEXTS[name], f"translate({shift[0]} {shift[1]}) rotate({degrees}) {flip}")
    same(text, name)


@settings(max_examples=8, deadline=None)
@given(name=st.sampled_from(NAMES), factor=st.floats(0.05, 40))
def test_drawn_in_units_of_any_size(name: str, factor: float) -> None:
    """The page's viewBox in other units, its mm the same."""
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', TEXTS[name])
    assert box is not None
    other = f'viewBox="0 0 {float(box[1]) * factor!r} {float(box[2]) * factor!r}"'
    text = wrapped(TEXTS[name].replace(box.group(), other), f"scale({factor!r})")
    same(text, name)


@settings(max_examples=8, deadline=None)
@given(name=st.sampled_from(NAMES), seed=st.randoms(use_true_random=False))
def test_in_any_order_and_with_any_ids(name: str, seed: Random) -> None:
    root = etree.fromstring(TEXTS[name].encode())
    layers = root.findall(f"{SVG}g")
    for layer in layers:
        role = layer.get(f"{INKSCAPE}label", "")
        for child in layer:
            child.set("id", f"g{seed.randrange(10**9)}")
            child.set(f"{INKSCAPE}label", role)
        children = list(layer)
        seed.shuffle(children)
        layer[:] = children
        layer.set(f"{INKSCAPE}label", "Layer")
        root.remove(layer)
    seed.shuffle(layers)
    root.extend(layers)
    same(etree.tostring(root), name)


@pytest.mark.parametrize("name", NAMES)
def test_clones_in_place_of_copies(name: str) -> None:
    """Each scroll and rivet drawn in a hidden layer of no role, and cloned where it stands."""
    root = etree.fromstring(TEXTS[name].encode())
    store = etree.SubElement(root, f"{SVG}g", {"style": "display:none", "id": "store"})
    for layer in root.findall(f"{SVG}g"):
        if layer.get(f"{INKSCAPE}label") in ("scrolls", "rivets", "collars"):
            for child in list(layer):
                use = etree.Element(f"{SVG}use", {"href": f"#{child.get('id')}", "x": "3"})
                child.set("transform", "translate(-3 0)")
                layer.replace(child, use)
                store.append(child)
    same(etree.tostring(root), name)


def test_the_figures_would_show_a_change() -> None:
    """The comparison can fail: a scroll one part in a hundred larger is another panel."""
    name = "two-c-panel"
    first = re.search(r'<path id="scroll-1"', TEXTS[name])
    assert first is not None
    text = TEXTS[name].replace('<path id="scroll-1"', '<path id="scroll-1" transform="scale(1.01)"')
    with pytest.raises(AssertionError):
        same(text, name)
