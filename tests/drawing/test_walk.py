"""Groups, transforms, clones, choices and what is hidden: SVG 1.1 chapters 5 and 7."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.errors import UnreadableDrawing
from tests.drawing.drawings import LINE, aside, drawing, drawn, ends, path


@pytest.mark.parametrize(
    ("transform", "expected"),
    [
        ("translate(5)", [[5, 0], [15, 0]]),
        ("translate(5,7)", [[5, 7], [15, 7]]),
        (" translate( 5 7 )\n", [[5, 7], [15, 7]]),
        ("scale(2)", [[0, 0], [20, 0]]),
        ("scale(-1,1)", [[0, 0], [-10, 0]]),
        ("rotate(90)", [[0, 0], [0, 10]]),
        ("rotate(180 10 5)", [[20, 10], [10, 10]]),
        ("skewY(45)", [[0, 0], [10, 10]]),
        ("matrix(-1 0 0 1 355 0)", [[355, 0], [345, 0]]),
        ("", [[0, 0], [10, 0]]),
        # SVG 1.1, 7.6: the list is applied as nested groups would be, the first outermost
        ("translate(10,20) rotate(90)", [[10, 20], [10, 30]]),
        (
            "translate(172.5, 168.5) scale(-1, 1) translate(-172.5, -168.5) translate(146, 142)",
            [[199, 142], [189, 142]],
        ),
        ("translate(5,5)scale(2),rotate(0)", [[5, 5], [25, 5]]),
    ],
)
def test_transform_lists(transform: str, expected: list[list[float]]) -> None:
    found = ends(f'<g transform="{transform}">{LINE}</g>')
    assert found[0] == pytest.approx(expected[0], abs=1e-12)
    assert found[1] == pytest.approx(expected[1], abs=1e-12)


def test_the_nested_example_of_the_specification() -> None:
    """SVG 1.1, 7.4, example Nested: translate(50,90), rotate(-45), translate(130,160) give this matrix."""
    inner = f'<g transform="rotate(-45)"><g transform="translate(130,160)">{LINE}</g></g>'
    start, end = ends(f'<g transform="translate(50,90)">{inner}</g>')
    assert start == pytest.approx([255.06, 111.21], abs=0.01)  # e and f, as printed there
    assert [end[0] - start[0], end[1] - start[1]] == pytest.approx([7.07, -7.07], abs=0.01)


def test_css_transforms_and_their_origin() -> None:
    """CSS Transforms 1, 6: about the origin."""
    assert ends(LINE.replace("/>", ' style="transform:translate(5px,7px) rotate(90deg)"/>'))[1] == pytest.approx(
        [5, 17]
    )
    body = LINE.replace("/>", ' style="transform-origin:10px 0px" transform="rotate(180)"/>')
    assert ends(body)[0] == pytest.approx([20, 0])
    body = LINE.replace("/>", ' style="transform-origin:center;transform-box:fill-box" transform="rotate(180)"/>')
    assert "origin of its transform" in aside(body).detail


@pytest.mark.parametrize(
    ("transform", "detail"),
    [
        ("rotate(90", "cannot be read"),
        ("turn(90)", "not known"),
        ("rotate(1 2)", "2 figures"),
        ("translate(NaN)", "cannot be read"),
        ("scale(1,0)", "flattens"),
        ("matrix(1 2 2 4 0 0)", "flattens"),
    ],
)
def test_an_object_under_a_broken_transform_is_not_read_where_it_is_not(transform: str, detail: str) -> None:
    found = aside(f'<g transform="{transform}">{LINE}</g>')
    assert found.why == "broken"
    assert detail in found.detail


def test_a_number_beyond_the_limits_in_a_transform_is_refused() -> None:
    with pytest.raises(UnreadableDrawing, match=r"Line 1: a g holds the number 1e400, which is too large"):
        drawing(f'<g transform="scale(1e400)">{LINE}</g>')


def test_a_nested_svg_has_a_viewport_of_its_own() -> None:
    """SVG 1.1, 7.9: x, y, width, height and viewBox set up a new coordinate system."""
    body = f'<svg x="10" y="20" width="50" height="50" viewBox="0 0 10 10">{LINE}</svg>'
    assert ends(body) == [[10, 20], [60, 20]]
    assert ends(f'<svg x="10%" y="5">{LINE}</svg>') == [[10, 5], [20, 5]]


def test_of_a_switch_the_first_child_that_applies_is_read() -> None:
    """SVG 1.1, 5.8.2."""
    body = (
        '<switch><foreignObject requiredExtensions="http://ns.example/"><p/></foreignObject>'
        f'<g systemLanguage="xx">{LINE}</g><g id="yes">{LINE}</g><g>{LINE}</g></switch>'
    )
    found = drawing(body)
    assert [d.above[0].id for d in found.drawn] == ["yes"]
    assert [a.why for a in found.asides] == ["hidden"] * 3


@pytest.mark.parametrize(
    "how",
    [
        'style="display:none"',
        'display="none"',
        'visibility="hidden"',
        'style="visibility:collapse"',
        'requiredExtensions=""',
    ],
)
def test_hidden_groups_are_counted(how: str) -> None:
    found = drawing(f'<g {how}>{LINE}<g>{LINE}<text>a</text><use href="#bar"/></g></g>')
    assert (found.elements, len(found.drawn), {a.why for a in found.asides}) == (4, 0, {"hidden"})


def test_a_child_may_show_itself_in_an_invisible_group() -> None:
    """CSS 2.1, 11.2: visible descendants of a hidden element are visible; of display none, never."""
    shown = LINE.replace("/>", ' visibility="visible"/>')
    assert len(drawing(f'<g visibility="hidden">{shown}</g>').drawn) == 1
    shown = LINE.replace("/>", ' display="inline"/>')
    assert len(drawing(f'<g display="none">{shown}</g>').drawn) == 0


@pytest.mark.parametrize("holder", ["defs", "symbol", "clipPath", "mask", "marker", "pattern"])
def test_what_is_only_kept_for_use_is_not_on_the_page(holder: str) -> None:
    assert drawing(f"<{holder}>{LINE}</{holder}>").elements == 0


def test_a_clip_or_mask_that_goes_in_a_circle_is_no_matter() -> None:
    body = '<clipPath id="a" clip-path="url(#a)"><use href="#b"/></clipPath><mask id="m" mask="url(#m)"/>'
    one = LINE.replace("/>", ' clip-path="url(#a)" mask="url(#m)"/>')
    assert len(drawing(body + one).drawn) == 1


def test_guides_pictures_and_foreign_objects_are_asides() -> None:
    body = (
        '<sodipodi:namedview><sodipodi:guide position="1,2" orientation="0,1"/></sodipodi:namedview>'
        '<image href="data:image/png;base64,AA"/><foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>'
        '<z:path xmlns:z="urn:z" d="M0 0h9"/><rdf:RDF xmlns:rdf="urn:rdf"><rdf:Bag/></rdf:RDF>'
    )
    assert [a.why for a in drawing(body).asides] == ["guide", "image", "foreign", "foreign"]


def test_a_duplicate_id_is_named_where_a_clone_depends_on_it() -> None:
    body = f'{LINE}<circle id="bar" r="5"/><use href="#bar"/>'
    assert "Several objects have the id 'bar'" in drawing(body).notes[0]


def test_the_line_of_a_clone_is_that_of_its_use() -> None:
    found = drawing(f'{LINE}\n\n<use href="#bar"/>').drawn
    assert [d.line for d in found] == [1, 3]


def test_an_object_a_kilometre_off_the_page_is_refused() -> None:
    with pytest.raises(UnreadableDrawing, match=r"Line 1: the path 'far' lies more than a kilometre off the page"):
        drawing(path("M0 0 L1000001 0", id="far"))
    with pytest.raises(UnreadableDrawing, match="kilometre"):
        drawing(f'<g transform="scale(1e8)"><g transform="scale(1e8)">{LINE}</g></g>')


step = st.one_of(
    st.tuples(st.just("translate"), st.floats(-50, 50), st.floats(-50, 50)),
    st.tuples(st.just("rotate"), st.floats(-360, 360)),
    st.tuples(st.just("scale"), st.sampled_from([-2.0, -1.0, 0.5, 3.0]), st.sampled_from([-1.0, 1.0, 2.0])),
    st.tuples(st.just("skewX"), st.floats(-60, 60)),
)


def written(steps: list[tuple[str | float, ...]]) -> list[str]:
    return [f"{name}({' '.join(repr(f) for f in figures)})" for name, *figures in steps]


@settings(max_examples=50, deadline=None)
@given(st.lists(step, min_size=1, max_size=5))
def test_one_list_of_transforms_is_as_many_nested_groups(steps: list[tuple[str | float, ...]]) -> None:
    """SVG 1.1, 7.6: the net effect is as if each transform had been specified separately."""
    each = written(steps)
    nested = "".join(f'<g transform="{one}">' for one in each) + path("M1 2C3 4 5 6 7 8") + "</g>" * len(each)
    listed = path("M1 2C3 4 5 6 7 8", transform=" ".join(each))
    a, b = drawn(nested).chains[0].cubics, drawn(listed).chains[0].cubics
    assert a == pytest.approx(b, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.lists(step, min_size=1, max_size=4), st.floats(-20, 20), st.floats(-20, 20))
def test_a_clone_is_a_copy(steps: list[tuple[str | float, ...]], x: float, y: float) -> None:
    transform = " ".join(written(steps))
    shape = '<path id="p" d="M1 2C3 4 5 6 7 8L9 9" stroke="red"/>'
    cloned = drawing(f'<defs>{shape}</defs><use href="#p" x="{x!r}" y="{y!r}" transform="{transform}"/>')
    copied = drawing(f'<g transform="{transform} translate({x!r} {y!r})">{shape}</g>')
    assert cloned.drawn[0].chains[0].cubics == pytest.approx(copied.drawn[0].chains[0].cubics, abs=1e-6)
    assert cloned.drawn[0].paint == copied.drawn[0].paint


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 2 * math.pi), st.floats(0.1, 10), st.booleans())
def test_a_turned_or_mirrored_arc_keeps_its_shape(turn: float, size: float, mirrored: bool) -> None:
    """Arcs become cubics before they are moved, so a mirror can't turn them the wrong way (F.6 has no mirror)."""
    a, b = size * math.cos(turn), size * math.sin(turn)
    matrix = f"matrix({a!r} {b!r} {b if mirrored else -b!r} {-a if mirrored else a!r} 3 4)"
    cubics = drawn(path("M0 0A30 20 25 1 0 10 15", transform=matrix)).chains[0].cubics
    straight = drawn(path("M0 0A30 20 25 1 0 10 15")).chains[0].cubics
    x = a * straight[..., 0] + (b if mirrored else -b) * straight[..., 1] + 3
    y = b * straight[..., 0] + (-a if mirrored else a) * straight[..., 1] + 4
    assert cubics[..., 0] == pytest.approx(x)
    assert cubics[..., 1] == pytest.approx(y)
