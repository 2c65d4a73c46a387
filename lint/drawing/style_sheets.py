"""`<style>` sheets: rules, the selectors seen in drawings, and which rules fit an element."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from lxml import etree

from lint.drawing.properties import PARSERS
from lint.drawing.selectors import Compound, at_commas, related, specificity, steps_of
from lint.errors import UnreadableDrawing
from lint.values import dataclass

LONGEST = 1_000_000  # characters of all sheets together, pictures and fonts packed in them left out
MOST_SELECTORS = 20_000
MOST_STEPS = 1_000_000  # selector steps tried on elements; a real drawing needs some thousands
DEEPEST = 40  # blocks in blocks

Declaration = tuple[str, str, bool]  # property, text, important


@dataclass(frozen=True, slots=True)
class Rule:
    """A selector's steps from the last to the first, with its declarations; `weight` orders the cascade."""

    steps: tuple[Compound, ...]
    weight: tuple[int, int, int, int]
    declarations: tuple[Declaration, ...]


class Sheets:
    """All rules of the drawing, found by the id, class or tag of the selector's last step."""

    def __init__(self) -> None:
        self.by_key: dict[str, list[Rule]] = {}
        self.selectors = 0
        self.length = 0
        self.steps = 0
        self.notes: dict[str, None] = {}

    def add(self, text: str, line: int) -> None:
        """Takes in one sheet. Raises UnreadableDrawing where it is larger than any drawing needs."""
        import tinycss2  # type: ignore[import-untyped]  # only drawings with a sheet need it

        text = _without_data(text)
        self.length += len(text)
        if self.length > LONGEST or text.count("{") > MOST_SELECTORS or nesting(text) > DEEPEST:
            raise UnreadableDrawing(
                f"Line {line}: the style sheet in the drawing is too large or too deep to follow. "
                "Save the drawing with its styles on the objects (presentation attributes).",
                line=line,
            )
        self._take(tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True), line)

    def _take(self, nodes: Iterable[Any], line: int) -> None:
        import tinycss2

        for node in nodes:
            if node.type == "qualified-rule":
                declared = declarations(node.content)
                if declared:
                    self._keep(node.prelude, declared, line)
            elif node.type == "at-rule" and node.lower_at_keyword == "media":
                media = tinycss2.serialize(node.prelude).lower()
                if node.content and ("all" in media or "screen" in media or not media.strip()):
                    self._take(tinycss2.parse_rule_list(node.content, skip_comments=True, skip_whitespace=True), line)
                else:
                    self.notes[f"Styles for other media ({media.strip()[:40]}, line {line}) were passed over."] = None
            elif node.type == "at-rule" and node.lower_at_keyword == "import":
                self.notes[f"A style sheet outside the drawing (line {line}) was not fetched."] = None

    def _keep(self, prelude: list[Any], declared: tuple[Declaration, ...], line: int) -> None:
        for tokens in at_commas(prelude):
            self.selectors += 1
            if self.selectors > MOST_SELECTORS:
                raise UnreadableDrawing(
                    f"Line {line}: the style sheet has more than {MOST_SELECTORS:,} selectors. "
                    "Save the drawing with its styles on the objects (presentation attributes).",
                    line=line,
                )
            steps = steps_of(tokens)
            if steps is None:
                self.notes[f"A style rule of line {line} has a selector that is not followed here."] = None
                continue
            last = steps[-1]
            key = f"#{last.id}" if last.id else f".{last.classes[0]}" if last.classes else last.tag or "*"
            rule = Rule(tuple(reversed(steps)), (*specificity(steps), self.selectors), declared)
            self.by_key.setdefault(key, []).append(rule)

    def fitting(self, element: etree._Element) -> list[Rule]:
        """The rules that fit, weakest first."""
        keys = ["*", str(element.tag).rpartition("}")[2]]
        if id_ := element.get("id"):
            keys.append("#" + id_)
        if classes := element.get("class"):
            keys += ["." + word for word in dict.fromkeys(classes.split())]
        found = [rule for key in keys for rule in self.by_key.get(key, ()) if self._fits(rule.steps, element)]
        return sorted(found, key=lambda rule: rule.weight)

    def _fits(self, steps: tuple[Compound, ...], element: etree._Element) -> bool:
        """Backtracking over ancestors, kept to a budget for the whole drawing."""
        waiting = [(0, element)]
        self.steps += 1
        while waiting:
            if self.steps > MOST_STEPS:
                raise UnreadableDrawing(
                    "The style sheet in the drawing is too involved to follow. "
                    "Save the drawing with its styles on the objects (presentation attributes)."
                )
            index, at = waiting.pop()
            if not steps[index].fits(at):
                continue
            if index + 1 == len(steps):
                return True
            waiting += [(index + 1, other) for other in related(at, steps[index].combinator)]
            self.steps += len(waiting)
        return False


def _without_data(text: str) -> str:
    """The sheet without the fonts and pictures packed in it."""
    kept: list[str] = []
    at = 0
    while (start := text.find("data:", at)) >= 0:
        end = text.find(")", start)
        if end < 0:
            break
        kept.append(text[at:start])
        at = end
    return "".join((*kept, text[at:]))


def nesting(text: str) -> int:
    """How deep brackets of any kind stand in one another."""
    depth = deepest = 0
    for c in text:
        if c in "{[(":
            depth += 1
            deepest = max(deepest, depth)
        elif c in "}])":
            depth -= 1
    return deepest


def declarations(content: Any) -> tuple[Declaration, ...]:
    """The declarations of a block (tokens or text) that a drawing is read by."""
    import tinycss2

    found = []
    for node in tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True):
        if node.type == "declaration" and node.lower_name in PARSERS:
            found.append((node.lower_name, tinycss2.serialize(node.value).strip(), node.important))
    return tuple(found)
