"""Documents that are nearly right: whatever they hold, a Drawing with all accounted for, or one printable sentence."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from xml.sax.saxutils import quoteattr

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lint.drawing import read
from lint.drawing.drawn import Drawing
from lint.drawing.pen import CLOSE
from lint.errors import UnreadableDrawing
from tests.drawing.drawings import along, drawing, drawn, path, svg

Pair = tuple[float, float]
FIXTURES = Path(__file__).parent.parent.parent / "fixtures"

numbers = st.one_of(
    st.floats(-1e4, 1e4).map(repr),
    st.sampled_from(
        ["0", "-0", ".5", "5.", "1e3", "1e-400", "1e400", "NaN", "inf", "1e", "--1", "9" * 70, "", "1 2", "50%", "3mm"]
    ),
)
figures = st.lists(numbers, max_size=8).map(" ".join)
data = st.lists(st.tuples(st.sampled_from("MmLlHhVvCcSsQqTtAaZzXe,"), figures).map("".join), max_size=6).map("".join)
names = st.text(max_size=8)
paints = st.sampled_from(
    ["none", "red", "#f0", "#ff0000", "url(#a)", "url(#", "currentColor", "rgb(1,2", "inherit", ""]
)
transforms = st.lists(
    st.tuples(st.sampled_from(["translate", "rotate", "scale", "matrix", "skewX", "turn", ""]), figures).map(
        lambda t: f"{t[0]}({t[1]})"
    ),
    max_size=3,
).map(" ".join)
styles = st.lists(
    st.tuples(
        st.sampled_from(["fill", "stroke", "stroke-width", "display", "transform", "x"]), st.one_of(paints, numbers)
    ),
    max_size=3,
)
attributes = st.fixed_dictionaries(
    {},
    optional={
        "id": st.sampled_from(["a", "b", "frame", "scroll-1"]),
        "class": names,
        "d": data,
        "points": figures,
        "width": numbers,
        "height": numbers,
        "x": figures,
        "r": numbers,
        "rx": numbers,
        "href": st.sampled_from(["#a", "#b", "#", "x.svg#a", "#frame"]),
        "transform": transforms,
        "stroke": paints,
        "stroke-width": numbers,
        "style": styles.map(lambda pairs: ";".join(f"{k}:{v}" for k, v in pairs)),
        "viewBox": figures,
        "display": st.sampled_from(["none", "inline", ""]),
        "font-size": numbers,
        "preserveAspectRatio": st.sampled_from(["none", "xMidYMid slice", "x"]),
        "requiredExtensions": names,
        "systemLanguage": names,
    },
)
TAGS = [
    "g",
    "path",
    "rect",
    "circle",
    "ellipse",
    "line",
    "polygon",
    "use",
    "text",
    "tspan",
    "svg",
    "symbol",
    "defs",
    "switch",
    "style",
    "title",
    "a",
    "image",
    "linearGradient",
    "foo",
]
text = st.one_of(
    names, st.sampled_from(["a{stroke:red}", "* > g path.a[x='1'], :root{fill:none}", "@media", "{", "4'-0\""])
)


def printed(tag: str, given_: dict[str, str], inside: list[str], words: str) -> str:
    clean = "".join(c for c in words if c.isprintable()).replace("&", "&amp;").replace("<", "&lt;")
    written = " ".join(f"{k}={quoteattr(''.join(c for c in v if c.isprintable()))}" for k, v in given_.items())
    return f"<{tag} {written}>{clean}{''.join(inside)}</{tag}>"


elements: st.SearchStrategy[str] = st.recursive(
    st.builds(printed, st.sampled_from(TAGS), attributes, st.just([]), text),
    lambda inner: st.builds(printed, st.sampled_from(TAGS), attributes, st.lists(inner, max_size=4), text),
    max_leaves=12,
)


def accounted(content: bytes) -> None:
    """Read it: all that was met stands somewhere, every figure is finite, every sentence fit to print."""
    try:
        found = read(content)
    except UnreadableDrawing as caught:
        refused = str(caught)
    else:
        refused = ""
        _checked(found)
    assert refused.isprintable()
    assert not refused or refused.endswith(".")


def _checked(found: Drawing) -> None:
    assert len(found.drawn) + len(found.words) + len(found.asides) == found.elements
    for one in found.drawn:
        assert one.paint.fill or one.paint.stroke
        assert one.paint.width is None or math.isfinite(one.paint.width)
        assert all(np.isfinite(chain.cubics).all() and len(chain.cubics) for chain in one.chains)
    assert all(math.isfinite(v) for word in found.words for v in word.extent)
    assert all(note.isprintable() for note in (*found.notes, *found.active))


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(elements, max_size=4))
@example(
    ['<svg viewBox="0 0 9 9" width="0"><use href="#a"/></svg>', '<symbol id="a"><svg id="b" width="5%"/></symbol>']
)
@example(
    ['<path d="M0 0A1e-300 1e-300 0 1 1 1e8 1e8" stroke="red"/>', '<path d="M0 0A1e8 1e8 0 0 1 1e-9 0" stroke="red"/>']
)
def test_no_document_brings_the_reader_down(body: list[str]) -> None:
    accounted(svg("".join(body)))


@settings(max_examples=50, deadline=None)
@given(st.sampled_from(sorted((FIXTURES / "editors").glob("*.svg"))), st.data())
def test_no_damage_to_a_real_file_brings_the_reader_down(source: Path, drawn_: st.DataObject) -> None:
    """Bytes cut out, doubled, or overwritten anywhere."""
    content = source.read_bytes()
    start = drawn_.draw(st.integers(0, len(content) - 1))
    end = drawn_.draw(st.integers(start, min(len(content), start + 200)))
    put = drawn_.draw(st.one_of(st.just(b""), st.just(content[start:end] * 2), st.binary(max_size=8)))
    accounted(content[:start] + put + content[end:])


@settings(max_examples=30, deadline=None)
@given(st.binary(max_size=200))
@example(b"\x1f\x8b")
@example(b"\xff\xfe<")
@example(b"<?xml version='1.0' encoding='utf-16'?>")
def test_no_bytes_bring_the_reader_down(content: bytes) -> None:
    accounted(content)


@settings(max_examples=50, deadline=None)
@given(data)
def test_path_data_is_read_the_same_again_after_its_error_is_cut_off(written: str) -> None:
    """SVG 1.1, F.2: a path in error is drawn up to the error, so what follows it changes nothing."""
    from lint.drawing.pathdata import commands
    from lint.drawing.values import BadNumber

    try:
        found, fault = commands(written)
    except BadNumber:
        return
    if fault is not None:
        kept, _ = commands(written[: fault.at])
        assert kept == found


# The same panel, drawn otherwise


coordinates = st.tuples(st.floats(-90, 90), st.floats(-90, 90))
curves = st.lists(st.tuples(coordinates, coordinates, coordinates), min_size=1, max_size=5)


def cubic(start: Pair, pieces: Sequence[Sequence[Pair]]) -> str:
    return f"M{start[0]!r} {start[1]!r}" + "".join("C" + " ".join(f"{x!r} {y!r}" for x, y in piece) for piece in pieces)


@settings(max_examples=50, deadline=None)
@given(coordinates, curves)
def test_a_path_drawn_backwards_is_the_same_curve(
    start: tuple[float, float], pieces: list[tuple[tuple[float, float], ...]]
) -> None:
    ends = [start, *(piece[2] for piece in pieces)]
    backwards = [(piece[1], piece[0], ends[n]) for n, piece in reversed(list(enumerate(pieces)))]
    forth, back = drawing(path(cubic(start, pieces))).drawn, drawing(path(cubic(ends[-1], backwards))).drawn
    for one, other in zip(forth, back, strict=True):
        assert along(other.chains[0])[::-1] == pytest.approx(along(one.chains[0]), abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(coordinates, coordinates, coordinates, coordinates, st.floats(0.05, 0.95))
def test_a_curve_split_in_two_is_the_same_curve(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float], t: float
) -> None:
    """de Casteljau's construction."""
    p = [np.array(q) for q in (a, b, c, d)]
    if max(np.abs(q - p[0]).max() for q in p) < 1e-3:
        return
    one = [(1 - t) * p[i] + t * p[i + 1] for i in range(3)]
    two = [(1 - t) * one[i] + t * one[i + 1] for i in range(2)]
    middle = (1 - t) * two[0] + t * two[1]
    split = cubic(a, [(tuple(one[0]), tuple(two[0]), tuple(middle)), (tuple(two[1]), tuple(one[2]), d)]).replace(
        "np.float64", ""
    )
    split = split.replace("(", "").replace(")", "")
    whole = drawn(path(cubic(a, [(b, c, d)]))).chains[0]
    parts = drawn(path(split)).chains[0]
    assert len(parts.cubics) == 2
    s = np.linspace(0, 1, 33)
    joined = along(parts)
    hair = 1e-6 + CLOSE * float(np.ptp(p, axis=0).max())  # ends this near are brought together
    for k, at in enumerate(np.concatenate((s * t, t + s * (1 - t)))):
        on = (1 - at) ** 3 * p[0] + 3 * at * (1 - at) ** 2 * p[1] + 3 * at**2 * (1 - at) * p[2] + at**3 * p[3]
        assert joined[k] == pytest.approx(on, abs=hair)
    assert along(whole)[-1] == pytest.approx(joined[-1], abs=hair)
