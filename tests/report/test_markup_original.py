"""The drawing under the marks stays as it was: elements, order, declarations; only what could act is left out."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace

import pytest
from lxml import etree

from lint.drawing.marked import MARKS, strip_marks
from lint.errors import Refused
from lint.report.markup import markup
from lint.verdict import Verdict
from tests.report.marked_panels import drawing, verdict

XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'
ROOT = 'width="340mm" height="300mm" viewBox="0 0 340 300"'


@pytest.fixture(scope="module")
def judged() -> Verdict:
    return verdict()


def _bare(svg: bytes) -> str:
    """The tree with its marks stripped, in canonical form (W3C C14N 2.0), white space and comments aside."""
    root = etree.fromstring(svg)
    strip_marks(root)
    return str(etree.canonicalize(etree.tostring(root, encoding="unicode"), strip_text=True))


def _without_group(marked: bytes) -> bytes:
    text = marked.decode()
    start, end = text.index("<g xmlns="), text.rindex("</g>\n") + 5
    return (text[:start] + text[end:]).encode()


def test_all_but_the_roots_size_is_the_originals_own_bytes(judged: Verdict) -> None:
    original = drawing(inner="<!-- kept --><desc>a\tb</desc><path  d='M0 0'\n  id = 'odd'></path>")
    marked = _without_group(markup(original, judged))
    tag = re.compile(rb"<svg [^>]*>")
    assert tag.sub(b"", marked) == tag.sub(b"", original)


def test_stripped_of_its_marks_the_tree_is_the_originals(judged: Verdict) -> None:
    for root in (ROOT, "", 'viewBox="0,0,340 300"', 'height="300mm" viewBox="0 0 340 300"', 'width="340" height="300"'):
        original = drawing(root)
        assert _bare(markup(original, judged)) == _bare(original), root


@pytest.mark.parametrize(
    "svg",
    [
        drawing(),
        drawing(""),
        drawing('width="100%" height="100%"'),
        drawing(ROOT, inner="<script>alert(1)\n</script><g onclick='x()'/>"),
        b'<svg xmlns="http://www.w3.org/2000/svg"/>',
        b'<svg width="10mm" height="10mm"><rect width="5" height="5"/></svg>',
        b'<s:svg xmlns:s="http://www.w3.org/2000/svg" width="9mm" height="9mm"><s:rect width="5" height="5"/></s:svg>',
        drawing().decode().replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + drawing(),
        drawing().decode().replace("UTF-8", "UTF-16").encode("utf-16"),
        drawing().decode().replace("UTF-8", "iso-8859-1").replace("lower", "l\xf6wer").encode("iso-8859-1"),
        gzip.compress(drawing()),
        b'<!DOCTYPE svg [<!ENTITY w "340mm">]>'
        + drawing('width="&w;" height="300mm" viewBox="0 0 340 300"').split(b"?>")[1],
    ],
)
def test_marking_up_a_marked_up_file_gives_the_same_bytes(svg: bytes, judged: Verdict) -> None:
    once = markup(svg, judged, date="2026-11-25")
    assert markup(once, judged, date="2026-11-25") == once
    assert etree.fromstring(once).find(f".//*[@{MARKS}]") is not None


def test_a_packed_drawing_comes_back_plain(judged: Verdict) -> None:
    assert markup(gzip.compress(drawing()), judged) == markup(drawing(), judged)


def test_the_same_drawing_gives_the_same_bytes(judged: Verdict) -> None:
    assert markup(drawing(), judged) == markup(drawing(), verdict())


# What runs, or is fetched, when a browser opens an SVG: SVG 2, 15 (scripting), 16 (linking); CSS Values 4 (url()); HTML
# handlers in foreignObject. Each with a word that must not be found in the copy.
ACTIVE = [
    ("<script>alert('boom')</script>", "boom"),
    (f"<script {XLINK} xlink:href='http://boom.example/a.js'/>", "boom"),
    ("<rect width='1' height='1' onload='boom()'/>", "boom"),
    ("<rect width='1' height='1' OnClick='boom()'/>", "boom"),
    (f"<a {XLINK} xlink:href='javascript:boom()'><rect width='1' height='1'/></a>", "boom"),
    ("<a href='&#106;ava&#10;script:boom()'><rect width='1' height='1'/></a>", "boom"),
    (f"<image {XLINK} xlink:href='https://boom.example/x.png' width='1' height='1'/>", "boom"),
    ("<image href='file:///boom' width='1' height='1'/>", "boom"),
    ("<use href='data:image/svg+xml,boom#a'/>", "boom"),
    ("<image href='data:image/svg+xml;base64,boom' width='1' height='1'/>", "boom"),
    ("<style>@import url(http://boom.example/a.css); path { fill: none }</style>", "boom"),
    ("<style>@font-face { font-family: x; src: url(http://boom.example/a.woff) }</style>", "boom"),
    ("<style>rect { fill: u\\72l('//boom.example/#a') }</style>", "boom"),
    ("<rect width='1' height='1' style=\"fill:url('https://boom.example/p.svg#a')\"/>", "boom"),
    ("<rect width='1' height='1' filter='url(boom.svg#f)'/>", "boom"),
    ("<a href='#x'><set attributeName='href' to='javascript:boom()'/></a>", "boom"),
    ("<a href='#x'><animate attributeName='xlink:href' values='javascript:boom()'/></a>", "boom"),
    ("<foreignObject><p xmlns='http://www.w3.org/1999/xhtml' onmouseover='boom()'>a</p></foreignObject>", "boom"),
    ("<foreignObject><iframe xmlns='http://www.w3.org/1999/xhtml' src='http://boom.example'/></foreignObject>", "boom"),
    ("<foreignObject><meta xmlns='http://www.w3.org/1999/xhtml' content='0;url=http://boom'/></foreignObject>", "boom"),
]


@pytest.mark.parametrize(("inner", "word"), ACTIVE)
def test_what_could_act_in_a_browser_is_left_out_and_said_so(inner: str, word: str, judged: Verdict) -> None:
    marked = markup(drawing(inner=inner), judged)
    assert word.encode() not in marked
    assert b"Left out of this copy" in marked


def test_what_could_act_hidden_in_an_entity_is_left_out(judged: Verdict) -> None:
    head = '<!DOCTYPE svg [<!ENTITY e "<script>boom()</script>"><!ATTLIST rect onload CDATA "boom()">]>'
    svg = (head + drawing(inner="&e;").decode().split("?>")[1]).encode()
    marked = markup(svg, judged)
    assert b"boom" not in marked
    assert b"<!DOCTYPE" not in marked


def test_a_style_sheet_from_elsewhere_and_a_strange_document_type_are_left_out(judged: Verdict) -> None:
    head = '<?xml-stylesheet href="http://boom.example/a.css"?><!DOCTYPE svg SYSTEM "http://boom.example/a.dtd">'
    marked = markup((head + drawing().decode().split("?>")[1]).encode(), judged)
    assert b"boom" not in marked
    assert b"Left out of this copy" in marked


def test_what_does_nothing_is_kept(judged: Verdict) -> None:
    kept = (
        "<style>.a{fill:url(#p)} .b{stroke:url( '#q' )}</style><use href='#frame'/><!-- onload=\"x\" -->"
        "<image href='data:image/png;base64,iVBORw0KGgo=' width='1' height='1'/><text>onclick=\"x\" url(http://a)</text>"
    )
    marked = markup(drawing(inner=kept), judged)
    assert kept.encode() in marked
    assert b"Left out" not in marked


def test_what_was_left_out_is_still_said_after_a_second_marking(judged: Verdict) -> None:
    once = markup(drawing(inner="<script>boom()</script>"), judged)
    assert b"a script" in markup(once, judged)


def test_line_numbers_below_what_is_left_out_stay(judged: Verdict) -> None:
    marked = markup(drawing(inner="<script>\n\n boom()\n</script><path id='after' d='M0 0H1'/>"), judged)
    before = etree.fromstring(drawing(inner="<script>\n\n boom()\n</script><path id='after' d='M0 0H1'/>"))
    line = [e.sourceline for e in before.iter("*") if e.get("id") == "after"]
    assert [e.sourceline for e in etree.fromstring(marked).iter("*") if e.get("id") == "after"] == line


def test_what_somebody_draws_into_the_marks_layer_stays_in_the_drawing(judged: Verdict) -> None:
    once = markup(drawing(), judged).decode()
    at = once.index('<g id="lint-mend-1"')
    edited = (once[:at] + '<path id="path99" d="M0 0H9"/>' + once[at:]).encode()
    root = etree.fromstring(edited)
    assert strip_marks(root)
    assert [e.get("id") for e in root.iter("*") if e.get("id") == "path99"] == ["path99"]
    assert b'<path id="path99" d="M0 0H9"/>' in _without_group(markup(edited, judged))


def test_a_page_that_somebody_resized_afterwards_keeps_its_size(judged: Verdict) -> None:
    once = markup(drawing(), judged)
    root = etree.fromstring(once)
    root.set("width", "999mm")
    strip_marks(root)
    assert root.get("width") == "999mm"


def test_names_from_the_file_do_not_become_markup(judged: Verdict) -> None:
    assert judged.panel is not None
    nasty = '</title><script>boom()</script>"\u202e\x07' + "x" * 200
    changed = replace(judged, panel=replace(judged.panel, title=nasty, notes=(nasty,)), path=nasty + ".svg")
    marked = markup(drawing(), changed)
    root = etree.fromstring(marked)
    assert not [e for e in root.iter("*") if etree.QName(e).localname == "script"]
    assert "\u202e" not in marked.decode()
    assert b"x" * 81 not in marked


def test_a_drawing_that_could_not_be_read_is_not_marked_up() -> None:
    unread = Verdict(path="a.svg", sheet=verdict().sheet, panel=None, results=(), error="The file is empty.")
    with pytest.raises(Refused, match=r"a\.svg could not be read"):
        markup(b"", unread)
