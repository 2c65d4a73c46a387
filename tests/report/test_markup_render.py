"""The marked-up drawing looks the same in one renderer and another, and no word overflows."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
from lxml import etree

from lint.drawing.marked import MARKS, strip_marks
from lint.report.markup import markup
from lint.report.markup.lettering import CAPITAL, width
from lint.report.markup.pen import Pen
from lint.report.markup.symbols import dash, let_stand, question, stop, tick
from lint.verdict import Verdict
from tests.report.marked_panels import drawing, verdict
from tests.report.pictures import (
    CHROMIUM,
    INKSCAPE,
    Picture,
    by_cairo,
    by_chromium,
    by_inkscape,
    by_resvg,
    saved_by_inkscape,
    texts_in_chromium,
)

browser = pytest.mark.browser
needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")
FIXTURES = Path(__file__).parent.parent.parent / "fixtures"
GOLDEN = (
    "pass-through/pocket-between-scrolls-and-frame",
    "scroll-match/eye-three-millimetres-off",
    "clearance/scrolls-run-in-a-millimetre",
    "scale/no-size-at-all",
)
needs_inkscape = pytest.mark.skipif(INKSCAPE is None, reason="no inkscape on this machine")
INKSCAPE_LAYER = "{http://www.inkscape.org/namespaces/inkscape}groupmode"


@pytest.fixture(scope="module")
def judged() -> Verdict:
    return verdict(5)


@pytest.fixture(scope="module")
def marked(judged: Verdict) -> bytes:
    return markup(drawing(), judged)


def _size(marked: bytes) -> tuple[int, int]:
    """Pixels of a picture in the page's proportions."""
    box = [float(v) for v in (etree.fromstring(marked).get("viewBox") or "").split()]
    return round(800 * box[2] / max(box[2:])), round(800 * box[3] / max(box[2:]))


def _unlike(a: Picture, b: Picture) -> float:
    """Mean difference of shades after both are smeared over 8 pixels: letters of other faces look alike, a mark that is
    missing or elsewhere does not."""
    rows, columns = (min(x, y) // 8 * 8 for x, y in zip(a.shape, b.shape, strict=True))

    def smear(p: Picture) -> Picture:
        smeared: Picture = p[:rows, :columns].reshape(rows // 8, 8, columns // 8, 8).mean(axis=(1, 3))
        return smeared

    return float(np.abs(smear(a) - smear(b)).max())


@browser
@needs_chromium
@pytest.mark.parametrize("name", GOLDEN)
@pytest.mark.parametrize("other", [by_cairo, by_resvg, pytest.param(by_inkscape, marks=needs_inkscape)])
def test_two_renderers_draw_the_same(name: str, other: Callable[[bytes, int, int], Picture]) -> None:
    svg = (FIXTURES / "golden" / f"{name}.marked.svg").read_bytes()
    assert _unlike(_seen(svg), other(svg, *_size(svg))) < 0.30


@lru_cache
def _seen(svg: bytes) -> Picture:
    return by_chromium(svg, *_size(svg))


def test_the_comparison_of_pictures_can_fail(marked: bytes) -> None:
    without = marked.replace(b"#b3121d", b"none")
    assert _unlike(by_cairo(marked, *_size(marked)), by_cairo(without, *_size(marked))) > 0.30


@browser
@needs_chromium
@pytest.mark.parametrize("face", ["Arial", "'DejaVu Sans'"])
def test_no_word_is_wider_than_was_reckoned(marked: bytes, face: str) -> None:
    """The widths of chromium itself, in the two faces a sans-serif is taken from here."""
    texts = texts_in_chromium(marked.replace(b"Arial,", face.encode() + b","))
    assert len(texts) > 60
    for text in texts:
        if len(text["text"]) == 1:
            continue  # a fact's letter stands alone in its ring: hinted by itself, it may run a twentieth wider
        reckoned = width(text["text"], text["size"] * CAPITAL, text["bold"])
        assert text["width"] <= reckoned * 1.015 + 0.01, text


@browser
@needs_chromium
@pytest.mark.parametrize("face", ["Arial", "'DejaVu Sans'"])
def test_no_word_of_the_sheet_runs_into_another_or_over_the_edge(marked: bytes, face: str) -> None:
    texts = [
        t for t in texts_in_chromium(marked.replace(b"Arial,", face.encode() + b",")) if t["layer"] == "lint-sheet"
    ]
    border = etree.fromstring(marked).xpath("//*[@id='lint-sheet-1']/*[local-name()='rect']")[0]  # type: ignore[index]
    left, top, wide, high = (float(border.get(n)) for n in ("x", "y", "width", "height"))  # type: ignore[union-attr,arg-type]
    for t in texts:
        assert left < t["x"]
        assert t["x"] + t["width"] < left + wide
        assert top < t["y"]
        assert t["y"] + t["height"] < top + high
    for a, b in itertools.combinations(texts, 2):
        across = min(a["x"] + a["width"], b["x"] + b["width"]) - max(a["x"], b["x"])
        down = min(a["y"] + a["height"], b["y"] + b["height"]) - max(a["y"], b["y"])
        assert across < 0.2 or down < 0.35 * min(a["height"], b["height"]), (a["text"], b["text"])


@browser
@needs_chromium
def test_the_drawings_own_style_sheet_does_not_hide_the_marks(judged: Verdict) -> None:
    hostile = (
        "g,text,path,rect,circle{fill:#fff!important;stroke:#fff!important;opacity:0!important;display:none!important}"
    )
    plain, hidden = (markup(drawing(inner=f"<style>{css}</style>"), judged) for css in ("", hostile))
    size = _size(plain)
    top = round(size[1] * 0.6)  # the mark sheet alone: it lies below this drawing
    assert _unlike(by_chromium(plain, *size)[top:], by_chromium(hidden, *size)[top:]) < 0.05
    assert markup(hidden, judged) == hidden


@needs_inkscape
def test_an_editor_opens_and_saves_it_without_loss(marked: bytes, judged: Verdict) -> None:
    before, after = etree.fromstring(marked), etree.fromstring(saved_by_inkscape(marked))
    assert [e.get("id") for e in after.iter("*") if (e.get("id") or "").startswith("lint-")] == [
        e.get("id") for e in before.iter("*") if (e.get("id") or "").startswith("lint-")
    ]
    layers = [e.get("id") for e in after.iter("*") if e.get(INKSCAPE_LAYER) == "layer"]
    assert layers[:1] == ["lint-marks"]
    assert {"lint-facts", "lint-mend", "lint-look", "lint-numbers", "lint-sheet"} <= set(layers)
    for attribute in ("width", "height", "viewBox", MARKS):
        assert after.get(attribute) == before.get(attribute)


@needs_inkscape
def test_marks_come_off_again_after_an_editor_saved_them(marked: bytes) -> None:
    root, bare = etree.fromstring(saved_by_inkscape(marked)), etree.fromstring(drawing())
    assert strip_marks(root)
    assert not [e for e in root.iter("*") if (e.get("id") or "").startswith("lint-")]
    assert [root.get(n) for n in ("width", "height", "viewBox")] == [
        bare.get(n) for n in ("width", "height", "viewBox")
    ]
    kept = {e.get("id"): (e.get("d"), e.get("stroke-width")) for e in root.iter("*") if e.get("d")}
    assert kept == {e.get("id"): (e.get("d"), e.get("stroke-width")) for e in bare.iter("*") if e.get("d")}


@needs_inkscape
def test_a_file_saved_by_an_editor_can_be_marked_up_again_and_again(marked: bytes, judged: Verdict) -> None:
    saved = saved_by_inkscape(marked)
    again = markup(saved, judged)
    assert markup(again, judged) == again
    assert again.count(b'id="lint-marks"') == 1


def test_every_mark_has_a_title_and_nothing_that_acts(marked: bytes) -> None:
    root = etree.fromstring(marked)
    group = next(e for e in root.iter("*") if MARKS in e.attrib)
    for layer in group:
        for mark in layer:
            if mark.get("id") is not None:
                assert mark[0].tag.endswith("title")
                assert mark[0].text
    tags = {etree.QName(e).localname for e in group.iter("*")}
    assert tags <= {"g", "title", "path", "rect", "circle", "text"}
    names = {str(n) for e in group.iter("*") for n in e.attrib}
    assert not [n for n in names if n.startswith("on") or "href" in n]
    assert b"url(" not in etree.tostring(group)


def test_the_symbols_of_the_results_differ_in_black_too() -> None:
    pen = Pen.of(1.0)
    shapes = []
    for symbol in (tick, stop, question, dash, let_stand):
        body = re.sub("#(?!ffffff)[0-9a-f]{6}", "#000000", symbol(pen, (10.0, 10.0), 6.0))
        shapes.append(
            by_cairo(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20">{body}</svg>'.encode(), 80, 80)
        )
    for a, b in itertools.combinations(shapes, 2):
        assert float(np.abs(a - b).mean()) > 0.02
