"""One line for each finding, for editors and hooks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lint.report.findings import at_of, findings, more, noted, reason, shares, short
from lint.result import Kind, Place, Result
from lint.shown import plain
from lint.verdict import Verdict


def terse(verdicts: Sequence[Verdict]) -> str:
    """`file:line: result rule: message`, one line for each finding (GNU Coding Standards, "Formatting Error
    Messages"); nothing at all for a drawing that has none. The line is 1 where a finding has none."""
    return "".join(f"{line}\n" for verdict in verdicts for line in _terse(verdict))


def _terse(verdict: Verdict) -> Iterator[str]:
    path = plain(verdict.path)
    if verdict.panel is None:
        yield f"{path}:{verdict.line or 1}: unreadable: {short(reason(verdict))}"
        return
    share = shares(verdict.results)
    for result in verdict.results:
        if result.kind in (Kind.FAIL, Kind.REVIEW):
            yield from _terse_result(result, verdict, path, share[result.rule])


def _terse_result(result: Result, verdict: Verdict, path: str, left: int) -> Iterator[str]:
    found = findings(result)
    word = "waived" if result.waived else result.kind.value
    waived = f"Waived: {short(result.waived.reason)}" if result.waived else ""
    if not found:
        yield f"{path}:1: {word} {result.rule}: {short(result.message)} {waived or short(result.remedy)}".rstrip()
    for place in found[:left]:
        said = f"{_finding(place, verdict)} {waived or short(place.remedy or result.remedy)}"
        yield f"{path}:{place.source.line or 1}: {word} {result.rule}: {said}".rstrip()
    if len(found) > left:
        rest = f"{more(len(found) - left)} not listed."
        yield f"{path}:1: {word} {result.rule}: {rest} {short(result.message)}"


def _finding(place: Place, verdict: Verdict) -> str:
    """The note of a place as a sentence, with where it is."""
    x, y = at_of(place, verdict)
    return f"{noted(place)[:-1]}, at {x}, {y} {verdict.sheet.units}."
