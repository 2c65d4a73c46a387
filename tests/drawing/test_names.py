"""The names people gave, in the spellings of real editors."""

from __future__ import annotations

import pytest

from lint.drawing.names import clean, unescaped
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import drawing, drawn

LINE = '<line x2="5" stroke="red"/>'


def names(attributes: str, inside: str = "") -> tuple[str, ...]:
    return drawn(f"<g {attributes}>{inside}{LINE}</g>").above[0].names


@pytest.mark.parametrize(
    ("attributes", "inside", "expected"),
    [
        ('inkscape:label="scrolls" id="layer2"', "", ("scrolls", "layer2")),
        ('xmlns:i="http://www.inkscape.org/namespaces/inkscape" i:label="scrolls"', "", ("scrolls",)),
        ('xmlns:inkscape2="urn:other" inkscape2:label="scrolls" id="a"', "", ("a",)),
        ('id="face1" serif:id="face"', "", ("face", "face1")),
        ('data-name="Слой 1" id="Слой_1"', "", ("Слой 1", "Слой_1")),
        ('xmlns:lc="https://librecad.org" lc:layername="frame"', "", ("frame",)),
        ('xmlns:v="http://vectornator.io" v:layerName="frame" id="Layer-1"', "", ("frame", "Layer-1")),
        ('class="layer"', "<title>\n  scrolls\n </title>", ("scrolls", "layer")),
        ('id="rivet_left"', "<title>b'rivet-left'</title>", ("rivet-left", "rivet_left")),
        ('id="x"', "<title>b'caf\\xc3\\xa9'</title>", ("café", "x")),
        ('id="C_x5F_scroll"', "", ("C_scroll",)),
        ('id="Layer_x0020_1"', "", ("Layer 1",)),
        ('id="scrolls scroll-left"', "", ("scrolls scroll-left",)),
        ('class="st0 scrolls"', "", ("scrolls",)),
        ('id="shaper:toolDia-12mm"', "", ("shaper:toolDia-12mm",)),
        ("", "<title/>", ()),
    ],
)
def test_every_source_of_names(attributes: str, inside: str, expected: tuple[str, ...]) -> None:
    assert names(attributes, inside) == expected


@pytest.mark.parametrize(
    "made_up", ["path24", "path24-5-3", "svg_12", "Ellipse 3", "Vector", "_1421344023328", "rect3021", "use7", "Oval"]
)
def test_what_an_editor_made_up_is_no_name_but_stays_the_id(made_up: str) -> None:
    """Ids that nobody gave: a rivet called circle12 is still just a rivet."""
    own = drawn(f'<circle id="{made_up}" r="3" class="cls-1 st0 fil0 rivet"/>').own
    assert (own.names, own.id) == (("rivet",), made_up)


def test_the_label_stands_before_title_id_and_class() -> None:
    found = names('class="d" id="c" data-name="b" inkscape:label="a"', "<title>t</title>")
    assert found == ("a", "b", "t", "c", "d")


@pytest.mark.parametrize(
    ("escaped", "name"),
    [
        ("_x32_", "2"),  # a layer called "2"
        ("crop_x0020_marks", "crop marks"),
        ("a_x1F528_b", "a🔨b"),
        ("max_x_y", "max_x_y"),
        ("_xD800_", "_xD800_"),  # no character
        ("_x110000_", "_x110000_"),
        ("_X20_", "_X20_"),
    ],
)
def test_escapes_are_undone(escaped: str, name: str) -> None:
    assert unescaped(escaped) == name


def test_characters_that_disguise_a_name_are_taken_out() -> None:
    """Unicode TR36 and CVE-2021-42574: overrides of the writing direction; C1 controls drive terminals."""
    assert clean("frame\u202eelloc\u2066\u009b31m\u0085x") == "frameelloc31m x"


def test_the_roots_own_names_are_a_source_but_not_its_title() -> None:
    """A drawing with one layer has its name on <svg> (Illustrator); the title is the drawing's."""
    found = drawing(f"<title>Porch</title>{LINE}", 'id="scrolls" viewBox="0 0 9 9"')
    assert found.title == "Porch"
    assert found.drawn[0].above[-1].names == ("scrolls",)


def test_an_object_knows_its_ancestors_from_the_inside_out() -> None:
    found = drawn(f'<g id="fasteners"><g id="rivets"><a id="link">{LINE}</a></g></g>')
    assert [n.id for n in found.above] == ["link", "rivets", "fasteners", None]


@pytest.mark.parametrize(
    ("body", "layer"),
    [
        (f'<g inkscape:groupmode="layer" inkscape:label="scrolls" id="layer1"><g id="g5">{LINE}</g></g>', "scrolls"),
        (
            '<g inkscape:groupmode="layer" inkscape:label="metal">'
            f'<g inkscape:groupmode="layer" inkscape:label="bars">{LINE}</g></g>',
            "bars",
        ),
        (f'<g id="scrolls"><g id="left">{LINE}</g></g>', "scrolls"),
        (f'<g><g id="left">{LINE}</g></g>', "left"),
        (LINE, None),
    ],
)
def test_the_layer_to_show(body: str, layer: str | None) -> None:
    assert drawn(body).layer == layer


@pytest.mark.parametrize("where", ['id="{}"', 'inkscape:label="{}"', 'class="{}"'])
def test_a_name_of_ten_thousand_characters_is_the_longest(where: str) -> None:
    assert drawn(f"<g {where.format('n' * 10_000)}>{LINE}</g>")
    with pytest.raises(UnreadableDrawing, match=r"Line 1: the \w+ of one object is longer than 10,000 characters"):
        drawn(f"<g {where.format('n' * 10_001)}>{LINE}</g>")
