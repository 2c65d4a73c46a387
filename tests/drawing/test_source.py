"""Strangers' files: packed, encoded, declared, hostile, or no drawing at all."""

from __future__ import annotations

import codecs
import gzip
from pathlib import Path

import pytest

from lint.drawing import read
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import NAMESPACES, drawing, drawn, svg

LINE = '<line id="bar" x2="5" stroke="red"/>'
UMLAUT = f'<svg {NAMESPACES}><g id="Größe">{LINE}</g></svg>'


def refusal(data: bytes) -> str:
    with pytest.raises(UnreadableDrawing) as caught:
        read(data)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


@pytest.mark.parametrize(
    "data",
    [
        UMLAUT.encode(),
        codecs.BOM_UTF8 + UMLAUT.encode(),
        UMLAUT.encode("utf-16"),
        codecs.BOM_UTF16_BE + UMLAUT.encode("utf-16-be"),
        UMLAUT.encode("utf-32"),
        b'<?xml version="1.0" encoding="iso-8859-1"?>' + UMLAUT.encode("latin-1"),
        b"<?xml version='1.0' encoding='Windows-1252'?>\n" + UMLAUT.encode("cp1252"),
        ('<?xml version="1.0" encoding="UTF-16"?>' + UMLAUT).encode("utf-16"),
        codecs.BOM_UTF8 + b'<?xml version="1.0" encoding="utf-16"?>' + UMLAUT.encode(),
        b'<?xml version="1.0" encoding="utf-16"?>' + UMLAUT.encode(),
        b"<!-- made by hand -->\n" + UMLAUT.encode(),
        gzip.compress(UMLAUT.encode()),
        gzip.compress(UMLAUT.encode()[:50]) + gzip.compress(UMLAUT.encode()[50:]),
    ],
)
def test_every_packing_and_encoding_gives_the_same_drawing(data: bytes) -> None:
    """XML 1.0 appendix F for byte order marks; RFC 1952, 2.2 for gzip files of several members."""
    (one,) = read(data).drawn
    assert one.above[0].names == ("Größe",)


def test_line_numbers_survive_the_declaration() -> None:
    data = b'<?xml version="1.0"\n encoding="latin-1"?>\n' + svg(LINE)
    assert read(data).drawn[0].line == 3


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "empty"),
        (b" \n ", "empty"),
        (b"%PDF-1.4", "a PDF, not an SVG drawing"),
        (b"\x89PNG\r\n", "a PNG picture"),
        (b"AC1027", "a DWG drawing"),
        (b"  0\nSECTION", "a DXF drawing"),
        (b"PK\x03\x04", "a ZIP archive"),
        (b"<html><body/></html>", "root is <html> and not <svg>"),
        (b"<svg><g></svg>", "Line 1: the file is not sound XML"),
        (b"<svg>", "not sound XML"),
        (b"hello", "not sound XML"),
        (b"<svg>\n\n&nbsp;</svg>", "Line 3: the file is not sound XML (Entity 'nbsp' not defined)"),
        (b'<svg xlink:href="a"/>', "prefix xlink"),
        (b"<svg>\xff\xfe</svg>", "Line 1: the file is not UTF-8 text"),
        (b'<?xml version="1.0" encoding="punycode"?><svg/>', "says it is written in 'punycode'"),
        (b'<?xml version="1.0" encoding="klingon"?><svg/>', "says it is written in 'klingon'"),
        (gzip.compress(b"<svg/>")[:-8] + b"rubbish!", "damaged"),
        (gzip.compress(b"<svg/>")[:-9], "ends too early"),
        (gzip.compress(gzip.compress(b"<svg/>")), "not UTF-8"),
        (b"<svg>\x1b[31m</svg>", "not sound XML"),
        ("<\u202esvg/>".encode(), "not sound XML"),
    ],
)
def test_what_is_no_drawing_gets_a_sentence(data: bytes, said: str) -> None:
    assert said in refusal(data)


@pytest.mark.parametrize(
    ("root", "note"),
    [
        ("<svg>", "does not declare the SVG namespace"),
        ('<svg xmlns="https://www.w3.org/2000/svg">', "unknown namespace"),
    ],
)
def test_a_missing_or_foreign_namespace_is_read_with_a_note(root: str, note: str) -> None:
    found = read(f"{root}{LINE}</svg>".encode())
    assert (len(found.drawn), note in found.notes[0]) == (1, True)


def test_elements_in_no_namespace_inside_a_drawing_are_read_with_a_note() -> None:
    found = drawing('<g xmlns=""><line x2="5" stroke="red"/></g>')
    assert len(found.drawn) == 1
    assert "in no namespace" in found.notes[0]


# DOCTYPE and entities


def test_a_doctype_is_read_past(tmp_path: Path) -> None:
    doctype = b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://localhost:9/svg11.dtd">'
    found = read(doctype + svg(LINE))
    assert (len(found.drawn), "nothing it points to was fetched" in found.notes[0]) == (1, True)


def test_internal_entities_are_expanded() -> None:
    """Illustrator 9 writes its styles so, seen in a stored file."""
    found = read(b'<!DOCTYPE svg [<!ENTITY st2 "stroke:#00ff00;fill:none">]>' + svg('<line x2="5" style="&st2;"/>'))
    assert found.drawn[0].paint.stroke == "#00ff00"


@pytest.mark.parametrize(
    "declaration",
    [
        '<!ENTITY x SYSTEM "{}">',
        '<!ENTITY x PUBLIC "x" "{}">',
        '<!ENTITY % x SYSTEM "{}"> %x;',
        '<!ENTITY y SYSTEM "{}" NDATA n>',
    ],
)
def test_no_other_file_is_ever_read(tmp_path: Path, declaration: str) -> None:
    """CWE-611, external entities."""
    secret = tmp_path / "secret.txt"
    secret.write_text("QUARRYSECRET")
    doctype = f"<!DOCTYPE svg [{declaration.format(secret.as_uri())}]>"
    data = doctype.encode() + svg("<text>&x;</text>" if "%" not in declaration else "<text>a</text>")
    assert "QUARRYSECRET" not in refusal(data)


@pytest.mark.parametrize(
    "entities",
    [
        '<!ENTITY a "lol">'
        + "".join(f'<!ENTITY {c} "{f"&{b};" * 10}">' for b, c in zip("abcdefghi", "bcdefghij", strict=True)),
        f'<!ENTITY j "{"x" * 100_001}">',
        '<!ENTITY j "&k;"><!ENTITY k "&j;">',
        '<!ENTITY j "&j;">',
    ],
)
def test_entities_that_grow_without_end_are_refused(entities: str) -> None:
    """CWE-776: the billion laughs, its quadratic sister, and circles."""
    said = refusal(f"<!DOCTYPE svg [{entities}]>".encode() + svg(f"<text>{'&j;' * 10}</text>"))
    assert "entit" in said


# Limits


def test_twenty_megabytes_are_the_most_packed_or_not() -> None:
    filler = b"<!--" + b" " * (20_000_000 - len(svg("")) - 7) + b"-->"
    assert read(filler + svg("")).elements == 0
    for data in (filler + svg(" "), gzip.compress(filler + svg(" ")), gzip.compress(b" " * 200_000_000)):
        assert "larger than 20 MB" in refusal(data)


def test_a_hundred_thousand_elements_are_the_most() -> None:
    assert read(svg("<g/>" * 99_999)).elements == 0
    assert "more than 100,000 elements" in refusal(svg("<g/>" * 100_000))


def test_two_hundred_levels_are_the_most() -> None:
    assert len(read(svg("<g>" * 198 + LINE + "</g>" * 198)).drawn) == 1
    assert "more than 200 deep" in refusal(svg("<g>" * 199 + LINE + "</g>" * 199))
    assert "more than 200 deep" in refusal(svg("<g>" * 100_000))


def test_a_thousand_attributes_are_the_most() -> None:
    many = " ".join(f'a{i}="1"' for i in range(1000))
    assert read(svg(f"<g {many}/>")).elements == 0
    assert "more than 1,000 attributes" in refusal(svg(f'<g {many} b="1"/>'))


def test_half_a_million_segments_in_all_are_the_most() -> None:
    half = f'<path d="M0 0h{"1 " * 250_000}" stroke="red"/>'
    assert len(read(svg(half * 2)).drawn) == 2
    assert "more than 500,000 path segments" in refusal(svg(half * 2 + LINE))


# What is active in the file


@pytest.mark.parametrize(
    ("body", "named"),
    [
        ("<script>alert(1)</script>", "script"),
        ('<g onclick="alert(1)"/>', "onclick handler"),
        ('<a href="javascript:alert(1)"/>', "reference to javascript:alert(1)"),
        ('<a xlink:href="https://example.org/"/>', "reference to https://example.org/"),
        ('<image href="file:///etc/passwd"/>', "reference to file:///etc/passwd"),
        ("<style>@import 'x.css';</style>", "style sheet"),
        ("<style>a{fill:url(http://example.org/x)}</style>", "style sheet"),
        ('<g style="fill:url(http://example.org/#a)"/>', "reference"),
    ],
)
def test_what_is_active_is_named(body: str, named: str) -> None:
    (one,) = drawing(body).active
    assert named in one


def test_an_outside_style_sheet_is_named() -> None:
    assert read(b'<?xml-stylesheet href="http://example.org/a.css"?>' + svg("")).active


def test_pointing_inside_the_drawing_is_not_active() -> None:
    picture = '<image href="data:image/png;base64,AA"/>'
    body = f'{LINE}<use href="#bar"/>{picture}<g style="fill:url(#a);clip-path:url(\'#b\')"/>'
    assert drawing(body).active == ()


def test_control_characters_in_ids_do_not_reach_a_sentence() -> None:
    said = refusal(svg('<path id="a&#x9b;31m&#x202e;b" d="M0 0h1e99" stroke="red"/>'))
    assert said.isprintable()
    assert drawn(LINE).own.id == "bar"
