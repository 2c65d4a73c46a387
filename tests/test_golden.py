"""Golden marked-up drawings, one for each rule: the same to the byte, and accepted by eye.

`pytest tests/test_golden.py --accept` writes them anew: look at each that changed before it is committed.
"""

from __future__ import annotations

import difflib
from dataclasses import replace
from pathlib import Path

import pytest

from lint.check import check
from lint.report.markup import markup
from lint.sheet import load_default
from lint.sheet.approved import approved_for
from lint.sheet.sheet import Sheet
from tests.report.pictures import INKSCAPE, saved_by_inkscape

FIXTURES = Path(__file__).parent.parent / "fixtures"
GOLDEN = FIXTURES / "golden"
DRAWINGS = (
    "approval/rivet-moved-after-approval",
    "attachment/frame-fastening-forgotten",
    "balance/one-scroll-higher-than-the-other",
    "clearance/scrolls-run-in-a-millimetre",
    "collars/collar-holds-nothing",
    "dimensions/figures-changed-about",
    "fair-curve/kink-in-the-curl",
    "frame/trapezoid-with-equal-diagonals",
    "frame-joints/no-marks",
    "inside-radius/wider-than-the-bar",
    "layers/doodle-without-a-role",
    "pass-through/pocket-between-scrolls-and-frame",
    "scale/no-size-at-all",
    "scroll-count/curls-too-open",
    "scroll-ends/one-end-twice",
    "scroll-match/eye-three-millimetres-off",
    "square-corners/bent-round-outside",
)


def _sheet(drawing: Path) -> Sheet:
    """The default sheet, with the record kept beside the drawing."""
    return replace(load_default(), approved=approved_for(str(drawing)))


def _marked(name: str) -> bytes:
    drawing = FIXTURES / f"{name}.svg"
    data = drawing.read_bytes()
    return markup(data, check(data, _sheet(drawing), path=drawing.name))


def difference(made: bytes, golden: bytes) -> str:
    """The first lines that differ, or "" where the two are the same to the byte."""
    if made == golden:
        return ""
    lines = difflib.unified_diff(golden.decode().splitlines(), made.decode().splitlines(), "golden", "made", n=0)
    return "\n".join(line[:300] for line, _ in zip(lines, range(20), strict=False)) or "line ends differ"


@pytest.mark.parametrize("name", DRAWINGS)
def test_the_marked_up_drawing_is_the_one_that_was_accepted(name: str, accept: bool) -> None:
    golden, made = GOLDEN / f"{name}.marked.svg", _marked(name)
    if accept:
        golden.parent.mkdir(parents=True, exist_ok=True)
        golden.write_bytes(made)
    assert golden.exists(), f"no golden yet: look at {name}, then run pytest tests/test_golden.py --accept"
    assert not difference(made, golden.read_bytes()), "look at it; pytest tests/test_golden.py --accept keeps it"


def test_the_comparison_can_fail() -> None:
    golden = _marked(DRAWINGS[0])
    at = golden.index(b'cx="') + 4
    digit = b"1" if golden[at : at + 1] != b"1" else b"2"
    changed = golden[:at] + digit + golden[at + 1 :]
    assert difference(golden, golden) == ""
    assert "cx=" in difference(changed, golden)
    assert difference(golden.replace(b"\n", b"\r\n"), golden) == "line ends differ"


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_marked_up_golden_marked_up_again_is_the_same(name: str) -> None:
    once = _marked(name)
    sheet = _sheet(FIXTURES / f"{name}.svg")
    assert markup(once, check(once, sheet, path=f"{Path(name).name}.svg")) == once


@pytest.mark.parametrize("name", DRAWINGS)
def test_checking_a_marked_up_drawing_gives_the_result_of_the_original(name: str) -> None:
    drawing = FIXTURES / f"{name}.svg"
    before = check(drawing.read_bytes(), _sheet(drawing), path=drawing.name)
    after = check(_marked(name), _sheet(drawing), path=drawing.name)
    assert after.results == before.results
    assert after.panel is not None
    assert before.panel is not None
    assert after.panel.digest == before.panel.digest


def test_no_golden_is_left_without_a_drawing() -> None:
    kept = {str(p.relative_to(GOLDEN)).removesuffix(".marked.svg") for p in GOLDEN.rglob("*.svg")}
    assert kept <= set(DRAWINGS)


@pytest.mark.skipif(INKSCAPE is None, reason="no inkscape on this machine")
def test_checking_a_marked_up_drawing_that_an_editor_saved_gives_the_result_of_the_original() -> None:
    drawing = FIXTURES / f"{DRAWINGS[1]}.svg"
    before = check(drawing.read_bytes(), load_default(), path=drawing.name)
    after = check(saved_by_inkscape(_marked(DRAWINGS[1])), load_default(), path=drawing.name)
    assert [(r.rule, r.kind, r.figure) for r in after.results] == [(r.rule, r.kind, r.figure) for r in before.results]
    assert after.panel is not None
    assert before.panel is not None
    assert after.panel.digest == before.panel.digest
