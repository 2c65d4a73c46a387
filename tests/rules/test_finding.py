"""How one result follows from many findings."""

from __future__ import annotations

from lint.result import Kind, Place, Sign
from lint.rules._finding import Figure, Finding, judged
from tests.panel.pages import SHEET

NOTHING = Figure(measured=0.0, required=0.0, unit="mm", asked="nothing")


def found(note: str, measured: float, remedy: str = "Mend it.", sign: Sign = Sign.MEND, unit: str = "mm") -> Finding:
    figure = Figure(measured=measured, required=1.0, unit=unit, asked="at most 1")
    return Finding(place=Place(x=0, y=0, note=note, sign=sign), figure=figure, remedy=remedy)


def test_the_finding_farthest_beyond_its_limit_leads() -> None:
    findings = [found("first", 2.0), found("worst", 7.0, "Mend the worst."), found("last", 3.0)]
    result = judged("clearance", findings, SHEET, stands="", figure=NOTHING)
    assert (result.kind, result.measured, result.remedy) == (Kind.FAIL, 7.0, "Mend the worst.")
    assert result.message == "Worst; first; last."
    assert [place.note for place in result.places] == ["first", "worst", "last"]
    assert [place.remedy for place in result.places] == ["Mend it.", "", "Mend it."]


def test_of_two_alike_the_first_leads() -> None:
    result = judged("clearance", [found("one", 2.0), found("other", 2.0001)], SHEET, stands="", figure=NOTHING)
    assert result.message == "One; other."


def test_figures_in_another_unit_do_not_compare() -> None:
    findings = [found("a kink of 9 degrees", 9.0, unit="deg"), found("a flat of 300 mm", 300.0)]
    assert judged("fair-curve", findings, SHEET, stands="", figure=NOTHING).unit == "deg"


def test_what_must_change_leads_what_is_to_be_looked_at() -> None:
    findings = [found("look", 99.0, sign=Sign.LOOK), found("mend", 2.0)]
    result = judged("clearance", findings, SHEET, stands="", figure=NOTHING)
    assert (result.kind, result.measured, result.message) == (Kind.FAIL, 2.0, "Mend.")
