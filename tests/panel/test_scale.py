"""Which scale holds. CSS absolute lengths: 1 in = 96 px = 25.4 mm = 72 pt (W3C, CSS Values and Units, 6.2)."""

from __future__ import annotations

import pytest

from lint.errors import UnreadableDrawing
from lint.panel.ratios import export_ratio, ratio_in, unit_in, whole_ratio
from lint.result import Kind
from tests.panel.pages import BAR, judged, panel_of

FRAME = f'<g id="frame"><rect x="26" y="26" width="348" height="548" {BAR}/></g>'  # 360 by 560 outside


def sizes(wide: str, high: str) -> str:
    """Overall dimensions of the frame above, as a drawing states them."""
    return (
        '<g id="dimensions" stroke="#00f" font-size="8"><path d="M20,600 H380"/><text x="190" y="597">'
        f'{wide}</text><path d="M400,20 V580"/><text x="402" y="300">{high}</text></g>'
    )


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ("1:4", 4.0),
        ("Scale 1 : 4", 4.0),
        ("SCALE: 1:10", 10.0),
        ("1/4", 4.0),
        ('1/4" = 1"', 4.0),
        ("1/4\u2033 = 1\u2033", 4.0),
        ("1/4\u201d=1\u201d", 4.0),
        ("3 in = 1 ft", 4.0),
        ('1 1/2" = 1\'-0"', 8.0),
        ("1 cm = 10 cm", 10.0),
        ("full size", 1.0),
        ("Full-size", 1.0),
        ("actual size", 1.0),
        ("half size", 2.0),
        ("2:1", 0.5),
        ("50 %", 2.0),
        ("1:2,5", 2.5),
        ("1\u22364", 4.0),  # the sign RATIO
    ],
)
def test_a_scale_in_words(text: str, ratio: float) -> None:
    assert ratio_in(text, "mm") == pytest.approx(ratio, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["", "not to scale", "100 mm", "1:0", "0:4", "A4", "drawn by hand", "=", '" = "', "1:", "12"]
)
def test_words_that_state_no_scale(text: str) -> None:
    assert ratio_in(text, "mm") is None


def test_the_size_of_a_unit_in_words() -> None:
    assert unit_in("1 unit = 1 mm", "mm") == 1.0
    assert unit_in("1 px = 1/2 in", "mm") == 12.7
    assert unit_in("10 units = 1 in", "mm") == pytest.approx(2.54)
    assert unit_in("1:4", "mm") is None


def test_ratios_that_exports_are_known_for() -> None:
    assert "72 per inch" in export_ratio(0.75)
    assert "90 per inch" in export_ratio(90 / 96)
    assert "pixels" in export_ratio(25.4 / 96)
    assert export_ratio(0.81) == ""
    assert whole_ratio(0.2) == 0.2
    assert whole_ratio(0.7) is None


@pytest.mark.parametrize(
    ("size", "mm"),
    [
        ('width="500mm" height="700mm" viewBox="0 0 500 700"', 1.0),
        ('width="10in" height="14in" viewBox="0 0 10 14"', 25.4),
        ('width="720pt" height="720pt" viewBox="0 0 720 720"', 25.4 / 72),
        ('width="50cm" height="70cm" viewBox="0 0 50000 70000"', 0.01),
    ],
)
def test_a_page_with_a_physical_size_is_a_scale(size: str, mm: float) -> None:
    scale = panel_of(FRAME, size).scale
    assert (scale.known, scale.by) == (True, "page")
    assert scale.mm_per_unit == pytest.approx(mm, rel=1e-12)


def test_a_bare_viewbox_is_no_size() -> None:
    panel = panel_of(FRAME, 'viewBox="0 0 500 700"')
    assert not panel.scale.known
    assert judged(panel, "scale").kind is Kind.FAIL
    assert judged(panel, "dimensions").because == "scale"
    assert judged(panel, "frame").kind is Kind.PASS  # shapes can be judged
    longer = max(panel.frame.outside) if panel.frame and panel.frame.outside else 0.0
    assert longer == pytest.approx(1000 * 560 / 548, rel=0.001)  # nominal: what is drawn is 1,000 mm long


def test_a_page_in_pixels_alone_is_looked_at() -> None:
    panel = panel_of(FRAME, 'width="500" height="700" viewBox="0 0 500 700"')
    assert panel.scale.pixels_only
    assert panel.scale.mm_per_unit == pytest.approx(25.4 / 96, rel=1e-12)
    assert judged(panel, "scale").kind is Kind.REVIEW


def test_pixels_that_the_sizes_bear_out_pass() -> None:
    wide, high = (f"{mm * 25.4 / 96:.2f} mm" for mm in (360, 560))
    panel = panel_of(FRAME + sizes(wide, high), 'width="500" height="700" viewBox="0 0 500 700"')
    assert judged(panel, "scale").kind is Kind.PASS


def test_the_option_overrides_what_the_drawing_states() -> None:
    said = '<g id="scale"><text x="9" y="690">1:2</text></g>'
    panel = panel_of(FRAME + said, scale="1:4")
    assert panel.scale.mm_per_unit == 4.0
    assert panel.scale.by == "option"
    assert judged(panel, "scale").kind is Kind.FAIL  # and they do not agree


@pytest.mark.parametrize("option", ["four", "", "1:0", "-1:4", "12"])
def test_an_option_that_is_no_scale_is_refused_with_a_sentence(option: str) -> None:
    with pytest.raises(UnreadableDrawing, match="--scale"):
        panel_of(FRAME, scale=option)


def test_a_ratio_needs_a_page_to_take_it_of() -> None:
    with pytest.raises(UnreadableDrawing, match="1 unit = 1 mm"):
        panel_of(FRAME, 'viewBox="0 0 500 700"', scale="1:4")
    assert panel_of(FRAME, 'viewBox="0 0 500 700"', scale="1 unit = 1 mm").scale.mm_per_unit == 1.0


def test_the_scale_layer_goes_before_the_page() -> None:
    said = '<g id="scale"><text x="9" y="690">1/4&quot; = 1&quot;</text></g>'
    panel = panel_of(FRAME + said, 'width="125mm" height="175mm" viewBox="0 0 500 700"')
    assert panel.scale.mm_per_unit == pytest.approx(1.0, rel=1e-12)
    assert judged(panel, "scale").kind is Kind.PASS


def test_a_reference_line_with_its_length_is_a_scale() -> None:
    said = '<g id="scale"><path d="M20,650 h 50" stroke="#000"/><text x="25" y="648" font-size="6">4 in</text></g>'
    panel = panel_of(FRAME + said, 'viewBox="0 0 500 700"')
    assert panel.scale.mm_per_unit == pytest.approx(101.6 / 50, rel=1e-9)


def test_sizes_that_agree_make_a_scale_where_the_page_has_none() -> None:
    panel = panel_of(FRAME + sizes("720", "1120"), 'viewBox="0 0 500 700"')
    assert panel.scale.by == "dimensions"
    assert panel.scale.mm_per_unit == pytest.approx(2.0, rel=1e-9)


def test_sizes_that_do_not_agree_make_none() -> None:
    panel = panel_of(FRAME + sizes("720", "999"), 'viewBox="0 0 500 700"')
    assert not panel.scale.known
    assert "do not agree" in judged(panel, "scale").message


def test_one_wrong_figure_is_the_figures_fault_and_not_the_scales() -> None:
    panel = panel_of(FRAME + sizes("360", "650"))
    assert judged(panel, "scale").kind is Kind.PASS
    assert judged(panel, "dimensions").kind is Kind.FAIL


@pytest.mark.parametrize(("width", "why"), [("375mm", "72 per inch"), ("468.75mm", "90 per inch")])
def test_sizes_all_out_by_an_export_ratio_are_the_scales_fault(width: str, why: str) -> None:
    panel = panel_of(FRAME + sizes("360", "560"), f'width="{width}" viewBox="0 0 500 700"')
    result = judged(panel, "scale")
    assert result.kind is Kind.FAIL
    assert why in result.message
    assert judged(panel, "dimensions").because == "scale"
    assert judged(panel, "pass-through").because == "scale"


def test_points_written_as_pixels_are_found_by_the_sizes() -> None:
    """Illustrator writes points as px: 25 % too small when read at 96 to the inch."""
    unit = 25.4 / 72
    panel = panel_of(
        FRAME + sizes(f"{360 * unit:.2f}", f"{560 * unit:.2f}"), 'width="500px" height="700px" viewBox="0 0 500 700"'
    )
    assert panel.scale.mm_per_unit == pytest.approx(unit, rel=1e-4)
    result = judged(panel, "scale")
    assert result.kind is Kind.REVIEW
    assert "72 per inch" in result.message


def test_paper_at_an_ordinary_scale_that_nobody_wrote_down_is_looked_at() -> None:
    panel = panel_of(FRAME + sizes("360", "560"), 'width="100mm" height="140mm" viewBox="0 0 500 700"')
    assert panel.scale.mm_per_unit == pytest.approx(1.0, rel=1e-12)  # the page times five, not the rounded figures
    result = judged(panel, "scale")
    assert result.kind is Kind.REVIEW
    assert "1:5" in result.message


def test_a_rounded_figure_does_not_bend_the_scale() -> None:
    """A page in mm is exact; 14 5/32 in is 359.57 mm."""
    panel = panel_of(FRAME + sizes("14 5/32 in", "22 in"))
    assert panel.scale.mm_per_unit == 1.0


def test_a_bar_of_no_stock_size_that_an_export_would_explain_is_a_hint() -> None:
    panel = panel_of(FRAME, 'width="375mm" height="525mm" viewBox="0 0 500 700"')
    result = judged(panel, "scale")
    assert result.kind is Kind.REVIEW
    assert "9 mm" in result.message
    assert "12 mm" in result.message


def test_a_page_that_stretches_gives_both_its_scales() -> None:
    panel = panel_of(FRAME, 'width="500mm" height="710mm" viewBox="0 0 500 700"')
    result = judged(panel, "scale")
    assert result.kind is Kind.REVIEW
    assert "1.0143" in result.message


@pytest.mark.parametrize(
    ("text", "ratio"),
    [("Scale 1:4 on A3", 4.0), ("drawn full size (1:1)", 1.0), ("1 : 5 (A4)", 5.0), ("all in mm, scale 1:2", 2.0)],
)
def test_a_scale_among_other_words(text: str, ratio: float) -> None:
    assert ratio_in(text, "mm") == pytest.approx(ratio)


@pytest.mark.parametrize("text", ["1:4 or 1:5", "12:30:15", "version 1.2:3:4", "-1:4"])
def test_two_scales_are_none(text: str) -> None:
    assert ratio_in(text, "mm") is None


def test_words_on_the_scale_layer_that_state_no_scale_are_looked_at() -> None:
    panel = panel_of(FRAME + sizes("360", "560") + '<g id="scale"><text x="9" y="690">not to scale</text></g>')
    result = judged(panel, "scale")
    assert result.kind is Kind.REVIEW
    assert "not to scale" in result.message


def test_a_stated_scale_that_an_export_has_shrunk_is_told_apart() -> None:
    said = '<g id="scale"><text x="9" y="690">full size</text></g>'
    panel = panel_of(FRAME + sizes("360", "560") + said, 'width="375mm" height="525mm" viewBox="0 0 500 700"')
    result = judged(panel, "scale")
    assert result.kind is Kind.FAIL
    assert "72 per inch" in result.message
