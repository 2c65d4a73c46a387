"""Names to roles. The table of words is the drawing convention's own; mangled spellings are those that editors were
seen to write (Illustrator, Affinity, Inkscape, CorelDRAW, FreeCAD, matplotlib: from their own files)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lint.drawing.drawn import Naming, Words
from lint.panel.parts import Role
from lint.panel.roles import Roles, folded, plain, role_in
from lint.sheet.values import ROLES
from tests.panel.pages import SHEET, panel_of


@pytest.mark.parametrize(("word", "role"), ROLES.items())
def test_every_word_gives_its_role_in_any_case_and_number(word: str, role: str) -> None:
    for name in (word, word.upper(), f"{word.title()}s", f"{word} 3", f"{word}-left", f"{word}2", f"layer {word}"):
        assert role_in(name) is Role(role), name


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("Scrolls", Role.SCROLL),
        ("frame_1_", Role.FRAME),  # a second object of one name, Illustrator
        ("C_scroll", None),  # it begins with no role word: its layer decides
        ("scroll: ribbon / fishtail", Role.SCROLL),
        ("scrolls scroll-left", Role.SCROLL),  # matplotlib
        ("b'rivet-left'", Role.RIVET),  # FreeCAD 0.20 writes the repr of bytes
        ("Group-Copy-7", None),
        ("path24", None),
        ("bar-1 copy 2", Role.BAR),
        ("ｆｒａｍｅ", Role.FRAME),  # full-width letters are the same letters under Unicode NFKC
        ("frameOuter", Role.FRAME),
        ("endless", None),
        ("barber", None),
        ("title block", Role.NOTE),
        ("radii", Role.RADIUS),
        ("dim", Role.DIMENSION),
        ("", None),
        ("42", None),
    ],
)
def test_names_as_editors_write_them(name: str, role: Role | None) -> None:
    assert role_in(name) is role


@pytest.mark.parametrize(
    "name", ["Fishtail", "fishtail 2", "Fishtail-1", "fishtail copy", "fishtail_copy_3", "FISHTAIL (2)"]
)
def test_a_counter_or_a_copy_suffix_is_no_part_of_a_name(name: str) -> None:
    assert plain(name) == "fishtail"


def test_marks_of_punctuation_are_spaces() -> None:
    assert folded("a_b-c.d:e/f#g(h)") == "a b c d e f g h"


def test_an_objects_own_name_goes_before_its_layers() -> None:
    panel = panel_of('<g id="fasteners"><rect id="collar 3" width="9" height="9"/><circle id="rivet" r="2"/></g>')
    assert [f.kind for f in panel.fasteners] == ["collar", "rivet"]


def test_the_nearest_named_ancestor_decides() -> None:
    panel = panel_of(
        '<g id="scrolls"><g id="bars"><g id="g7"><path d="M0,0 H90" stroke="#000" stroke-width="6"/></g></g></g>'
    )
    assert len(panel.bars) == 1
    assert not panel.scrolls


def test_the_root_may_be_the_named_layer() -> None:
    """Illustrator puts the name of a single layer on the root."""
    panel = panel_of(
        '<path d="M0,0 H90" stroke="#000" stroke-width="6"/>',
        'id="bars" width="200mm" height="200mm" viewBox="0 0 200 200"',
    )
    assert len(panel.bars) == 1


def test_a_clone_takes_its_role_from_where_it_stands() -> None:
    """And its name from its original: the picket's section holds for the clone too."""
    body = (
        '<g id="bars"><path id="picket 6x12" d="M0,0 V90" fill="none" stroke="#000" stroke-width="0.1"/></g>'
        '<g id="samples"><use href="#picket 6x12" x="30"/></g>'
    )
    panel = panel_of(body)
    assert [bar.width for bar in panel.bars] == [6.0]
    assert [scroll.bar.width for scroll in panel.samples] == [6.0]


def test_a_name_in_any_language_may_be_mapped_to_a_role() -> None:
    sheet = replace(SHEET, layers={"Ebene 2": "scrolls", "Schnörkel": "scroll", "図": "collars"})
    roles = Roles(sheet)

    def role(*names: str) -> Role | None:
        naming = Naming(names=names, id=None, tag="g")
        return roles._role(naming.names[0])

    assert role("Ebene 2") is Role.SCROLL
    assert role("ebene_2") is Role.SCROLL
    assert role("Ebene 1") is None
    assert role("Ebene 22") is None
    assert role("SCHNÖRKEL 3") is Role.SCROLL
    assert role("schnörkel4") is Role.SCROLL
    assert role("図 1") is Role.COLLAR


def test_a_stroke_colour_may_stand_for_a_lost_name() -> None:
    sheet = replace(SHEET, colours={"#c00000": "rivets"})
    body = '<circle cx="9" cy="9" r="2" fill="#C00000"/><circle id="collar" cx="30" cy="9" r="5" fill="#c00000"/>'
    assert sorted(f.kind for f in panel_of(body, sheet=sheet).fasteners) == ["collar", "rivet"]


def test_live_text_is_never_metal() -> None:
    """A label on the layer of scrolls, even one named for a scroll, is a note."""
    words = Words(
        own=Naming(names=("scroll 1",), id="scroll 1", tag="text"),
        above=(Naming(names=("ends",), id="ends", tag="g"),),
        line=1, text="ribbon", extent=(0, 0, 9, 3), colour=None, layer="ends",
    )  # fmt: skip
    assert Roles(SHEET).of(words) is Role.END
    assert Roles(SHEET).of(replace(words, above=())) is Role.NOTE
