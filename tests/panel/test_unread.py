"""Nothing is dropped in silence."""

from __future__ import annotations

import pytest

from lint.result import Kind, Sign
from tests.panel.pages import BAR, judged, panel_of

FRAME = f'<g id="frame"><rect id="f" x="26" y="26" width="348" height="548" {BAR}/></g>'
LINE = 'd="M9,9 H99" fill="none" stroke="#000"'


def test_what_has_no_role_is_listed_by_its_layer() -> None:
    panel = panel_of(
        f'{FRAME}<g id="doodles"><path id="p1" {LINE}/><path id="p2" {LINE}/><text>hm</text></g><path id="p3" {LINE}/>'
    )
    assert [(u.layer, u.objects, u.hidden, u.first.id) for u in panel.unread] == [
        ("doodles", 3, False, "p1"),
        ("(no layer)", 1, False, "p3"),
    ]
    result = judged(panel, "layers")
    assert (result.kind, result.measured) == (Kind.REVIEW, 4)


def test_hidden_objects_are_counted_and_no_fault() -> None:
    panel = panel_of(f'{FRAME}<g id="scrolls" style="display:none"><path {LINE}/></g>')
    assert panel.counts["hidden"] == 1
    result = judged(panel, "layers")
    assert result.kind is Kind.PASS
    assert [place.sign for place in result.places] == [Sign.FACT]


def test_notes_are_passed_over() -> None:
    panel = panel_of(
        f'{FRAME}<g id="notes"><path {LINE}/><text>By A. Student</text></g><rect id="background" width="9" height="9"/>'
    )
    assert panel.counts == {"read": 1, "words": 0, "passed over": 3, "hidden": 0, "unread": 0}
    assert judged(panel, "layers").kind is Kind.PASS


@pytest.mark.parametrize(
    "body",
    [
        "",
        FRAME,
        f'{FRAME}<image width="9" height="9"/><defs><path id="d" {LINE}/></defs><use href="#d"/><use href="#none"/>',
        f'{FRAME}<rect width="9" height="9" fill="none"/><path d=""/><path id="scroll" d="oops" stroke="#000"/>',
        f'<g id="scrolls"><text>x</text></g><switch><foreignObject/><path {LINE}/></switch>',
        '<g id="ends"><text> </text></g>',
    ],
)
def test_the_counts_add_up_to_all_that_is_there(body: str) -> None:
    panel = panel_of(body)
    assert sum(panel.counts.values()) == panel.elements


def test_a_drawing_without_any_role_is_never_passed() -> None:
    panel = panel_of(f'<g id="Ebene 1"><path {LINE}/></g><g id="Calque 2"><path {LINE}/></g>')
    result = judged(panel, "layers")
    assert result.kind is Kind.FAIL
    assert '"Ebene 1"' in result.message
    assert '"Calque 2"' in result.message
    assert '--layer "Ebene 1=scrolls"' in result.remedy
    assert judged(panel, "scale").because == "layers"
    assert judged(panel, "pass-through").because == "layers"


def test_an_empty_drawing_says_so() -> None:
    assert "nothing" in judged(panel_of(""), "layers").message


def test_a_broken_path_is_read_up_to_its_error_and_told() -> None:
    panel = panel_of(f'{FRAME}\n<path id="bar-1" d="M100,32 V568 L oops" fill="none" stroke="#000" stroke-width="6"/>')
    assert panel.bars[0].line.length == pytest.approx(536)
    result = judged(panel, "layers")
    assert result.kind is Kind.REVIEW
    assert [(place.source.id, place.source.line) for place in result.places] == [("bar-1", 2)]


def test_every_unread_object_has_its_place() -> None:
    panel = panel_of(f'{FRAME}<path id="p1" d="M120,130 h9" fill="none" stroke="#000"/>')
    assert [(place.x, place.y) for place in judged(panel, "layers").places] == [(120, 130)]
