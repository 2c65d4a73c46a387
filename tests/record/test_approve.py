"""The approval record: what keeps it, and what does not."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from lint.commands._job import Wanted, verdict_on
from lint.errors import BadRecord, Refused
from lint.record.approve import approve
from lint.report.markup import markup
from lint.result import Kind, Result
from lint.sheet.approved import approved_for, read_record, record_path

ROOT = Path(__file__).parent.parent.parent
PANEL = (ROOT / "fixtures" / "panel.svg").read_text()


@pytest.fixture
def approved(tmp_path: Path) -> Path:
    """A drawing with its record beside it."""
    drawing = tmp_path / "side-gate.svg"
    drawing.write_text(PANEL)
    record = approve(verdict_on(str(drawing), Wanted()), by="R. Mellor", on="2026-11-20")
    Path(record_path(str(drawing))).write_text(record)
    return drawing


def ruling(drawing: Path) -> Result:
    return next(result for result in verdict_on(str(drawing), Wanted()).results if result.rule == "approval")


COSMETIC: dict[str, Callable[[str], str]] = {
    "colours": lambda svg: svg.replace("#8d949b", "#404040"),
    "ids": lambda svg: re.sub(r'id="(scroll|rivet|collar|frame|end|size)-(\d)"', r'id="z\2-\1"', svg),
    "layers by a synonym": lambda svg: svg.replace('label="collars"', 'label="Bands"').replace('"ends"', '"finials"'),
    "two decimals": lambda svg: re.sub(r"(\d+\.\d{2})\d+", r"\1", svg),
    "a comment": lambda svg: svg.replace("<title>", "<!-- seen --><title>"),
    "the order of objects": lambda svg: re.sub(
        r'(?s)(    <path id="scroll-1".*?/>\n)(    <path id="scroll-2".*?/>\n)', r"\2\1", svg
    ),
    "a note": lambda svg: svg.replace("</svg>", '<g id="notes"><text x="5" y="5">see me</text></g></svg>'),
}


@pytest.mark.parametrize("change", COSMETIC)
def test_a_change_of_looks_keeps_the_approval(approved: Path, change: str) -> None:
    altered = COSMETIC[change](PANEL)
    assert altered != PANEL
    approved.write_text(altered)
    assert ruling(approved).kind is Kind.PASS


def test_a_marked_up_copy_keeps_the_approval(approved: Path) -> None:
    approved.write_bytes(markup(PANEL.encode(), verdict_on(str(approved), Wanted())))
    assert ruling(approved).kind is Kind.PASS


def _shift_scroll(svg: str) -> str:
    return svg.replace('<path id="scroll-2"', '<path transform="translate(0.4 4.2)" id="scroll-2"')


CHANGES = {
    "a scroll": (_shift_scroll, r"scroll 2 moved 4\.2 mm"),
    "an inside radius": (lambda svg: re.sub(r'<path id="radius-2".*?/>', "", svg), r"inside radius 6 -> 0"),
    "an end": (lambda svg: svg.replace(">bolt end<", ">leaf<"), r"bolt end -> leaf"),
    "a rivet": (lambda svg: re.sub(r'<circle id="rivet-3".*?/>', "", svg), r"rivet \d is gone"),
    "a stated size": (lambda svg: svg.replace(">280<", ">281<"), r"stated length 280 -> 281"),
    "the bar": (lambda svg: svg.replace('stroke-width="6"', 'stroke-width="6.5"'), r"width 6 -> 6\.5"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_of_metal_or_marks_says_what_moved_and_by_how_much(approved: Path, change: str) -> None:
    alter, words = CHANGES[change]
    altered = alter(PANEL)
    assert altered != PANEL
    approved.write_text(altered)
    found = ruling(approved)
    assert found.kind is Kind.FAIL
    assert re.search(words, found.message), found.message


def test_another_sheet_ends_the_approval(approved: Path) -> None:
    (approved.parent / "requirements.toml").write_text('based_on = "two-corner-panel"\n[scroll_ends]\nleast = 3\n')
    assert "another requirement sheet" in ruling(approved).message


def test_a_new_approval_keeps_the_earlier_ones(approved: Path) -> None:
    approved.write_text(_shift_scroll(PANEL).replace("0.4 4.2", "0 0.2"))
    record = approve(verdict_on(str(approved), Wanted()), by="R. Mellor", on="2026-11-24")
    Path(record_path(str(approved))).write_text(record)
    held = approved_for(str(approved))
    assert held is not None
    assert [(revision.number, revision.on) for revision in held.revisions] == [(1, "2026-11-20"), (2, "2026-11-24")]
    assert ruling(approved).kind is Kind.PASS


def test_a_drawing_that_is_approved_as_it_is_gets_no_second_revision(approved: Path) -> None:
    with pytest.raises(Refused, match="approved as it is"):
        approve(verdict_on(str(approved), Wanted()), by="R. Mellor", on="2026-11-24")


def test_a_drawing_that_fails_is_not_approved(tmp_path: Path) -> None:
    drawing = tmp_path / "gate.svg"
    drawing.write_text(re.sub(r'<rect id="collar-1".*?/>', "", PANEL))
    with pytest.raises(Refused, match="fails collars"):
        approve(verdict_on(str(drawing), Wanted()), by="R. Mellor", on="2026-11-24")


def test_a_waived_fail_is_approved_and_recorded(tmp_path: Path) -> None:
    drawing = tmp_path / "gate.svg"
    drawing.write_text(re.sub(r'<rect id="collar-1".*?/>', "", PANEL))
    (tmp_path / "requirements.toml").write_text(
        'based_on = "two-corner-panel"\n[[waive]]\ndrawing = "gate.svg"\nrule = "collars"\nreason = "riveted pair"\n'
    )
    record = tomllib.loads(approve(verdict_on(str(drawing), Wanted()), by="R. Mellor", on="2026-11-24"))
    assert record["revision"][0]["waiver"] == [{"rule": "collars", "reason": "riveted pair"}]


def test_a_missing_record_fails_only_where_one_is_asked_for(tmp_path: Path) -> None:
    drawing = tmp_path / "gate.svg"
    drawing.write_text(PANEL)
    assert ruling(drawing).kind is Kind.NOT_APPLICABLE
    results = verdict_on(str(drawing), Wanted(approved=True)).results
    assert next(result for result in results if result.rule == "approval").kind is Kind.FAIL


def test_an_approval_needs_a_name(approved: Path) -> None:
    verdict = verdict_on(str(approved), Wanted())
    with pytest.raises(Refused, match="--by NAME"):
        approve(replace(verdict, sheet=replace(verdict.sheet, approved=None)), by="  ", on="2026-11-24")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "version = 2",
        'version = 1\ndrawing = "a.svg"',
        'version = 1\ndrawing = "a.svg"\nrevision = 3',
        'version = 1\ndrawing = "a.svg"\n[[revision]]\nnumber = "one"',
    ],
)
def test_a_record_that_is_none_is_refused_with_its_path_and_key(text: str) -> None:
    with pytest.raises(BadRecord, match=r"^gate\.approval\.toml"):
        read_record(tomllib.loads(text), "gate.approval.toml")
