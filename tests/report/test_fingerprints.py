"""SARIF's fingerprints: a finding is the same one after edits elsewhere (SARIF 2.1.0, partialFingerprints)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from lint.check import check
from lint.result import Sign, Source
from lint.sheet import load_default
from lint.verdict import Verdict
from tests.report.hand_made import failing, panel, place, verdict
from tests.report.sarif_log import REVIEW, run_of


def marks(*verdicts: Verdict) -> list[str]:
    return [result["partialFingerprints"]["object/v1"] for result in run_of(*verdicts)["results"]]


def test_fingerprints_stay_where_the_drawing_changes_elsewhere() -> None:
    before = marks(verdict(failing(place())))
    moved_down = place(source=Source(line=97, id="path12", layer="scrolls"))
    assert marks(verdict(failing(moved_down))) == before  # lines were added above
    other = place(source=Source(line=5, id="path99", layer="scrolls"))
    assert set(before) < set(marks(verdict(failing(other, place()))))  # another finding
    redrawn = place("largest circle 117 mm", x=300.0)
    assert marks(verdict(failing(redrawn))) == before  # the figure changed, the object is the same
    unnamed = place(source=Source(line=9))
    shifted = panel(origin=(110.0, 120.0))
    on_shifted = replace(unnamed, x=unnamed.x + 100, y=unnamed.y + 100, source=Source(line=77))
    assert marks(verdict(failing(unnamed))) == marks(verdict(failing(on_shifted), panel=shifted))


def test_fingerprints_tell_findings_of_one_drawing_apart() -> None:
    here = verdict(
        failing(place(), place(), place(source=Source(id="b")), place(source=Source()), place(x=1.0, source=Source())),
        replace(REVIEW, places=(place(sign=Sign.LOOK),)),
    )
    assert len(set(marks(here))) == 6


def test_fingerprints_of_a_real_drawing_stay_where_it_is_edited_elsewhere() -> None:
    """Lines put in above, a layer of notes added and the colours changed: every finding is still the same one."""
    drawing = (Path(__file__).parents[2] / "examples" / "first-attempt.svg").read_bytes()
    edited = drawing.replace(b"?>", b"?>\n<!-- a word\nof thanks -->\n", 1).replace(b"#8d949b", b"#123456")
    edited = edited.replace(
        b"</svg>", b'<g id="notes"><title>notes</title><path d="M 0,0 h 5" stroke="#000"/></g></svg>'
    )
    runs = [run_of(check(data, load_default(), path="a.svg")) for data in (drawing, edited)]
    before, after = ([result["partialFingerprints"] for result in run["results"]] for run in runs)
    assert len(before) > 5
    assert after == before
    lines = [[r["locations"][0]["physicalLocation"]["region"] for r in run["results"]] for run in runs]
    assert lines[0] != lines[1]
