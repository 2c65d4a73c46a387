"""What a rule found at one place, and the one result that follows from all that it found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from lint.lengths import say
from lint.result import Kind, Place, Result, Sign
from lint.rules._rule import worst
from lint.sheet.sheet import Sheet
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A measured and a required value in `unit` ("mm", "deg", "count", ""), and the words for what is asked; `said` is
    the measured value in words where the bare number says too little."""

    measured: float | None
    required: float | None
    unit: str
    asked: str
    said: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A place, the figure that condemns it and what to change in the drawing; a place that stands needs neither."""

    place: Place
    figure: Figure | None = None
    remedy: str = ""


def judged(
    rule_id: str, findings: Sequence[Finding], sheet: Sheet, *, stands: str, figure: Figure, also: str = ""
) -> Result:
    """The result of all findings: of the gravest the one farthest beyond its limit gives figure and remedy, and begins
    the message with two more; a place whose remedy is another keeps its own.

    `stands` is the message where all is well and `figure` the figure then; `also` is said in any case.
    """
    kind = worst(tuple(finding.place for finding in findings))
    gravest = {Kind.FAIL: Sign.MEND, Kind.REVIEW: Sign.LOOK}.get(kind)
    grave = [finding for finding in findings if finding.place.sign is gravest]
    farthest = max(grave, key=_beyond(grave), default=None)
    grave.sort(key=lambda finding: finding is not farthest)
    shown = next((f.figure for f in grave if f.figure), figure)
    said = _sentence([finding.place for finding in grave]) if grave else stands
    remedy = grave[0].remedy if grave else ""
    return Result(
        rule=rule_id,
        kind=kind,
        message=f"{said} {also}".strip(),
        remedy=remedy,
        measured=shown.measured,
        required=shown.required,
        unit=shown.unit,
        figure=shown.said or spoken(shown.measured, shown.unit, sheet, beside=shown.required),
        asked=shown.asked,
        places=tuple(_with_remedy(finding, remedy) for finding in findings),
    )


def _beyond(findings: Sequence[Finding]) -> Callable[[Finding], float]:
    """How far a finding is beyond its limit, of those with a figure in the unit of the first."""
    unit = findings[0].figure.unit if findings and findings[0].figure else None

    def far(finding: Finding) -> float:
        figure = finding.figure
        if figure is None or figure.unit != unit or figure.measured is None or figure.required is None:
            return -1.0
        return round(abs(figure.measured - figure.required), 3)  # of two alike the first

    return far


def _with_remedy(finding: Finding, said: str) -> Place:
    own = finding.place.sign in (Sign.MEND, Sign.LOOK) and finding.remedy != said
    return replace(finding.place, remedy=finding.remedy) if own else finding.place


def spoken(value: float | None, unit: str, sheet: Sheet, *, beside: float | None = None) -> str:
    """A figure with its unit, for people."""
    if value is None:
        return ""
    if unit == "mm":
        return say(value, sheet.units, beside)
    return f"{value:.1f}°" if unit == "deg" else f"{value:g}"


def _sentence(places: Sequence[Place]) -> str:
    more = f"; and {len(places) - 3} more" if len(places) > 3 else ""
    text = "; ".join(place.note for place in places[:3]) + more
    # A name keeps its own small letter: "scroll-1" is what the reader looks for in the drawing.
    first = text.split(" ")[0].rstrip(";.")
    return (f"{text[0].upper()}{text[1:]}" if first.isalpha() and first != places[0].source.id else text) + "."
