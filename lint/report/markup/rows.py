"""The table of rules: each with result, figure and what was asked; under it what to change, and its numbers."""

from __future__ import annotations

from lint.report.markup.desk import COLUMN, LINE, Block, Desk
from lint.report.markup.lettering import wrap
from lint.report.markup.numbered import Finding, Found
from lint.report.markup.pen import BLACK, GREY, MEDIUM, PALE, PURPLE, RED, SMALL, THIN, Ink
from lint.report.markup.symbols import balloon, of_result
from lint.result import Kind, Result, Sign
from lint.shown import shown

_RULE, _FIGURE, _ASKED = 6.5, 38.5, 78.0  # where the columns begin, sheet mm
_ROW = 1.5  # above and below a row
_WORDS = {Kind.PASS: "stands", Kind.FAIL: "mend", Kind.REVIEW: "look", Kind.NOT_APPLICABLE: "not judged"}
_INK = {Kind.PASS: BLACK, Kind.FAIL: RED, Kind.REVIEW: PURPLE, Kind.NOT_APPLICABLE: GREY}


def table(results: tuple[Result, ...], found: Found) -> list[Block]:
    """The whole table, one block a row, so that it may run over into another column."""
    blocks = [Block(5.6, "The rules", _heading)]
    for result in results:
        blocks += _row(result, found)
    return blocks


def word(result: Result) -> str:
    """The result in a word."""
    return "waived" if result.waived is not None else _WORDS[result.kind]


def figure_of(result: Result) -> str:
    """What was measured, for people."""
    if result.figure:
        return shown(result.figure)
    if result.measured is None:
        return ""
    return f"{result.measured:.6g} {'' if result.unit == 'count' else result.unit}".strip()


def asked_of(result: Result) -> str:
    """What was required, for people."""
    if result.asked:
        return shown(result.asked)
    if result.required is None:
        return ""
    return f"{result.required:.6g} {'' if result.unit == 'count' else result.unit}".strip()


def _heading(desk: Desk, x: float, y: float) -> str:
    texts = [("rule", _RULE, 28.0), ("measured", _FIGURE, 40.0), ("asked", _ASKED, 40.0)]
    body = "".join(desk.words(t, x + at, y + 4.0, room=room, fill=GREY, height=1.8) for t, at, room in texts)
    return body + desk.rule(x, y + 5.4, COLUMN, Ink(stroke=BLACK, width=MEDIUM))


def _row(result: Result, found: Found) -> list[Block]:
    numbered = found.of(result.rule)
    blocks = [_first(result), *_says(result, bool(numbered))]
    blocks += [_numbered(finding) for finding in numbered]
    more = found.more.get(result.rule, 0)
    if more:
        blocks.append(_plain(f"and {more} more of the same, drawn without a number.", BLACK, result.rule))
    return blocks


def _first(result: Result) -> Block:
    reason = result.kind is Kind.NOT_APPLICABLE
    figure = wrap(shown(result.message, 300), COLUMN - _FIGURE, SMALL) if reason else ()
    figure = figure or wrap(figure_of(result), _ASKED - _FIGURE - 1.5, SMALL)
    asked = () if reason else wrap(asked_of(result), COLUMN - _ASKED, SMALL)
    lines = max(len(figure), len(asked), 1)
    ink = GREY if reason else BLACK
    asks = result.kind in (Kind.FAIL, Kind.REVIEW)

    def draw(desk: Desk, x: float, y: float) -> str:
        body = desk.rule(x, y, COLUMN, Ink(stroke=PALE, width=THIN))
        base = y + _ROW / 2 + 3.3
        body += of_result(desk.pen, desk.at(x + 2.4, base - 1.25), result)
        body += desk.words(result.rule, x + _RULE, base, room=_FIGURE - _RULE - 1, bold=asks, fill=_INK[result.kind])
        return body + desk.lines(figure, x + _FIGURE, base, fill=ink) + desk.lines(asked, x + _ASKED, base, fill=GREY)

    return Block(LINE * lines + _ROW, f"{result.rule}: {word(result)}. {result.message}", draw)


def _says(result: Result, numbered: bool) -> list[Block]:
    """What to change; and the message where no numbers below it say the same."""
    if result.kind not in (Kind.FAIL, Kind.REVIEW):
        return []
    ink = BLACK if result.waived is not None else _INK[result.kind]
    blocks = [] if numbered else [_plain(shown(result.message, 600), ink, result.rule)]
    if result.remedy:
        blocks.append(_plain(shown(result.remedy, 600), BLACK, result.rule))
    if result.waived is not None:
        blocks.append(_plain(f"Waived: {shown(result.waived.reason, 300)}", BLACK, result.rule))
    return blocks


def _plain(text: str, ink: str, title: str) -> Block:
    lines = wrap(text, COLUMN - _RULE, SMALL)

    def draw(desk: Desk, x: float, y: float) -> str:
        return desk.lines(lines, x + _RULE, y + 3.4, fill=ink)

    return Block(LINE * len(lines) + 0.6, title, draw, stays=True)  # 0.6: what hangs below the base line


def _numbered(finding: Finding) -> Block:
    indent = _RULE + 6.5
    lines = wrap(shown(finding.place.note, 200), COLUMN - indent, SMALL)
    mend = wrap(shown(finding.place.remedy, 600), COLUMN - indent, SMALL) if finding.place.remedy else ()
    number, sign = finding.number or 0, finding.place.sign
    ink = RED if sign is Sign.MEND else PURPLE

    def draw(desk: Desk, x: float, y: float) -> str:
        radius = 2.2 if sign is Sign.MEND else 1.9
        ball = balloon(desk.pen, desk.at(x + _RULE + 2.4, y + 2.5), number, sign, radius=radius)
        words = desk.lines(lines, x + indent, y + 3.6, fill=ink)
        return ball + words + desk.lines(mend, x + indent, y + 3.6 + LINE * len(lines), fill=BLACK)

    return Block(max(5.0, LINE * (len(lines) + len(mend)) + 1.0), f"{number}. {finding.place.note}", draw)
