"""What gets a number: every place that asks something of the reader, in the order of the report.

Forty findings must stay readable: no rule takes more numbers than `most` allows, and the sheet says how many more of
the same are drawn without one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from lint.result import Kind, Place, Result, Sign

_MOST_NUMBERS = 36
_MOST_OF_ONE_RULE = 12
_LEAST_OF_ONE_RULE = 3
_MOST_DRAWN = 150  # places of one sign that are drawn at all
_MOST_WORDED = 24  # facts of the rules that get words
_TOLD = {"layers", "scroll-match", "square-corners"}  # rules whose facts the sheet, corners and samples tell already


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One place of a result. `number` is None where it is drawn without a balloon."""

    result: Result
    place: Place
    number: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """All places: those with a number or of their kind (`asking`), those that stand and those that are facts;
    `more` counts for each rule the places without a number, `undrawn` those not drawn at all."""

    asking: tuple[Finding, ...]
    stands: tuple[Finding, ...]
    facts: tuple[Finding, ...]
    more: dict[str, int]
    undrawn: int

    def of(self, rule: str) -> tuple[Finding, ...]:
        """The numbered findings of one rule."""
        return tuple(f for f in self.asking if f.result.rule == rule and f.number is not None)

    def worded(self) -> tuple[tuple[Finding, ...], int]:
        """The facts that nothing else on the drawing or the sheet tells, and how many more there are."""
        own = [f for f in self.facts if f.result.rule not in _TOLD and not _opening(f)]
        return tuple(own[:_MOST_WORDED]), len(own[_MOST_WORDED:])


def collect(results: tuple[Result, ...]) -> Found:
    """The findings of all results, numbered from 1 in report order."""
    most = _share(results)
    asking: list[Finding] = []
    other: dict[Sign, list[Finding]] = {Sign.STANDS: [], Sign.FACT: []}
    more: dict[str, int] = {}
    number = undrawn = 0
    for result in results:
        given = 0
        for place in sorted(_as_waived(result), key=_first):
            if place.sign in other:
                other[place.sign].append(Finding(result=result, place=place, number=None))
                continue
            if given < most:
                given, number = given + 1, number + 1
                asking.append(Finding(result=result, place=place, number=number))
                continue
            more[result.rule] = more.get(result.rule, 0) + 1
            asking.append(Finding(result=result, place=place, number=None))
    asking.sort(key=lambda finding: finding.number is None)  # what has a number is always drawn
    kept = [tuple(part[:_MOST_DRAWN]) for part in (asking, other[Sign.STANDS], other[Sign.FACT])]
    undrawn = len(asking) + len(other[Sign.STANDS]) + len(other[Sign.FACT]) - sum(map(len, kept))
    return Found(asking=kept[0], stands=kept[1], facts=kept[2], more=more, undrawn=undrawn)


def _opening(finding: Finding) -> bool:
    """Whether a fact is an opening's circle, which stands among the panel's own facts."""
    return finding.result.rule == "pass-through" and bool(finding.place.traces)


def _as_waived(result: Result) -> tuple[Place, ...]:
    """The places of a result; of a waived fail they no longer ask for a change, only for a look."""
    if result.waived is None:
        return result.places
    return tuple(replace(p, sign=Sign.LOOK) if p.sign is Sign.MEND else p for p in result.places)


def _first(place: Place) -> int:
    """Within a rule, what must be mended comes before what must be looked at; the rule's own order stays."""
    return 0 if place.sign is Sign.MEND else 1


def _share(results: tuple[Result, ...]) -> int:
    """How many numbers one rule may take, so that all of them together stay readable."""
    asking = [sum(p.sign in (Sign.MEND, Sign.LOOK) for p in r.places) for r in results if r.kind is not Kind.PASS]
    for most in range(_MOST_OF_ONE_RULE, _LEAST_OF_ONE_RULE, -1):
        if sum(min(n, most) for n in asking) <= _MOST_NUMBERS:
            return most
    return _LEAST_OF_ONE_RULE
