"""Nothing is dropped: read + unread + passed over + hidden = every drawable element."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from lxml import etree

from lint.drawing import read
from lint.errors import UnreadableDrawing

ROOT = Path(__file__).parent.parent.parent
DRAWINGS = sorted(
    p for folder in ("fixtures", "examples") for p in (ROOT / folder).rglob("*.svg") if "unreadable" not in p.parts
)
SHAPES = {"path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "image", "use", "foreignObject"}
KEPT = {"defs", "symbol", "clipPath", "mask", "marker", "pattern"}


def count(element: etree._Element, root: etree._Element, hidden: bool = False) -> Iterator[str]:
    """Every drawable element, clones by what they show: a slow twin of the walk, straight from SVG 1.1, chapter 5."""
    tag = etree.QName(element).localname if isinstance(element.tag, str) else ""
    hidden = (
        hidden or element.get("display") == "none" or "display:none" in (element.get("style") or "").replace(" ", "")
    )
    if "data-lint-marks" in element.attrib:
        return
    if tag == "use" and not hidden:
        link = element.get("href") or element.get("{http://www.w3.org/1999/xlink}href") or ""
        targets = [e for e in root.iter() if isinstance(e.tag, str) and e.get("id") == link[1:]]
        if not targets:
            yield tag
        for target in targets[:1]:
            if etree.QName(target).localname == "symbol":
                for child in target:
                    yield from count(child, root, hidden)
            else:
                yield from count(target, root, hidden)
    elif tag in SHAPES or element.tag == "{http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd}guide":
        yield tag
    elif tag and tag not in KEPT:
        for child in element:
            yield from count(child, root, hidden)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda p: str(p.relative_to(ROOT)))
def test_every_drawable_element_is_accounted_for(path: Path) -> None:
    root = etree.fromstring(path.read_bytes(), etree.XMLParser(load_dtd=False, no_network=True))
    drawing = read(path.read_bytes())
    assert drawing.elements == len(list(count(root, root)))
    assert len(drawing.drawn) + len(drawing.words) + len(drawing.asides) == drawing.elements


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda p: str(p.relative_to(ROOT)))
def test_every_value_can_be_used(path: Path) -> None:
    for one in read(path.read_bytes()).drawn:
        assert one.line > 0
        for chain in one.chains:
            assert chain.cubics.shape[1:] == (4, 2)
            assert (chain.cubics[1:, 0] == chain.cubics[:-1, 3]).all()
            assert not chain.closed or (chain.cubics[0, 0] == chain.cubics[-1, 3]).all()


UNREADABLE = sorted((ROOT / "fixtures" / "unreadable").glob("*.svg*"))


@pytest.mark.parametrize("path", UNREADABLE, ids=lambda p: p.name)
def test_an_unreadable_file_gets_a_sentence_with_a_mend(path: Path) -> None:
    with pytest.raises(UnreadableDrawing) as caught:
        read(path.read_bytes())
    said = str(caught.value)
    assert said.endswith(".")
    assert said.isprintable()
    assert any(
        word in said
        for word in ("Save", "save", "Set", "Draw", "Keep", "Ungroup", "Unlink", "Give", "Shorten", "Take", "Delete")
    )
