"""Findings: what of a verdict somebody has to mend or look at, and how it is put in words."""

from __future__ import annotations

from collections.abc import Sequence

from lint.lengths import INCH
from lint.result import Kind, Place, Result, Sign
from lint.shown import shown
from lint.verdict import Verdict

MOST = 200  # findings of one drawing
LONGEST = 1000  # characters of a sentence
_WORDS = {Kind.PASS: "pass", Kind.FAIL: "FAIL", Kind.REVIEW: "review", Kind.NOT_APPLICABLE: "not judged"}


def result_word(result: Result) -> str:
    """The word for a result that people read: pass, FAIL, review, waived or not judged."""
    return "waived" if result.waived else _WORDS[result.kind]


def findings(result: Result) -> tuple[Place, ...]:
    """The places of a result that somebody has to mend or look at, in order."""
    return tuple(place for place in result.places if place.sign in (Sign.MEND, Sign.LOOK))


def shares(results: Sequence[Result]) -> dict[str, int]:
    """How many findings of each rule are listed: 200 in all, those that stop the drawing before the others."""
    left, share = MOST, {}
    for result in sorted(results, key=lambda result: not result.stops):
        share[result.rule] = min(left, len(findings(result)))
        left -= share[result.rule]
    return share


def more(number: int) -> str:
    """So many more places, in words."""
    return f"{number} more place{'' if number == 1 else 's'}"


def at_of(place: Place, verdict: Verdict) -> tuple[str, str]:
    """Right and down from the origin, in the sheet's units: a tenth of a mm, a hundredth of an inch."""
    assert verdict.panel is not None
    inches = verdict.sheet.units == "in"
    x, y = (
        f"{length / INCH:.2f}" if inches else f"{length:.1f}"
        for length in verdict.panel.from_origin((place.x, place.y))
    )
    return x, y


def noted(place: Place) -> str:
    """The note of a place as a sentence; an object's id keeps its small letter."""
    note = short(place.note, 200).rstrip(".")
    begins = note.split(" ")[0]
    return f"{note[:1].upper() if begins.isalpha() and begins != place.source.id else note[:1]}{note[1:]}."


def reason(verdict: Verdict) -> str:
    """Why a drawing could not be read, without the line that its sentence may begin with: `verdict.line` has it."""
    words = verdict.error.removeprefix(f"Line {verdict.line}: ")
    return words[:1].upper() + words[1:]


def short(sentence: str, most: int = LONGEST) -> str:
    """A sentence made fit to print, cut where it runs on."""
    return shown(sentence, most)
