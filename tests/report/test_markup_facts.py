"""Facts on the marked-up drawing: each beside its place, or on the sheet by a letter; none lost, none over words."""

from __future__ import annotations

import itertools
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from lxml import etree

from lint.check import check
from lint.report.markup import markup
from lint.report.markup.chart import Chart
from lint.report.markup.grid import Grid
from lint.report.markup.marks import draw_marks
from lint.report.markup.numbered import collect
from lint.report.markup.pen import Pen
from lint.report.markup.room import Room
from lint.report.markup.sketch import Sketch
from lint.result import Kind, Place, Result, Sign, Spot
from lint.sheet import load_default
from lint.verdict import Verdict
from tests.report.marked_panels import drawing, panel, results, verdict

_SVG = "{http://www.w3.org/2000/svg}"
_ROOT = Path(__file__).parents[2]
_CROWDED = [
    *sorted((_ROOT / "examples").glob("*.svg")),
    _ROOT / "fixtures/attachment/frame-fastening-forgotten.svg",
    _ROOT / "fixtures/clearance/bar-crosses-without-a-joint.svg",
    _ROOT / "fixtures/fair-curve/flat-in-the-curl.svg",
    _ROOT / "fixtures/misses/handle-thrown-far-off.svg",
    _ROOT / "fixtures/scale/paper-at-one-to-five-unsaid.svg",
]


def _with_facts(notes: list[str], places: list[tuple[float, float]]) -> tuple[Result, ...]:
    facts = tuple(Place(x=x, y=y, note=n, sign=Sign.FACT) for n, (x, y) in zip(notes, places, strict=True))
    return (*results(), Result(rule="clearance", kind=Kind.PASS, message="None.", places=facts))


def _said(marked: bytes, layer: str) -> list[str]:
    """The words of each mark of a layer, its lines put together."""
    groups = etree.fromstring(marked).findall(f".//*[@id='lint-{layer}']/{_SVG}g")
    return [" ".join(str(text.text) for text in group.iter(f"{_SVG}text")) for group in groups]


def _apart(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_without_free_room_each_fact_is_told_once_on_the_sheet_by_its_letter() -> None:
    """The whole page is one block of the drawing's own words: no label may stand anywhere."""
    full = verdict()
    assert full.panel is not None
    notes = ["bar-1 and bar-2 touch unfastened", "bar-3 is held at one place only", "bar-4 stands 3 mm out"]
    crowded = replace(
        full,
        panel=replace(full.panel, written=((0.0, 0.0, 340.0, 300.0),)),
        results=_with_facts(notes, [(60.0, 60.0), (170.0, 90.0), (250.0, 200.0)]),
    )
    marked = markup(drawing(), crowded)
    told = [words.partition(" ") for words in _said(marked, "sheet")]
    letters = [next(letter for letter, _, words in told if words == note) for note in notes]
    assert [sum(note in words for _, _, words in told) for note in notes] == [1, 1, 1]
    marks = _said(marked, "facts")
    assert not [words for words in marks if any(note in words for note in notes)]
    assert [marks.count(letter) for letter in letters] == [1, 1, 1]


def test_with_free_room_a_fact_stands_beside_its_place_and_not_on_the_sheet() -> None:
    marked = markup(drawing(), replace(verdict(), results=_with_facts(["a bar of its own"], [(170.0, 90.0)])))
    assert [words for words in _said(marked, "facts") if "a bar of its own" in words] == ["a bar of its own"]
    assert not [words for words in _said(marked, "sheet") if "a bar of its own" in words]


def test_a_fact_of_two_places_has_one_letter_and_one_line() -> None:
    full = verdict()
    assert full.panel is not None
    facts = _with_facts(["bar-1 and bar-2 touch unfastened"] * 2, [(60.0, 60.0), (250.0, 200.0)])
    crowded = replace(full, panel=replace(full.panel, written=((0.0, 0.0, 340.0, 300.0),)), results=facts)
    marked = markup(drawing(), crowded)
    lines = [words for words in _said(marked, "sheet") if "touch unfastened" in words]
    assert len(lines) == 1
    assert _said(marked, "facts").count(lines[0].partition(" ")[0]) == 2


def test_a_fact_too_long_for_a_label_stands_whole_on_the_sheet() -> None:
    note = "the frame and scroll-1 lie over one another, held by rivet-4: the true gap does not show"
    marked = markup(drawing(), replace(verdict(), results=_with_facts([note], [(170.0, 90.0)])))
    assert [words.partition(" ")[2] for words in _said(marked, "sheet") if "lie over" in words] == [note]


def test_facts_beyond_two_dozen_are_counted() -> None:
    notes = [f"bar-{n} hangs loose" for n in range(40)]
    many = _with_facts(notes, [(40.0 + 6 * n, 150.0) for n in range(40)])
    marked = markup(drawing(), replace(verdict(), results=many))
    said = [*_said(marked, "facts"), *_said(marked, "sheet")]
    assert [sum(note in words for words in said) for note in notes] == [1] * 24 + [0] * 16
    assert "16 more facts are drawn without words; the results file lists them." in said


@pytest.mark.parametrize("path", _CROWDED, ids=lambda path: path.stem)
def test_every_fact_of_a_crowded_drawing_is_told(path: Path) -> None:
    """Each place's sentence stands beside it, or once on the sheet: so many labels, or a line."""
    data = path.read_bytes()
    judged = check(data, load_default(), path=path.name)
    marked = markup(data, judged)
    labels, lines = _said(marked, "facts"), [words.partition(" ")[2] for words in _said(marked, "sheet")]
    facts, more = collect(judged.results).worded()
    assert more == 0
    notes = [finding.place.note for finding in facts]
    for note in set(notes):
        assert (labels.count(note), lines.count(note)) in ((notes.count(note), 0), (0, 1)), note


@pytest.mark.parametrize("many", [0, 8])
def test_no_label_or_balloon_covers_the_words_of_the_drawing(many: int) -> None:
    """Words all over the page, 24 mm apart across and 12 mm down."""
    words = tuple((x, y, x + 14.0, y + 4.0) for x in np.arange(2.0, 330.0, 24.0) for y in np.arange(2.0, 290.0, 12.0))
    made = replace(panel(), written=words)
    room = Room((0.0, 0.0, 352.0, 300.0), 1.0)
    draw_marks(Sketch(Pen.of(1.0), Chart.of(made), room, "mm"), made, collect(results(many)))
    assert len(room.boxes) > 8
    assert not [1 for box, word in itertools.product(room.boxes, words) if not _apart(box, word)]


def test_a_leader_goes_round_the_words_where_it_can() -> None:
    room = Room((0.0, 0.0, 100.0, 100.0), 1.0)
    words = (52.0, 0.0, 58.0, 100.0)
    room.words.take_box(words)
    room.metal.take_box((0.0, 0.0, 50.0, 100.0))
    middle = room.place((50.0, 50.0), (6.0, 6.0))
    assert middle is not None
    assert middle[0] < words[0], "beyond the words the page is free, but the leader would strike them out"


def test_the_number_on_a_fastener_lies_under_no_other_mark() -> None:
    at = (43.0, 150.0)
    stands = Place(x=at[0], y=at[1], note="holds two", sign=Sign.STANDS, traces=(Spot(x=at[0], y=at[1]),))
    held = Result(rule="attachment", kind=Kind.PASS, message="All held.", places=(stands,))
    marked = etree.fromstring(markup(drawing(), replace(verdict(), results=(held,))))
    circles = marked.findall(f".//*[@id='lint-stands']//{_SVG}circle")
    assert not [c for c in circles if np.hypot(float(c.get("cx", "0")) - at[0], float(c.get("cy", "0")) - at[1]) < 2.0]


def test_a_sample_says_whether_it_is_of_a_jig_of_the_panel() -> None:
    full = verdict()
    assert full.panel is not None
    for family, said in ((1, "sample: C scroll of jig 1"), (3, "sample: C scroll matches no scroll of the panel")):
        sample = replace(full.panel.scrolls[0], sample=True, family=family)
        judged: Verdict = replace(full, panel=replace(full.panel, samples=(sample,)))
        assert said in _said(markup(drawing(), judged), "facts")


def test_the_share_of_a_box_that_is_taken() -> None:
    """Cells of 1 mm: a box of 10 by 4 that lies half over a taken half of the page."""
    grid = Grid((0.0, 0.0, 40.0, 40.0), 1.0)
    grid.take_box((0.0, 0.0, 19.5, 40.0))
    low, high = (
        np.asarray([[15.2, 10.2], [25.2, 10.2], [2.2, 2.2]]),
        np.asarray([[24.8, 13.8], [34.8, 13.8], [8.8, 8.8]]),
    )
    assert grid.share(low, high).tolist() == [0.5, 0.0, 1.0]
    assert grid.taken(np.asarray([[5.0, 5.0], [30.0, 5.0]])).tolist() == [True, False]
