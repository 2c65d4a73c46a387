"""Dimensions: which figure belongs to which line, and what the line measures. The frame is 360 by 560 outside, 336 by
536 inside."""

from __future__ import annotations

import pytest

from lint.errors import UnreadableDrawing
from lint.panel.parts import Dimension
from tests.panel.pages import BAR, SCROLL, panel_of

FRAME = f'<g id="frame"><rect x="26" y="26" width="348" height="548" {BAR}/></g>'
C = "M150,110 C90,110 90,310 150,310"  # its metal: from 102 to 150 + 0 across (butt ends), 107 to 313 down


def sizes(markup: str, more: str = "") -> tuple[Dimension, ...]:
    return panel_of(f'{FRAME}{more}<g id="dimensions" fill="none" stroke="#00f">{markup}</g>').dimensions


def text(x: float, y: float, words: str, size: float = 8) -> str:
    return f'<text x="{x}" y="{y}" font-size="{size}" text-anchor="middle">{words}</text>'


def one(markup: str, more: str = "") -> Dimension:
    found = sizes(markup, more)
    assert len(found) == 1
    return found[0]


@pytest.mark.parametrize(
    ("line", "of"),
    [
        ("M20,600 H380", "width"),
        ("M380,600 H20", "width"),
        ("M20,5 H380", "width"),
        ("M400,20 V580", "height"),
        ("M32,300 H368", "inside width"),
        ("M200,32 V568", "inside height"),
        ("M21.5,600 H378", "width"),  # drawn by eye
        ("M40,600 H200", ""),
        ("M20,20 L380,580", ""),  # a diagonal
    ],
)
def test_a_line_measures_what_its_ends_square_off(line: str, of: str) -> None:
    x, y = (200, 597) if "H" in line or "L" in line else (404, 300)
    words = text(x, y if "600" in line else 300 if "V" in line else 3, "360")
    if line.startswith("M32"):
        words = text(200, 297, "336")
    if line.startswith("M200"):
        words = text(206, 300, "536")
    if "L" in line:
        words = text(205, 295, "665.7")
    assert one(f'<path d="{line}"/>{words}').of == of


def test_what_is_measured_is_the_part_and_not_the_line() -> None:
    """A line drawn by eye is the frame's width all the same."""
    assert one(f'<path d="M21.5,600 H378"/>{text(200, 597, "360")}').drawn == pytest.approx(360, abs=0.01)


def test_a_free_length_is_the_distance_between_its_ends() -> None:
    assert one(f'<path d="M40,600 H200"/>{text(120, 597, "160")}').drawn == pytest.approx(160)


def test_a_line_from_side_to_side_of_a_scroll_is_its_size() -> None:
    scroll = f'<g id="scrolls"><path id="s1" d="{C}" {SCROLL}/></g>'
    found = one(f'<path d="M90,107 V313"/>{text(84, 210, "206")}', scroll)
    assert found.of == "s1"
    assert found.drawn == pytest.approx(206, abs=0.01)


def test_of_two_scrolls_alike_the_nearer_is_measured_and_both_are_spanned() -> None:
    second = f'<path id="s2" d="{C}" transform="translate(150 0)" {SCROLL}/>'
    scrolls = f'<g id="scrolls"><path id="s1" d="{C}" {SCROLL}/>{second}</g>'
    found = one(f'<path d="M260,107 V313"/>{text(254, 210, "206")}', scrolls)
    assert found.spans == ("s2", "s1")


def test_each_text_goes_to_its_own_line() -> None:
    found = sizes(
        f'<path d="M20,600 H380"/>{text(200, 597, "360")}<path d="M20,620 H200"/>{text(110, 617, "180")}'
        f'<path d="M200,620 H380"/>{text(290, 617, "180.1")}'
    )
    assert [(d.text, round(d.drawn, 3)) for d in found] == [("360", 360.0), ("180", 180.0), ("180.1", 180.0)]


def test_arrowheads_and_extension_lines_are_passed_over() -> None:
    extras = (
        '<path d="M20,585 V605"/><path d="M380,585 V605"/><path d="M26,597 L20,600 L26,603"/>'
        '<path d="M374,597 L380,600 L374,603"/><path d="M20,600 l6,-2 v4 z" fill="#00f"/><path d="M196,594 H204"/>'
    )
    found = one(f'{extras}<path d="M20,600 H380"/>{text(200, 597, "360")}')
    assert (found.of, found.text) == ("width", "360")


def test_a_line_with_its_arrowheads_in_one_path_is_its_first_subpath() -> None:
    data = "M20,600 H380 M26,597 L20,600 L26,603 M374,597 L380,600 L374,603"
    assert one(f'<path d="{data}"/>{text(200, 597, "360")}').of == "width"


def test_a_bracket_measures_between_its_feet() -> None:
    assert one(f'<path d="M20,585 V600 H380 V585"/>{text(200, 597, "360")}').of == "width"


def test_a_line_broken_for_its_figure_is_one() -> None:
    found = one(f'<path d="M20,600 H185"/><path d="M215,600 H380"/>{text(200, 603, "360")}')
    assert found.of == "width"
    assert found.drawn == pytest.approx(360, abs=0.01)


def test_two_lines_end_to_end_with_a_figure_each_are_two() -> None:
    found = sizes(f'<path d="M20,600 H200"/>{text(110, 597, "180")}<path d="M200,600 H380"/>{text(290, 597, "180")}')
    assert [round(d.drawn, 6) for d in found] == [180, 180]


def test_a_group_keeps_its_figure_to_its_line() -> None:
    """The other line passes nearer to the text."""
    found = sizes(
        f'<g><path d="M20,600 H380"/>{text(200, 590, "360")}</g><g><path d="M20,588 H200"/>{text(110, 585, "180")}</g>'
    )
    assert [(d.text, round(d.drawn, 3)) for d in found] == [("360", 360.0), ("180", 180.0)]


def test_words_that_are_no_length_are_kept_with_their_trouble() -> None:
    found = one(f'<path d="M40,600 H200"/>{text(120, 597, "to suit")}')
    assert found.stated is None
    assert "not a length" in found.trouble


@pytest.mark.parametrize("words", ["overall 360", "360 mm overall", "width: 360", "360 typ.", "= 360"])
def test_words_beside_a_length_are_passed_over(words: str) -> None:
    assert one(f'<path d="M20,600 H380"/>{text(200, 597, words)}').stated == 360


@pytest.mark.parametrize("words", ["R6", "Ø6", "R 1/4&quot;", "⌀ 12"])
def test_a_radius_or_a_diameter_is_no_length_along_a_line(words: str) -> None:
    assert not one(f'<path d="M40,600 H80"/>{text(60, 597, words)}').linear


def test_a_figure_without_a_line_is_told() -> None:
    panel = panel_of(f'{FRAME}<g id="dimensions">{text(200, 650, "360")}</g>')
    assert panel.dimensions == ()
    assert [stray.rule for stray in panel.strays] == ["dimensions"]


def test_a_panel_set_at_an_angle_is_measured_along_its_own_sides() -> None:
    inside = f'{FRAME}<g id="dimensions" stroke="#00f"><path d="M20,600 H380"/>{text(200, 597, "360")}</g>'
    panel = panel_of(f'<g transform="rotate(20 200 300)">{inside}</g>')
    assert [(d.of, round(d.drawn, 2)) for d in panel.dimensions] == [("width", 360.0)]


@pytest.mark.parametrize("words", ["360 (14 3/16&quot;)", "360 [14.17]", "360 ±1", "360 mm +/- 0.5"])
def test_other_units_and_tolerances_beside_a_length_are_passed_over(words: str) -> None:
    assert one(f'<path d="M20,600 H380"/>{text(200, 597, words)}').stated == 360


def test_figures_turned_into_outlines_are_told() -> None:
    glyphs = "".join(f'<path d="M{190 + 6 * k},590 h4 v7 h-4 z" fill="#00f" stroke="none"/>' for k in range(3))
    panel = panel_of(f'{FRAME}<g id="dimensions"><path d="M20,600 H380" stroke="#00f"/>{glyphs}</g>')
    assert any("outlines" in stray.sentence for stray in panel.strays)


def test_texts_and_lines_in_a_heap_are_refused_with_the_line_and_the_text() -> None:
    """Four hundred dimensions on one spot: nobody can tell which figure belongs to which line."""
    heap = "\n".join(f'<path d="M{100 + k % 60} 140h99"/>{text(150, 139, "99")}' for k in range(400))
    with pytest.raises(UnreadableDrawing, match='so many lines lie about "99"') as found:
        sizes(heap)
    assert found.value.line


def test_hundreds_of_dimensions_apart_are_read() -> None:
    places = [(30 + 70 * column, 40 + 10 * row) for column in range(5) for row in range(50)]
    assert len(sizes("".join(f'<path d="M{x} {y}h11"/>{text(x + 5.5, y - 1, "11", 3)}' for x, y in places))) == 250
