"""What a rule is: an id, its own words, and one pure function from panel and sheet to a result."""

from __future__ import annotations

import sys
from collections.abc import Callable

from lint.panel.panel import Panel
from lint.result import Kind, Place, Result, Sign
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Judge = Callable[[Panel, Sheet], Result]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """`id` is the name everywhere; `words` the rule's module docstring under its fixed headings."""

    id: str
    judge: Judge
    words: str

    def __call__(self, panel: Panel, sheet: Sheet) -> Result:
        """Judge one panel. A rule that the sheet switches off does not apply; where no name says what is metal,
        only `layers` is judged."""
        if self.id in sheet.rules_off:
            return not_applicable(self.id, "the sheet does not ask for it")
        if panel.blank and self.id not in ("layers", "approval"):
            return not_applicable(self.id, "no object's name says that it is part of a grille", because="layers")
        return self.judge(panel, sheet)

    def section(self, heading: str) -> str:
        """The text under one heading of the docstring ("Passes when", "Why", "Measured", "Default and its
        source", "Mend"), white space folded; "" where the heading is missing."""
        taking, taken = False, []
        for line in self.words.splitlines():
            if line and not line[0].isspace() and line.rstrip().endswith(":"):
                taking = line.strip(" :\n").casefold() == heading.casefold()
            elif taking:
                taken.append(line.strip())
        return " ".join(word for word in taken if word)


def rule(rule_id: str) -> Callable[[Judge], Rule]:
    """Make a rule of a function; its words are the docstring of the module it stands in."""

    def made(judge: Judge) -> Rule:
        return Rule(id=rule_id, judge=judge, words=sys.modules[judge.__module__].__doc__ or "")

    return made


def not_applicable(rule_id: str, reason: str, because: str | None = None) -> Result:
    """The rule does not apply, or cannot be measured: `reason` starts small and has no full stop; `because`
    is the rule to mend first."""
    first = f" Mend {because} first." if because else ""
    message = f"{reason[0].upper()}{reason[1:]}.{first}"
    return Result(rule=rule_id, kind=Kind.NOT_APPLICABLE, message=message, because=because)


def worst(places: tuple[Place, ...]) -> Kind:
    """The kind that follows from the places: a place to mend fails, a place to look at is a review."""
    signs = {place.sign for place in places}
    if Sign.MEND in signs:
        return Kind.FAIL
    return Kind.REVIEW if Sign.LOOK in signs else Kind.PASS
