"""Selectors as drawings have them: type, class, id, attribute, and the four combinators."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from lxml import etree


@dataclass(slots=True)
class Compound:
    """One step of a selector: `path.str0#a[x=y]`, and how it hangs on the step before it."""

    combinator: str = " "  # " ", ">", "+" or "~"
    tag: str = ""
    id: str = ""
    classes: list[str] = field(default_factory=list)
    attributes: list[tuple[str, str, str]] = field(default_factory=list)
    root: bool = False

    def fits(self, element: etree._Element) -> bool:
        """Whether the element is what this step alone asks for."""
        if self.tag and str(element.tag).rpartition("}")[2] != self.tag:
            return False
        if self.id and element.get("id") != self.id:
            return False
        if self.root and element.getparent() is not None:
            return False
        if self.classes and not set((element.get("class") or "").split()).issuperset(self.classes):
            return False
        return all(_attribute_fits(element, *wanted) for wanted in self.attributes)


# CSS Selectors 3, 6.3.
_ATTRIBUTE_TESTS: dict[str, Callable[[str, str], bool]] = {
    "": lambda text, value: True,
    "=": lambda text, value: text == value,
    "~=": lambda text, value: value in text.split(),
    "|=": lambda text, value: text == value or text.startswith(value + "-"),
    "^=": lambda text, value: bool(value) and text.startswith(value),
    "$=": lambda text, value: bool(value) and text.endswith(value),
    "*=": lambda text, value: bool(value) and value in text,
}


def _attribute_fits(element: etree._Element, name: str, how: str, value: str) -> bool:
    text = element.get(name)
    return text is not None and _ATTRIBUTE_TESTS[how](str(text), value)


def related(element: etree._Element, combinator: str) -> list[etree._Element]:
    """The elements that the step before may be, by how the element's own step hangs on it."""
    if combinator == " ":
        return list(element.iterancestors())[::-1]
    if combinator == ">":
        parent = element.getparent()
        return [] if parent is None else [parent]
    if combinator == "+":
        before = element.getprevious()
        return [] if before is None else [before]
    return list(element.itersiblings(preceding=True))[:1000]


def at_commas(tokens: list[Any]) -> list[list[Any]]:
    """A list of selectors as the tokens of each."""
    groups: list[list[Any]] = [[]]
    for token in tokens:
        if token.type == "literal" and token.value == ",":
            groups.append([])
        else:
            groups[-1].append(token)
    return groups


def steps_of(tokens: list[Any]) -> list[Compound] | None:
    """The selector's steps from first to last, or None where it holds what is not followed here."""
    steps: list[Compound] = []
    now: Compound | None = None
    combinator = " "
    before = ""
    for token in tokens:
        if token.type in ("whitespace", "comment"):
            now = None
            continue
        if token.type == "literal" and token.value in ">+~" and before != ".":
            now, combinator = None, token.value
            continue
        if now is None:
            if steps:
                steps[-1].combinator = combinator  # how the next step hangs on this one
            now, combinator = Compound(), " "
            steps.append(now)
        if not _add(now, token, before):
            return None
        before = token.value if token.type == "literal" and token.value != "*" else ""
    if not steps or before:
        return None
    # Each step carries the combinator that leads to the step before it.
    for step, earlier in zip(reversed(steps), [*reversed(steps[:-1]), None], strict=True):
        step.combinator = earlier.combinator if earlier else " "
    return steps


def _add(now: Compound, token: Any, before: str) -> bool:
    if token.type == "literal":
        return token.value in (".", ":", "*") and not before
    if token.type == "ident":
        if before == ".":
            now.classes.append(token.value)
        elif before == ":":
            now.root = token.lower_value == "root"
            return now.root
        else:
            now.tag = token.value
        return True
    if token.type == "hash" and not before:
        now.id = token.value
        return True
    return token.type == "[] block" and _add_attribute(now, [t for t in token.content if t.type != "whitespace"])


def _add_attribute(now: Compound, tokens: list[Any]) -> bool:
    if not tokens or tokens[0].type != "ident":
        return False
    name, rest = tokens[0].value, tokens[1:]
    if not rest:
        now.attributes.append((name, "", ""))
        return True
    if rest[-1].type not in ("ident", "string"):
        return False
    how = "".join(str(t.value) for t in rest[:-1] if t.type == "literal")
    if not how or how not in _ATTRIBUTE_TESTS:
        return False
    now.attributes.append((name, how, rest[-1].value))
    return True


def specificity(steps: list[Compound]) -> tuple[int, int, int]:
    """CSS Selectors 3, section 9."""
    ids = sum(bool(step.id) for step in steps)
    others = sum(len(step.classes) + len(step.attributes) + step.root for step in steps)
    return ids, others, sum(bool(step.tag) for step in steps)
