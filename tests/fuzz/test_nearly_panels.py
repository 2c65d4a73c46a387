"""Drawings of a grille that are nearly right: whatever one hand or editor changes, there is a verdict in sentences.

`HYPOTHESIS_PROFILE=long pytest tests/fuzz` looks far longer; `tests/fuzz/whole_check.py` goes by coverage.
"""

from __future__ import annotations

import json
import math
import os
from pathlib import Path

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lint.check import check
from lint.report import terminal
from lint.report.as_json import drawing_json
from lint.report.markup import markup
from lint.report.sarif import sarif_results
from lint.result import Kind
from lint.sheet import load_default
from tests.fuzz.changes import changed

FIXTURES = Path(__file__).parents[2] / "fixtures"
SHEET = load_default()
EXAMPLES = 5_000 if os.environ.get("HYPOTHESIS_PROFILE") == "long" else 40
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="340mm" height="300mm" viewBox="0 0 340 300">'

nearly = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
places = st.one_of(st.floats(-20, 360), st.sampled_from([0.0, 36.0, 170.0, 304.0, 1e5, -1e5, 1e-7]))
points = st.tuples(places, places)
widths = st.one_of(st.sampled_from(["0", "0.2", "6", "12", "-1", "400", "1e5", "none"]), st.floats(0, 40).map(str))
METAL = ["frame", "scrolls", "bars", "samples", "scroll 6x12", "scroll outline", "frame: outline", "welds"]
MARKS = [
    "collars",
    "rivets",
    "screws",
    "joints",
    "ends",
    "radius",
    "dimensions",
    "scale",
    "scale 1:4",
    "notes",
    "doodles",
]
layers = st.sampled_from([*METAL, *MARKS])
words = st.sampled_from(["ribbon", "snub", "16 in", "1:4", "R6", "mortise and tenon", "0", "1/0 in", "", "x" * 200])
numbers = st.floats(allow_nan=False, allow_infinity=False, width=32).map(lambda x: f"{x:.6g}")
transforms = st.sampled_from(
    ["", "scale(-1 1)", "scale(1 0)", "rotate(30)", "skewX(40)", "matrix(1 0 0 1 1e5 0)", "scale(1e-6)", "scale(25.4)"]
)


def _path(start: tuple[float, float], rest: list[tuple[str, list[tuple[float, float]]]], closed: bool) -> str:
    data = f"M{start[0]!r} {start[1]!r}"
    for letter, stops in rest:
        data += letter + " ".join(f"{x!r},{y!r}" for x, y in stops)
    return f'd="{data}{"Z" if closed else ""}"'


pieces = st.one_of(
    st.tuples(st.just("L"), st.lists(points, min_size=1, max_size=3)),
    st.tuples(st.just("C"), st.lists(points, min_size=3, max_size=3)),
)
paths = st.builds(_path, points, st.lists(pieces, min_size=0, max_size=6), st.booleans()).map(lambda d: f"<path {d}")
sides = st.floats(0, 300)
circles = st.builds(lambda p, r: f'<circle cx="{p[0]}" cy="{p[1]}" r="{r}"', points, st.floats(0, 90))
boxes = st.builds(
    lambda p, w, h: f'<rect x="{p[0]}" y="{p[1]}" width="{w}" height="{h}"',
    points,
    st.floats(0, 300),
    st.floats(0, 300),
)
texts = st.builds(lambda p, w: f'<text x="{p[0]}" y="{p[1]}" font-size="6">{w}</text>', points, words)
shapes = st.one_of(
    texts,
    st.builds(
        lambda shape, width, filled, moved: (
            f'{shape} transform="{moved}" stroke-width="{width}" '
            f'fill="{"black" if filled else "none"}" stroke="{"none" if width == "none" else "black"}"/>'
        ),
        st.one_of(paths, paths, circles, boxes),
        widths,
        st.booleans(),
        transforms,
    ),
)
groups = st.builds(lambda name, inside: f'<g id="{name}">{"".join(inside)}</g>', layers, st.lists(shapes, max_size=5))


def told(data: bytes) -> None:
    """A verdict, fit to print and to write in every form; marked up, it is the same verdict."""
    verdict = check(data, SHEET, path="nearly.svg")
    said = terminal.one_drawing(verdict)
    assert all(c.isprintable() or c == "\n" for c in said)
    json.dumps(drawing_json(verdict), allow_nan=False)
    sarif_results(verdict)
    if verdict.panel is None:
        assert verdict.error.endswith(".")
        return
    assert [r.message for r in verdict.results if not r.message.endswith(".")] == []
    assert all(r.remedy for r in verdict.results if r.kind in (Kind.FAIL, Kind.REVIEW))
    assert all(math.isfinite(r.measured) for r in verdict.results if r.measured is not None)
    again = check(markup(data, verdict), SHEET, path="nearly.svg")
    assert [(r.rule, r.kind) for r in again.results] == [(r.rule, r.kind) for r in verdict.results]


@nearly
@given(st.lists(groups, max_size=5))
@example(['<g id="frame"></g>'])
@example(['<g id="scrolls"><path d="M0 0L0 0" stroke="black" fill="none"/></g>'])
def test_any_layers_with_any_shapes_get_a_verdict(body: list[str]) -> None:
    told(f"{HEAD}{''.join(body)}</svg>".encode())


@nearly
@given(st.lists(shapes, max_size=6))
def test_a_drawing_that_names_no_part_never_passes(body: list[str]) -> None:
    verdict = check(f"{HEAD}{''.join(body)}</svg>".encode(), SHEET)
    assert verdict.word in ("fail", "unreadable")


@nearly
@given(st.sampled_from([*sorted((FIXTURES / "misses").glob("*.svg")), FIXTURES / "panel.svg"]), st.integers(0, 2**31))
def test_one_thing_changed_in_a_sound_panel_gets_a_verdict(drawing: Path, seed: int) -> None:
    told(changed(drawing.read_bytes(), seed))
