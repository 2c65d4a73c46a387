"""The report for people."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from textwrap import wrap

from lint.lengths import say
from lint.report.caution import CAUTION, entrapment
from lint.report.findings import MOST, at_of, findings, more, reason, result_word, shares, short
from lint.report.terse import terse
from lint.result import Place, Result, Sign, Source
from lint.shown import plain, shown
from lint.verdict import Verdict

__all__ = ["closing", "compared", "one_drawing", "report", "terse"]
_NOTES = 20  # of one drawing
_WIDTH = 100
_RED, _YELLOW, _GREEN, _AS_WAS = "\x1b[1;31m", "\x1b[1;33m", "\x1b[1;32m", "\x1b[0m"
_INK = {"FAIL": _RED, "UNREADABLE": _RED, "review": _YELLOW, "REVIEW": _YELLOW, "pass": _GREEN, "PASS": _GREEN}


def report(verdicts: Sequence[Verdict], *, colour: bool = False) -> str:
    """All that was found, for a person: each drawing with its verdict, each rule with figure, limit and mend.

    `colour` adds ANSI colours to the result words; the words themselves carry the meaning. No control
    character of a drawing's own words is in it, and at most 200 findings of one drawing.
    """
    blocks = [one_drawing(verdict, colour=colour) for verdict in verdicts]
    words = [verdict.word for verdict in verdicts]
    return "\n".join((*blocks, closing(words, entrapment(verdicts))))


def one_drawing(verdict: Verdict, *, colour: bool = False) -> str:
    """The part of the report that is one drawing's."""
    return "\n".join(_drawing(verdict, colour)) + "\n"


def compared(verdict: Verdict) -> str:
    """What a comparison of the forged piece found: each group of measures, and every place of it."""
    lines = [f"{plain(verdict.path)}: {'OUTSIDE' if verdict.word == 'fail' else 'WITHIN'}"]
    for result in verdict.results:
        lines += ["", *_result(result, verdict, False, MOST)]
        stands = [place for place in result.places if place.sign is Sign.STANDS]
        lines += [line for place in stands[:MOST] for line in _fold(f"- {short(place.note, 200)}", 14, 2)]
    return "\n".join(lines) + f"\n\n{closing([verdict.word])}"


def closing(words: Sequence[str], trap: str = "") -> str:
    """What stands after the last drawing: how many of each verdict, and the caution. `trap` is the sentence on
    head entrapment, where a drawing has such an opening."""
    caution = "\n".join(_fold(" ".join(filter(None, (trap, CAUTION))), 0)) + "\n"
    return f"{_tally(words)}\n\n{caution}" if len(words) > 1 else caution


def _tally(words: Sequence[str]) -> str:
    counts = Counter(words)
    said = ", ".join(f"{counts[word]} {word}" for word in ("pass", "review", "fail", "unreadable") if counts[word])
    return f"{len(words)} drawings: {said}."


def _drawing(verdict: Verdict, colour: bool) -> Iterator[str]:
    yield f"{plain(verdict.path)}: {_inked(verdict.word.upper(), colour)}"
    if verdict.panel is None:
        yield from _fold(f"Line {verdict.line}: {reason(verdict)}" if verdict.line else verdict.error, 2)
        return
    yield from _summary(verdict.results)
    yield from _head(verdict)
    share = shares(verdict.results)
    for result in verdict.results:
        yield ""
        yield from _result(result, verdict, colour, share[result.rule])
    notes = (*verdict.sheet.warnings, *verdict.panel.notes)
    for note in notes[:_NOTES]:
        yield from ("", *_fold(f"Note: {short(note)}", 2))
    if len(notes) > _NOTES:
        yield from ("", f"  Note: {len(notes) - _NOTES} more notes are not listed.")
    if verdict.active:
        yield from ("", *_fold(f"Note: the drawing holds what a marked-up copy leaves out: {_row(verdict.active)}.", 2))


def _summary(results: Sequence[Result]) -> Iterator[str]:
    """Which rules want something, before all else."""
    for word, wanted in (("To mend", "FAIL"), ("To look at", "review"), ("Waived", "waived")):
        rules = [result.rule for result in results if result_word(result) == wanted]
        if rules:
            yield from _fold(f"{word}: {', '.join(rules)}.", 2)


def _head(verdict: Verdict) -> Iterator[str]:
    """Title, scale and true size, and what it was held to."""
    panel, sheet = verdict.panel, verdict.sheet
    assert panel is not None
    title = f"{shown(panel.title).rstrip('.')}. " if panel.title else ""
    yield from _fold(f"{title}{_scale(verdict)}", 2)
    path = f" ({plain(sheet.path)})" if sheet.path else ""
    limit = say(sheet.pass_through.sphere, sheet.units)
    yield from _fold(f"Sheet {shown(sheet.name)}{path}; openings are held to a ball of {limit}.", 2)
    where = "frame's" if panel.frame is not None else "page's"
    units = "inches" if sheet.units == "in" else "mm"
    yield from _fold(f"Places are given in {units}, right and down from the {where} upper left corner.", 2)


def _scale(verdict: Verdict) -> str:
    panel, units = verdict.panel, verdict.sheet.units
    assert panel is not None
    if not panel.scale.known:
        why = "The statements of size contradict one another" if panel.scale.sources else "No scale is stated"
        return f"{why}, so no length is judged."
    says = shown(panel.scale.sources[0].says) if panel.scale.sources else ""
    scale = f"Scale: {says} ({shown(panel.scale.by)})." if says else f"Scale from {shown(panel.scale.by)}."
    if panel.frame is None or panel.frame.outside is None:
        return f"{scale} No closed frame to give the true size of."
    wide, high = (say(length, units) for length in panel.frame.outside)
    return f"{scale} True size of the frame: {wide} wide, {high} high."


def _result(result: Result, verdict: Verdict, colour: bool, left: int) -> Iterator[str]:
    asked = f" (asked: {plain(result.asked)})" if result.asked else ""
    word = result_word(result)
    ink = _inked(word, colour) + " " * (10 - len(word))
    yield f"  {ink}  {result.rule:<14}  {plain(result.figure)}{asked}".rstrip()
    yield from _fold(short(result.message), 14)
    if result.waived:
        yield from _fold(f"Waived by {plain(result.waived.sheet)}: {short(result.waived.reason)}", 14)
    if result.remedy:
        yield from _fold(f"Mend: {short(result.remedy)}", 14)
    found = findings(result)
    for number, place in enumerate(found[:left], 1):
        yield from _fold(f"{number}. {_place(place, verdict)}", 14, 3)
        if place.remedy:
            yield from _fold(f"Mend: {short(place.remedy)}", 17)
    if len(found) > left:
        yield f"{'':14}and {more(len(found) - left)}."


def _place(place: Place, verdict: Verdict) -> str:
    x, y = at_of(place, verdict)
    return f"at {x}, {y}: {short(place.note, 200)}{_source(place.source)}"


def _source(source: Source) -> str:
    said = (
        f"line {source.line}" if source.line else "",
        shown(source.id) if source.id else "",
        f"layer {shown(source.layer)}" if source.layer else "",
    )
    words = ", ".join(filter(None, said))
    return f" ({words})" if words else ""


def _inked(word: str, colour: bool) -> str:
    return f"{_INK[word]}{word}{_AS_WAS}" if colour and word in _INK else word


def _row(words: Sequence[str]) -> str:
    rest = f", and {len(words) - 5} more" if len(words) > 5 else ""
    return ", ".join(shown(word) for word in words[:5]) + rest


def _fold(text: str, indent: int, hang: int = 0) -> list[str]:
    margin = " " * indent
    return wrap(
        plain(text), _WIDTH, initial_indent=margin, subsequent_indent=margin + " " * hang, break_on_hyphens=False,
        break_long_words=False,
    )  # fmt: skip
