"""The cascade: CSS 2.1 chapter 6 and SVG 1.1 chapter 6 for order, chapter 11 for paint."""

from __future__ import annotations

import pytest

from lint.drawing.drawn import Cap, Paint
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import aside, drawing, drawn

LINE = '<line x2="9" {}/>'


def paint(attributes: str, before: str = "", root: str | None = None) -> Paint:
    body = before + LINE.format(attributes)
    return (drawn(body) if root is None else drawn(body, root)).paint


def test_what_is_not_written_is_filled_black_and_not_stroked() -> None:
    """SVG 1.1, 11.3 and 11.4: the initial fill is black, the initial stroke none, its width 1, its cap butt."""
    found = paint("")
    assert (found.fill, found.stroke, found.width, found.cap) == ("#000000", None, 1, Cap.BUTT)
    assert (found.join, found.dashed, found.evenodd, found.skewed) == ("miter", False, False, False)


@pytest.mark.parametrize(
    ("before", "attributes", "stroke"),
    [
        ("", 'stroke="red"', "#ff0000"),
        ("", 'stroke="red" style="stroke:blue"', "#0000ff"),  # SVG 1.1, 6.4: style stands above the attribute
        ("<style>line{stroke:lime}</style>", 'stroke="red"', "#00ff00"),  # a sheet stands above the attribute too
        ("<style>line{stroke:lime}</style>", 'style="stroke:blue"', "#0000ff"),
        ("<style>line{stroke:lime!important}</style>", 'style="stroke:blue"', "#00ff00"),
        ("<style>line{stroke:lime!important}</style>", 'style="stroke:blue ! important"', "#0000ff"),
        # CSS 2.1, 6.4.3: id over class over type; then the later one
        ("<style>#a{stroke:red}.b{stroke:lime}line{stroke:blue}</style>", 'id="a" class="b"', "#ff0000"),
        ("<style>.b{stroke:lime}line{stroke:blue}</style>", 'class="b"', "#00ff00"),
        ("<style>line.b{stroke:lime}.b{stroke:blue}</style>", 'class="b"', "#00ff00"),
        ("<style>.b{stroke:lime}.c{stroke:blue}</style>", 'class="c b"', "#0000ff"),
        ("<style>.b{stroke:lime}</style><style>.b{stroke:blue}</style>", 'class="b"', "#0000ff"),
        ("<style>*{stroke:lime}</style>", "", "#00ff00"),
        ("<style>svg line{stroke:lime}g line{stroke:red}</style>", "", "#00ff00"),
        ("<style>svg > line{stroke:lime}</style>", "", "#00ff00"),
        ("<style>line[x2='9']{stroke:lime}line[x2=\"8\"]{stroke:red}</style>", "", "#00ff00"),
        ("<style>line[x2]{stroke:lime}</style>", "", "#00ff00"),
        ("<style>a,line , .x{stroke:lime}</style>", "", "#00ff00"),
        ("<style><![CDATA[ .str0 {stroke:lime;} .fil0 {fill:none} ]]></style>", 'class="fil0 str0"', "#00ff00"),
        ("<style>@import url(x.css); @font-face{src:url(y)} line{stroke:lime}</style>", "", "#00ff00"),
        ("<style>@media print{line{stroke:red}} @media screen{line{stroke:lime}}</style>", "", "#00ff00"),
        ("<style>line{stroke:lime; stroke:nonsense}</style>", "", "#00ff00"),  # CSS 2.1, 4.2: invalid is ignored
        ("<style>/* line{stroke:red} */ line{/* x */stroke:lime}</style>", "", "#00ff00"),
        ('<style type="text/other">line{stroke:red}</style>', 'stroke="lime"', "#00ff00"),
        ("<style>:root{stroke:lime}</style>", "", "#00ff00"),
        ("<style>style + line{stroke:lime}</style>", "", "#00ff00"),
        ("<style>line:hover{stroke:red}</style>", 'stroke="lime"', "#00ff00"),
    ],
)
def test_the_strongest_declaration_holds(before: str, attributes: str, stroke: str) -> None:
    assert paint(attributes, before).stroke == stroke


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#0F0", "#00ff00"),
        ("#00ff00", "#00ff00"),
        ("#00ff00ff", "#00ff00"),
        ("lime", "#00ff00"),
        ("rgb(0,255,0)", "#00ff00"),
        ("rgb(0%, 100%, 0%)", "#00ff00"),
        ("rgba(0, 255, 0, .5)", "#00ff00"),
        ("hsl(120, 100%, 50%)", "#00ff00"),  # CSS Color 3, 4.2.4: hsl(120, 100%, 50%) is lime
        ("LightGoldenRodYellow", "#fafad2"),  # CSS Color 3, 4.3
        ("#CD853F icc-color(acmecmyk, 0.11, 0.48, 0.83, 0.00)", "#cd853f"),  # SVG 1.1, 4.2
        ("url(#missing) lime", "#00ff00"),
    ],
)
def test_colours_in_every_spelling(colour: str, expected: str) -> None:
    assert paint(f'stroke="{colour}"').stroke == expected


@pytest.mark.parametrize("none", ["none", "transparent", "#00ff0000", "rgba(0,0,0,0)", "url(#missing)"])
def test_paint_that_cannot_be_seen_is_no_paint(none: str) -> None:
    assert aside(f'<line x2="9" fill="none" stroke="{none}"/>').why == "no paint"


def test_a_gradient_is_the_colour_of_its_first_stop() -> None:
    gradients = (
        '<linearGradient id="a"><stop stop-color="red"/><stop style="stop-color:lime"/></linearGradient>'
        '<linearGradient id="b" xlink:href="#a"/>'
    )
    assert paint('stroke="url(#b)"', gradients).stroke == "#ff0000"


def test_current_colour_and_inheritance() -> None:
    """CSS Color 3, 4.4: currentColor is the colour of the element that paints."""
    body = '<g color="red" stroke="currentColor" stroke-width="3"><line x2="9" color="lime"/></g>'
    assert (drawn(body).paint.stroke, drawn(body).paint.width) == ("#00ff00", 3)
    body = '<g stroke="red" stroke-width="3"><line x2="9" stroke-width="inherit" stroke-linecap="round"/></g>'
    assert (drawn(body).paint.stroke, drawn(body).paint.width, drawn(body).paint.cap) == ("#ff0000", 3, Cap.ROUND)
    assert drawn('<g stroke="red"><line x2="9" style="stroke:initial;fill:lime"/></g>').paint.stroke is None


@pytest.mark.parametrize(
    ("width", "units"),
    [
        ("6", 6),
        ("6px", 6),  # px inside a drawing are its own user units
        ("0.25mm", 0.25 * 96 / 25.4),
        ("0.35 px", 1),  # no valid length: as if it were not written
        ("-3", 1),  # SVG 1.1, 11.4: negative is an error
        ("2em", 32),
        ("10%", 10),  # of a viewport of 100 x 100
    ],
)
def test_stroke_widths(width: str, units: float) -> None:
    assert paint(f'stroke="red" style="stroke-width:{width}"').width == pytest.approx(units)


@pytest.mark.parametrize(
    ("transform", "width"),
    [
        ("scale(2)", 6),
        ("scale(-2 2)", 6),
        ("rotate(33) scale(.5)", 1.5),
        ("matrix(0 2 -2 0 5 5)", 6),
        ("scale(1.00001 1)", 3),
    ],
)
def test_a_strokes_width_grows_with_its_transform(transform: str, width: float) -> None:
    assert paint(f'stroke="red" stroke-width="3" transform="{transform}"').width == pytest.approx(width, rel=1e-4)


@pytest.mark.parametrize("transform", ["scale(2 1)", "skewX(20)", "matrix(1 0 .5 1 0 0)"])
def test_a_skewed_stroke_has_no_one_width(transform: str) -> None:
    found = paint(f'stroke="red" stroke-width="3" transform="{transform}"')
    assert (found.width, found.skewed) == (None, True)


def test_a_stroke_that_does_not_scale_has_no_width_in_millimetres() -> None:
    """SVG 2, 8.13: non-scaling-stroke is drawn in screen px."""
    assert paint('stroke="red" vector-effect="non-scaling-stroke"').width is None
    assert paint('stroke="red" vector-effect="none"').width == 1


def test_a_stroke_of_no_width_is_no_stroke() -> None:
    """SVG 1.1, 11.4: a zero value causes no stroke to be painted."""
    assert paint('stroke="red" stroke-width="0"').stroke is None


def test_dashes_joins_and_fill_rules() -> None:
    found = paint('stroke="red" stroke-dasharray="5,2" stroke-linejoin="round" fill-rule="evenodd"')
    assert (found.dashed, found.join, found.evenodd) == (True, "round", True)
    assert not paint('stroke="red" stroke-dasharray="0 0"').dashed
    assert not paint('stroke="red" stroke-dasharray="none"').dashed


@pytest.mark.parametrize("what", ['stroke-opacity="0" fill="none"', 'style="fill-opacity:0%"'])
def test_paint_of_no_opacity_is_no_paint(what: str) -> None:
    assert aside(f'<line x2="9" {what}/>').why == "no paint"


def test_a_transparent_object_is_read_and_named() -> None:
    """Opacity 0 is no proof that somebody meant to hide it."""
    found = drawing('<line id="ghost" x2="9" stroke="red" opacity="0"/>')
    assert len(found.drawn) == 1
    assert found.notes == ("Fully transparent, but read as drawn: 'ghost' (line 1).",)


@pytest.mark.parametrize(
    "style",
    [
        "-inkscape-font-specification:'sans-serif, Normal';stroke:lime",
        "font-family:'a;b:c';stroke:lime",
        "background:url(a;b);stroke:lime",
        "stroke:red;/* stroke:blue; */stroke:lime;",
        "STROKE : lime ;;",
        "nonsense;stroke:lime",
        "stroke:lime;fill:{",
    ],
)
def test_style_attributes_as_editors_write_them(style: str) -> None:
    assert paint(f'style="{style}"').stroke == "#00ff00"


@pytest.mark.parametrize("bomb", ["{" * 5000, "a{fill:" + "(" * 5000, "a{b:c}" * 200_000])
def test_a_style_sheet_too_large_to_follow_is_refused(bomb: str) -> None:
    with pytest.raises(UnreadableDrawing, match=r"Line 1: the style sheet .* Save the drawing with its styles"):
        drawing(f"<style>{bomb}</style>")


def test_a_font_packed_into_a_sheet_is_no_matter() -> None:
    sheet = f"<style>@font-face{{src:url(data:font/woff;base64,{'A' * 2_000_000})}} line{{stroke:lime}}</style>"
    assert paint("", sheet).stroke == "#00ff00"


def test_selectors_that_never_end_are_refused() -> None:
    sheet = "<style>x " + "g " * 30 + "line{stroke:red}</style>"
    with pytest.raises(UnreadableDrawing, match="too involved"):
        drawing(sheet + "<g>" * 100 + LINE.format("") * 50 + "</g>" * 100)


def test_what_is_not_followed_in_a_sheet_is_noted() -> None:
    notes = drawing("<style>@import 'a.css'; @media print{a{fill:red}} a:hover{fill:red}</style>").notes
    assert [word in note for word, note in zip(("not fetched", "other media", "selector"), notes, strict=True)] == [
        True
    ] * 3
