"""Words and where they stand: SVG 1.1 chapter 10, and the habits of editors."""

from __future__ import annotations

import pytest

from lint.errors import UnreadableDrawing
from tests.drawing.drawings import aside, drawing, words


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            '<text><tspan sodipodi:role="line">mortise</tspan><tspan sodipodi:role="line">and tenon</tspan></text>',
            "mortise and tenon",
        ),
        (
            '<text font-size="10"><tspan x="0" y="0">4</tspan><tspan x="5.5" y="0">0</tspan>'
            '<tspan x="11" y="0">0</tspan></text>',
            "400",
        ),
        ('<text font-size="10"><tspan x="0">two</tspan><tspan x="60">words</tspan></text>', "two words"),
        ('<text font-size="10"><tspan x="0" y="0">two</tspan><tspan x="0" y="12">lines</tspan></text>', "two lines"),
        ('<text font-size="10"><tspan x="0" y="0">two</tspan><tspan x="0" dy="12">lines</tspan></text>', "two lines"),
        ('<text><tspan><tspan x="5" y="6"><tspan>15.75 </tspan></tspan></tspan></text>', "15.75"),
        ("<text>\n   16 1/2\n   in\n</text>", "16 1/2 in"),
        ("<text>a<!-- b --><tspan>c</tspan>d</text>", "acd"),
        ('<text>a<tspan display="none">b</tspan>c</text>', "ac"),
        ("<text>a<title>no word of it</title></text>", "a"),
        ('<text xml:space="preserve">  2\'-0"  </text>', "2'-0\""),
        ("<text>bolt\u202e end\u009b</text>", "bolt end"),
    ],
)
def test_what_a_text_says(text: str, said: str) -> None:
    assert words(text).text == said


def test_words_stand_round_their_anchor() -> None:
    """SVG 1.1, 10.9: start, middle or end of the text lies on the given point."""
    left = [
        words(f'<text x="50" y="50" font-size="10" text-anchor="{a}">400</text>').extent
        for a in ("start", "middle", "end")
    ]
    assert left[0][0] == 50
    assert left[1][0] + left[1][2] == pytest.approx(100)
    assert left[2][2] == pytest.approx(50)
    assert all(e[1] < 50 < e[3] for e in left)
    assert left[0][2] - left[0][0] == pytest.approx(
        3 * 5.56, rel=0.02
    )  # digits of Helvetica: 556/1000 em (from memory)


def test_a_turned_text_stands_where_it_is_turned_to() -> None:
    left, top, right, bottom = words('<text transform="matrix(0 -1 1 0 20 80)" font-size="10">400</text>').extent
    assert (left, right) == pytest.approx((12, 22))
    assert bottom == pytest.approx(80)
    assert top < 70


def test_a_letter_by_letter_text_reaches_from_its_first_to_its_last_position() -> None:
    left, _, right, _ = words('<text x="10 20 30" font-size="5">abc</text>').extent
    assert left == 10
    assert right >= 30


def test_words_bear_their_colour_and_size_from_styles() -> None:
    found = words('<g style="font:bold 20px/1 Arial;fill:lime"><text y="50">400</text></g>')
    assert found.colour == "#00ff00"
    assert found.extent[1] == pytest.approx(34)


def test_words_on_a_path_stand_at_its_start() -> None:
    body = '<defs><path id="p" d="M30 40h20"/></defs><text font-size="5"><textPath href="#p">ribbon</textPath></text>'
    assert words(body).text == "ribbon"
    assert words(body).extent[0] == 30


def test_a_cloned_text_is_said_again_where_it_stands() -> None:
    first, second = drawing('<text id="t" font-size="5">R6</text><use href="#t" x="40"/>').words
    assert (first.text, second.text) == ("R6", "R6")
    assert second.extent[0] - first.extent[0] == pytest.approx(40)
    assert second.clone_of is not None


def test_flowed_text_of_old_inkscape_is_read() -> None:
    body = (
        '<flowRoot font-size="5"><flowRegion><rect x="10" y="20" width="50" height="20"/></flowRegion>'
        "<flowPara>bolt</flowPara><flowPara>end</flowPara></flowRoot>"
    )
    found = words(body)
    assert found.text == "bolt end"
    assert (found.extent[0], found.extent[1]) == pytest.approx((10, 21))
    assert drawing(body).elements == 1


@pytest.mark.parametrize(
    ("text", "why"), [("<text/>", "empty"), ("<text> </text>", "empty"), ('<text fill="none">a</text>', "no paint")]
)
def test_a_text_that_says_nothing_is_listed(text: str, why: str) -> None:
    assert aside(text).why == why


def test_a_text_of_more_than_ten_thousand_characters_is_refused() -> None:
    assert words(f"<text>{'a' * 10_000}</text>")
    with pytest.raises(UnreadableDrawing, match=r"longer than 10,000 characters\. Shorten it"):
        words(f"<text>{'a' * 5_000}<tspan>{'a' * 5_001}</tspan></text>")
