"""Clones: where they stand, what they are painted with and called, and what they may not do (SVG 1.1, 5.6)."""

from __future__ import annotations

import pytest

from lint.drawing.drawn import Drawing
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import LINE, aside, corners, drawing, ends


def clone(body: str) -> Drawing:
    return drawing(body)


def test_a_clone_is_moved_by_x_and_y_after_its_own_transform() -> None:
    """SVG 1.1, 5.6: an additional translate(x,y) is appended to the end of the transform."""
    found = drawing(f'<defs>{LINE}</defs><use xlink:href="#bar" x="5" y="7" transform="scale(2)" id="clone"/>').drawn[0]
    assert corners(found.chains[0]).tolist() == [[10, 14], [30, 14]]
    assert (found.own.id, found.clone_of and found.clone_of.id) == ("clone", "bar")


def test_href_stands_before_xlink_href() -> None:
    body = f'<defs>{LINE}<circle id="c" r="5"/></defs><use href="#bar" xlink:href="#c"/>'
    assert drawing(body).drawn[0].own.tag == "line"


def test_the_original_in_a_hidden_layer_is_seen_where_its_clone_stands() -> None:
    """Only the original's own display counts, not that of its layer."""
    found = drawing(f'<g style="display:none" id="store">{LINE}</g><use href="#bar"/>')
    assert [len(found.drawn), [a.why for a in found.asides]] == [1, ["hidden"]]
    hidden = LINE.replace("/>", ' display="none"/>')
    assert [a.why for a in drawing(f'{hidden}<use href="#bar"/>').asides] == ["hidden", "hidden"]


def test_a_clone_takes_paint_from_where_it_stands_where_its_original_has_none() -> None:
    """SVG 1.1, 5.6: property inheritance works as if the original were a child of the use."""
    body = '<g stroke="red"><line id="a" x2="5"/></g><g stroke="lime" stroke-width="4"><use href="#a"/></g>'
    first, second = drawing(body).drawn
    assert (first.paint.stroke, second.paint.stroke, second.paint.width) == ("#ff0000", "#00ff00", 4)


def test_a_cloned_group_gives_each_of_its_shapes_with_the_name_it_has_there() -> None:
    body = (
        '<defs><g id="pair" stroke="red"><line id="scroll left" x2="5"/><line id="scroll right" x2="7"/></g></defs>'
        '<g id="scrolls"><use id="copy" href="#pair"/></g>'
    )
    left, right = drawing(body).drawn
    assert (left.own.names, right.own.names) == (("scroll left",), ("scroll right",))
    assert (left.own.id, right.own.id) == ("copy", "copy")
    assert [n.id for n in left.above][:3] == ["pair", "copy", "scrolls"]


def test_a_symbol_is_fitted_into_the_size_of_its_use() -> None:
    """SVG 1.1, 5.5 and 5.6: width and height of the use stand for those of the symbol's viewport."""
    body = f'<symbol id="s" viewBox="0 0 10 10">{LINE}</symbol><use href="#s" x="3" width="20" height="20"/>'
    assert ends(body) == [[3, 0], [23, 0]]
    assert drawing(f'<symbol id="s">{LINE}</symbol>').elements == 0


def test_a_clone_of_a_clone_and_its_name() -> None:
    body = f'<defs>{LINE}<use id="first" href="#bar" x="1"/></defs><use id="second" href="#first" x="2"/>'
    found = drawing(body).drawn[0]
    assert corners(found.chains[0])[0].tolist() == [3, 0]
    assert (found.own.names, found.own.id) == (("second",), "second")


@pytest.mark.parametrize(
    ("body", "detail"),
    [
        ('<use href="#gone"/>', "not in the file"),
        ('<use href="other.svg#a"/>', "another file"),
        ("<use/>", "clone of nothing"),
        ('<use id="a" href="#a"/>', "holds itself"),
    ],
)
def test_a_clone_that_leads_nowhere_is_listed(body: str, detail: str) -> None:
    assert (aside(body).why, detail in aside(body).detail) == ("broken", True)


def test_clones_that_go_in_a_circle_are_listed_and_end() -> None:
    """SVG 2, 5.6: a use that refers to an ancestor or round in a circle is in error."""
    found = drawing('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>')
    assert {a.why for a in found.asides} == {"broken"}


def test_twenty_thousand_clones_are_read_and_more_refused() -> None:
    body = f"<defs>{LINE}</defs>" + '<use href="#bar"/>' * 20_000
    assert len(drawing(body).drawn) == 20_000
    with pytest.raises(UnreadableDrawing, match=r"more than 20,000 objects\. Unlink the clones"):
        drawing(body + '<use href="#bar"/>')


def test_clones_that_multiply_are_refused() -> None:
    groups = "".join(f'<g id="g{i + 1}">' + f'<use href="#g{i}"/>' * 10 + "</g>" for i in range(12))
    with pytest.raises(UnreadableDrawing, match="more than 20,000 objects"):
        drawing(f'<defs><g id="g0">{LINE}</g>{groups}</defs><use href="#g12"/>')
