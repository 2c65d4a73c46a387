"""What a drawn object is metal of. Strokes, caps and joins: SVG 1.1, 11.4. Fill of an open path: SVG 1.1, 11.3."""

from __future__ import annotations

import math

import pytest

from lint.panel.panel import Panel
from lint.panel.parts import DrawnAs
from tests.panel.pages import HAIR, SCROLL, judged, panel_of

SPAN = "M100,100 H300"


def bars(markup: str) -> Panel:
    return panel_of(f'<g id="bars">{markup}</g>')


@pytest.mark.parametrize(("cap", "more"), [("butt", 0.0), ("round", math.pi * 3**2), ("square", 36.0)])
def test_caps_count_as_metal(cap: str, more: float) -> None:
    panel = bars(f'<path d="{SPAN}" {SCROLL} stroke-linecap="{cap}"/>')
    assert panel.bars[0].metal is not None
    assert panel.bars[0].metal.size == pytest.approx(200 * 6 + more, abs=0.2)


def test_a_strokes_width_at_real_scale_is_the_bars_width() -> None:
    panel = panel_of(
        f'<g id="bars" transform="scale(2)"><path d="{SPAN}" {SCROLL}/></g>', 'width="250mm" viewBox="0 0 500 700"'
    )
    assert panel.bars[0].width == pytest.approx(6.0)
    assert panel.bars[0].line.length == pytest.approx(200.0)


@pytest.mark.parametrize(
    ("name", "width", "depth"),
    [
        ("bar 6x12", 6, 12),
        ("picket_8_x_20", 8, 20),
        ('bar 1/4" x 1/2"', 6.35, 12.7),
        ("bar 1/4 x 1/2 in", 6.35, 12.7),
        ("picket 10 mm", 10, None),
        ("bar 2 6x12", 6, 12),
        ("bar 6.5×12", 6.5, 12),
        ("bar", 12, 12),  # the sheet's
        ("bar 3", 12, 12),
    ],
)
def test_a_hairlines_width_comes_from_its_name_else_from_the_sheet(
    name: str, width: float, depth: float | None
) -> None:
    escaped = name.replace('"', "&quot;")
    bar = panel_of(f'<path inkscape:label="{escaped}" d="{SPAN}" {HAIR}/>').bars[0]
    assert bar.width == pytest.approx(width)
    assert bar.depth == (None if depth is None else pytest.approx(depth))
    assert bar.drawn_as is DrawnAs.HAIRLINE
    assert bar.width_from == ("sheet" if width == 12 else "name")


def test_a_stroke_goes_before_a_name_that_says_otherwise_and_the_report_says_so() -> None:
    panel = panel_of(f'<path inkscape:label="bar 9x12" d="{SPAN}" {SCROLL}/>')
    assert panel.bars[0].width == 6.0
    assert "9 mm" in judged(panel, "layers").message


def test_a_path_of_several_open_subpaths_is_as_many_bars() -> None:
    panel = bars(f'<path id="a" d="M0,0 H90 M0,50 H80 M0,90 H70" {SCROLL}/>')
    assert [round(bar.line.length) for bar in panel.bars] == [90, 80, 70]
    assert len({bar.id for bar in panel.bars}) == 3


def test_cairos_stray_moveto_at_the_end_is_nothing() -> None:
    assert len(bars(f'<path d="M0,0 H90 M0,0" {SCROLL}/>').bars) == 1


def test_an_open_path_that_ends_on_its_start_is_closed() -> None:
    assert bars(f'<path d="M0,0 H90 V90 H0 V0.0005" {SCROLL}/>').bars[0].line.closed


def test_a_hairline_of_a_cad_program_with_a_default_fill_is_a_line() -> None:
    """An open path with a stroke is a centreline, whatever fill the editor left on it."""
    bar = bars('<path d="M0,0 H90 V90" fill="#000" stroke="#000" stroke-width="0.35"/>').bars[0]
    assert bar.drawn_as is DrawnAs.HAIRLINE
    assert bar.line.length == pytest.approx(180)


@pytest.mark.parametrize(
    "outline",
    [
        '<path d="M0,0 H200 V6 H0 Z" fill="#444"/>',
        '<path d="M0,0 H200 V6 H0" fill="#444"/>',
        '<path d="M0,0 H200 V6 H0 Z" fill="#444" stroke="#000" stroke-width="0.5"/>',
        '<path d="M0,0 H200 V6 H0 Z" fill="none" stroke="#000" stroke-width="0.2"/>',
        '<rect width="200" height="6" fill="#444"/>',
        '<path d="M0,0 H200 V6 H0 Z" fill="#fff" stroke="#000" stroke-width="1.2"/>',
    ],
)
def test_a_slender_closed_shape_is_an_outline(outline: str) -> None:
    bar = bars(outline).bars[0]
    assert bar.drawn_as is DrawnAs.OUTLINE
    assert bar.unread == ""
    assert bar.width == pytest.approx(6, abs=0.02)
    assert bar.line.length == pytest.approx(200, abs=0.3)


def test_a_copy_that_lies_on_its_original_is_one_part() -> None:
    panel = bars(f'<path id="a" d="{SPAN}" {SCROLL}/><path id="b" d="M300,100 H200 H100" {SCROLL}/>')
    assert [bar.id for bar in panel.bars] == ["a"]
    assert [(kept.id, dropped.id) for kept, dropped in panel.doubles] == [("a", "b")]


def test_a_copy_moved_by_a_tenth_of_a_millimetre_is_another_part() -> None:
    assert len(bars(f'<path d="{SPAN}" {SCROLL}/><path d="M100,100.1 H300" {SCROLL}/>').bars) == 2


def test_a_narrow_light_line_over_a_broad_dark_one_is_one_bar() -> None:
    """A way to style a bar: the broad stroke is its metal."""
    panel = bars(
        f'<path id="edge" d="{SPAN}" {SCROLL}/><path id="core" d="{SPAN}" fill="none" stroke="#fff" stroke-width="4"/>'
    )
    assert [(bar.id, bar.width) for bar in panel.bars] == [("edge", 6.0)]


def test_the_fill_that_an_office_program_writes_beside_each_stroke_is_no_double() -> None:
    curve = "M0,0 C0,90 90,90 90,0 C90,-40 30,-40 30,0"
    panel = bars(f'<path id="f" d="{curve}" fill="#ccc"/><path id="s" d="{curve}" {SCROLL}/>')
    assert [bar.id for bar in panel.bars] == ["s"]
    assert panel.doubles == ()


def test_two_objects_of_one_id_are_told_apart() -> None:
    ids = [
        bar.id for bar in bars(f'<path id="Star" d="{SPAN}" {SCROLL}/>\n<path id="Star" d="M0,9 H90" {SCROLL}/>').bars
    ]
    assert ids[0] == "Star"
    assert len(set(ids)) == 2


def test_an_object_without_an_id_is_called_by_its_tag_and_line() -> None:
    assert bars(f'\n\n<path d="{SPAN}" {SCROLL}/>').bars[0].id == "path@3"


def test_a_bar_called_frame_is_not_taken_for_the_frame() -> None:
    panel = panel_of(f'<path id="frame" inkscape:label="bar" d="{SPAN}" {SCROLL}/>')
    assert [bar.id for bar in panel.bars] == ["frame@1"]


def test_a_skewed_strokes_width_is_taken_from_the_name() -> None:
    bar = panel_of(f'<path inkscape:label="bar 6x12" d="{SPAN}" {SCROLL} transform="skewX(30)"/>').bars[0]
    assert (bar.width, bar.width_from) == (6.0, "name")


@pytest.mark.parametrize(
    ("shape", "at", "size", "area"),
    [
        ('<rect x="10" y="20" width="18" height="12"/>', (19, 26), (18, 12), 216),
        ('<rect x="10" y="20" width="12" height="18" transform="rotate(30 16 29)"/>', (16, 29), (18, 12), 216),
        ('<circle cx="50" cy="60" r="2.5"/>', (50, 60), (5, 5), math.pi * 6.25),
        ('<path d="M10,20 h18" fill="none" stroke="#000" stroke-width="12"/>', (19, 20), (18, 12), 216),
        ('<path d="M10,20 h18 v12 h-18 v-12" fill="none" stroke="#000" stroke-width="0.2"/>', (19, 26), (18, 12), 216),
    ],
)
def test_a_fastener_has_its_place_its_size_and_its_area(
    shape: str, at: tuple[float, float], size: tuple[float, float], area: float
) -> None:
    collar = panel_of(f'<g id="collars">{shape}</g>').fasteners[0]
    assert collar.at == pytest.approx(at, abs=0.01)
    assert collar.size == pytest.approx(size, abs=0.01)
    assert collar.area.size == pytest.approx(area, rel=0.002)


def test_a_path_of_two_rings_apart_is_two_collars() -> None:
    panel = panel_of('<g id="collars"><path id="c" d="M0,0 h9 v9 h-9 z M50,0 h9 v9 h-9 z"/></g>')
    assert len(panel.fasteners) == 2


def test_a_small_ring_among_the_frames_members_is_no_bar_and_is_told() -> None:
    """A rivet's hole drawn on the frame's own layer."""
    frame = '<rect x="26" y="26" width="348" height="548" fill="none" stroke="#000" stroke-width="12"/>'
    panel = panel_of(f'<g id="frame">{frame}<circle id="hole" cx="26" cy="200" r="3" {HAIR}/></g>')
    assert panel.frame is not None
    assert panel.frame.outside == pytest.approx((360, 560), abs=0.01)
    assert panel.frame.inside == pytest.approx((336, 536), abs=0.01)
    result = judged(panel, "frame")
    assert "hole cannot be read as a bar" in result.message
