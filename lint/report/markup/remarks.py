"""The sheet's other words: the verdict on top, what was read and measured, what the signs mean, what was left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Frame, Unread
from lint.report.markup import symbols
from lint.report.markup.desk import COLUMN, LINE, Block, Desk
from lint.report.markup.facts import named
from lint.report.markup.lettering import wrap
from lint.report.markup.numbered import Found
from lint.report.markup.pen import BLUE, DARK, HEAD, PURPLE, RED, SMALL
from lint.report.rule_words import sentence
from lint.result import Kind
from lint.shown import shown
from lint.verdict import Verdict

_MOST_LISTED = 8
_HEADS = {
    "fail": ("Mend and send again", symbols.stop, RED),
    "review": ("A person must look", symbols.question, PURPLE),
    "pass": ("Nothing to mend", symbols.tick, DARK),
}


def head(verdict: Verdict) -> Block:
    """The verdict in large letters, and the count of each result."""
    words, symbol, ink = _HEADS[verdict.word]
    count = Counter(r.kind for r in verdict.results if r.waived is None)
    waived = sum(r.waived is not None for r in verdict.results)
    counts = [
        f"{count[kind]} {name}"
        for kind, name in (
            (Kind.FAIL, "to mend"),
            (Kind.REVIEW, "to look at"),
            (Kind.PASS, "checked and right"),
            (Kind.NOT_APPLICABLE, "not judged"),
        )
        if count[kind]
    ]
    text = ", ".join(counts + ([f"{waived} waived"] if waived else []))
    lines = wrap(f"Of {len(verdict.results)} rules: {text}.", COLUMN - 10, SMALL)

    def draw(desk: Desk, x: float, y: float) -> str:
        body = symbol(desk.pen, desk.at(x + 4.0, y + 4.6), 3.4)
        body += desk.words(words, x + 10, y + 7.0, room=COLUMN - 10, height=HEAD, bold=True, fill=ink)
        return body + desk.lines(lines, x + 10, y + 12.6)

    return Block(12.0 + LINE * len(lines), f"{words}: {text}", draw)


def facts(panel: Panel, units: str) -> list[Block]:
    """What was read and measured, a line each."""
    lines = [
        *_frame_lines(panel.frame, units, panel.scale.known),
        *_scroll_lines(panel, units),
        *_other_lines(panel, units),
    ]
    return _section("On this drawing", lines)


def notes(panel: Panel, found: Found, left_out: dict[str, int], apart: Sequence[str]) -> list[Block]:
    """The facts that stand `apart` from their place, by their letters; what was not read, what was left out of the
    copy, and what else the reader should know and no number tells."""
    lines = []
    if left_out:
        parts = ", ".join(f"{count} × {shown(word)}" if count > 1 else shown(word) for word, count in left_out.items())
        lines.append(f"Left out of this copy, for it was active content: {parts}.")
    if panel.crossings:
        lines.append("Bars lie over one another: a front view cannot show the true gap there.")
    numbered = {finding.place.note for finding in found.asking if finding.number}
    strays = [stray.sentence for stray in panel.strays if stray.sentence not in numbered]
    unread = [unread for unread in panel.unread if unread.hidden or not found.of("layers")]
    lines += _some([_unread(objects) for objects in unread], "layers with objects not read")
    lines += _some([sentence(shown(words, 300)) for words in (*panel.notes, *strays)], "notes")
    for more, what in ((found.worded()[1], "facts are drawn without words"), (found.undrawn, "places are not drawn")):
        if more:
            lines.append(f"{more} more {what}; the results file lists them.")
    return _section("Notes", lines, [_lettered(turn, words) for turn, words in enumerate(apart)])


def _some(lines: list[str], what: str) -> list[str]:
    """As many lines as the sheet has room for, and the count of the rest."""
    rest = len(lines) - _MOST_LISTED
    return [*lines[:_MOST_LISTED], *([f"{rest} more {what}."] if rest > 0 else [])]


def _unread(unread: Unread) -> str:
    state = "hidden" if unread.hidden else "not read"
    return f"{_counted(unread.objects, 'object')} {state} on “{shown(unread.layer or 'no layer', 40)}”."


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _lettered(turn: int, words: str) -> Block:
    """A fact by the letter that stands at its place."""
    lines = wrap(words, COLUMN - 6.5, SMALL)

    def draw(desk: Desk, x: float, y: float) -> str:
        return symbols.letter(desk.pen, desk.at(x + 2.4, y + 2.3), turn) + desk.lines(
            lines, x + 6.5, y + 3.2, fill=BLUE
        )

    return Block(max(5.0, LINE * len(lines) + 1.0), words, draw)


def _frame_lines(frame: Frame | None, units: str, known: bool) -> list[str]:
    if frame is None:
        return ["No frame was found."]
    if not known:
        return [] if frame.closed else ["The frame does not close."]
    parts = []
    for name, pair in (("outside", frame.outside), ("inside", frame.inside)):
        if pair:
            parts.append(f"{name} {say(pair[0], units)} × {say(pair[1], units)}")
    if frame.bar_width:
        parts.append(f"bar {say(frame.bar_width, units)}")
    if frame.diagonals:
        parts.append(f"diagonals {say(frame.diagonals[0], units)} and {say(frame.diagonals[1], units)}")
    return [f"Frame: {', '.join(parts)}."] if parts else []


def _scroll_lines(panel: Panel, units: str) -> list[str]:
    lines = []
    kinds = Counter(scroll.kind for scroll in panel.scrolls)
    if kinds:
        words = ", ".join(f"{kinds[k]} {name}" for k, name in (("C", "C"), ("S", "S"), ("other", "other")) if kinds[k])
        samples = f"; {_counted(len(panel.samples), 'sample')}" if panel.samples else ""
        jigs = f"; one jig for each family, {len(panel.families)} in all" if panel.families else ""
        lines.append(f"Scrolls: {words}{samples}{jigs}.")
    for family in panel.families[:_MOST_LISTED]:
        names = ", ".join(named(panel, s.bar.id) for s in family[:4]) + (
            f" and {len(family) - 4} more" if len(family) > 4 else ""
        )
        long = f", length {say(family[0].bar.line.length, units)}" if panel.scale.known else ""
        lines.append(f"Jig {family[0].family}: {names}{long}.")
    more = len(panel.families) - _MOST_LISTED
    return [*lines, f"{more} more jigs; the results file lists them."] if more > 0 else lines


def _other_lines(panel: Panel, units: str) -> list[str]:
    lines = []
    kinds = Counter(f.kind for f in panel.fasteners)
    if kinds:
        lines.append("Fasteners: " + ", ".join(_counted(n, kind) for kind, n in sorted(kinds.items())) + ".")
    ends = Counter(end.name for scroll in (*panel.scrolls, *panel.samples) for end in scroll.ends)
    if ends:
        said = [f"{count} {shown(name or 'without a name', 40)}" for name, count in ends.most_common()]
        rest = sum(ends.values()) - sum(n for _, n in ends.most_common(_MOST_LISTED))
        lines.append(f"Ends: {', '.join([*said[:_MOST_LISTED], *([f'{rest} others'] if rest else [])])}.")
    if panel.openings and panel.scale.known:
        widest = max(o.diameter for o in panel.openings)
        lines.append(f"Openings: {len(panel.openings)}; the widest takes a circle of {say(widest, units)}.")
    return lines


def _section(name: str, lines: Sequence[str], before: Sequence[Block] = ()) -> list[Block]:
    """A heading with its lines, and what stands `before` them; nothing where there is neither."""
    blocks = [*before, *(_line(name, wrap(line, COLUMN, SMALL)) for line in lines)]
    if not blocks:
        return []
    heading = Block(5.8, name, lambda desk, x, y: _title(desk, x, y, name))
    foot = Block(2.0, name, lambda desk, x, y: "", stays=True)
    return [heading, replace(blocks[0], stays=True), *blocks[1:], foot]


def _line(name: str, lines: tuple[str, ...]) -> Block:
    return Block(LINE * len(lines), name, lambda desk, x, y: desk.lines(lines, x, y + 3.0))


def _title(desk: Desk, x: float, y: float, words: str) -> str:
    return desk.words(words, x, y + 4.2, room=COLUMN, height=SMALL, bold=True)
