"""The cascade: presentation attributes, sheets, `style` -> what an element is painted with."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from lxml import etree

from lint.drawing.drawn import Cap, Paint
from lint.drawing.properties import ATTRIBUTES, INHERITED, PARSERS, Value, value_of
from lint.drawing.style_sheets import DEEPEST, Declaration, Rule, declarations, nesting
from lint.drawing.survey import Survey, link
from lint.drawing.transforms import Matrix, stretch
from lint.drawing.values import PX, BadNumber
from lint.values import dataclass

LONGEST = 100_000  # characters of one `style` attribute
COMMON = 1_000  # characters of one that is worth remembering, for its like will come again

# name: value; where strings and brackets may hold semicolons. Possessive, so that each character is walked once.
_DECLARATION = re.compile(
    r"""[\s;]*+([-\w]++)\s*+:((?:[^;"'()\\/{}@\[\]]++|"[^"\\]*+"|'[^'\\]*+'|\([^()"'\\]*+\)|/(?!\*))*+)(?:;|$)[\s;]*+"""
)


@dataclass(frozen=True, slots=True, eq=False)
class Style:
    """`inherited` is what children start from; `own` is what stands on the element alone (display, opacity...).

    Equal only to itself: elements that say the same under the same parent share one.
    """

    inherited: Mapping[str, Value]
    own: Mapping[str, Value]

    @property
    def font_size(self) -> float:
        """In user units."""
        size: float = self.inherited["font-size"][0]
        return size

    @property
    def displayed(self) -> bool:
        """False where `display` is none, for the element and all in it."""
        return self.own.get("display") != "none"

    @property
    def visible(self) -> bool:
        """False where `visibility` hides the element; what is in it may show itself."""
        return bool(self.inherited["visibility"] == "visible")


Written = tuple[tuple[str, str], ...]  # the attributes of one element that are its style: name, text
WRITTEN = ATTRIBUTES | {"style"}
NOTHING: Mapping[str, Value] = {}
START = Style(INHERITED, NOTHING)


class Cascade:
    """Styles of one drawing's elements."""

    def __init__(self, survey: Survey) -> None:
        self.attributes = survey.attributes
        self.sheets = survey.sheets
        self.known: dict[tuple[Style, Written], Style] = {}

    def style(self, element: etree._Element, parent: Style) -> Style:
        """The element's style where it inherits from `parent`."""
        written = tuple([pair for pair in self.attributes[element].items() if pair[0] in WRITTEN])
        if self.sheets.selectors:
            return _style(written, self.sheets.fitting(element), parent)
        found = self.known.get((parent, written))
        if found is None:
            found = self.known[parent, written] = _style(written, (), parent)
        return found


def _style(written: Written, rules: Sequence[Rule], parent: Style) -> Style:
    declared = _declared(dict(written), rules)
    if not declared:
        return Style(parent.inherited, NOTHING) if parent.own else parent
    inherited = dict(parent.inherited)
    own: dict[str, Value] = {}
    for name, value in declared.items():
        _settle(name, value, inherited, own, parent)
    return Style(inherited, own)


def _declared(written: dict[str, str], rules: Sequence[Rule]) -> dict[str, Value]:
    inline = inline_declarations(written.pop("style", ""))
    declared = {name: value for name, text in written.items() if (value := value_of(name, text)) is not None}
    important = []
    for block in (*(rule.declarations for rule in rules), inline):
        for name, text, strong in block:
            if (value := value_of(name, text)) is None:
                continue
            if strong:
                important.append((name, value))
            else:
                declared[name] = value
    declared.update(important)
    return declared


def _settle(name: str, value: Value, inherited: dict[str, Value], own: dict[str, Value], parent: Style) -> None:
    if name == "font":
        name = "font-size"
    if name not in INHERITED:
        if value == "inherit":
            value = parent.own.get(name)
        if value is not None and value != ("initial",):
            own[name] = value
        return
    if value == ("initial",):
        inherited[name] = INHERITED[name]
    elif name == "font-size" and value != "inherit":
        inherited[name] = (_size(value, parent.font_size), "px")
    elif name == "color" and value == "currentcolor":
        return
    elif value != "inherit":
        inherited[name] = value


def _size(value: tuple[float, str], above: float) -> float:
    figure, unit = value
    if unit == "%":
        return figure / 100 * above
    if unit in ("em", "rem"):
        return figure * (above if unit == "em" else 16.0)
    return figure * above / 2 if unit == "ex" else figure * PX[unit]


def inline_declarations(text: str) -> tuple[Declaration, ...]:
    """The declarations of a `style` attribute. Raises BadNumber where it is larger than any needs to be."""
    if len(text) <= COMMON:
        return _remembered(text)
    if len(text) > LONGEST:
        raise BadNumber(f"a style of {len(text):,} characters (at most {LONGEST:,} are read)")
    return _parsed(text)


@lru_cache(maxsize=4096)
def _remembered(text: str) -> tuple[Declaration, ...]:
    return _parsed(text)


def _parsed(text: str) -> tuple[Declaration, ...]:
    found, at = [], 0
    while at < len(text):
        part = _DECLARATION.match(text, at)
        if not part:  # comments, escapes, brackets in brackets, mistakes: by the book
            if nesting(text) > DEEPEST:
                raise BadNumber("a style with brackets too deep in one another")
            return declarations(text)
        at = part.end()
        name = part[1].lower()
        if name in PARSERS:
            value, bang, word = part[2].partition("!")
            if not bang or word.strip().lower() == "important":
                found.append((name, value.strip(), bool(bang)))
    return tuple(found)


class Painter:
    """Resolves a style into plain paint; gradients become the colour of their first stop."""

    def __init__(self, ids: Mapping[str, etree._Element], cascade: Cascade) -> None:
        self.ids = ids
        self.cascade = cascade
        self.known: dict[tuple[Style, Matrix, tuple[float, float]], Paint] = {}

    def paint(self, style: Style, matrix: Matrix, viewport: tuple[float, float]) -> Paint:
        """The paint of a shape that `matrix` puts on the page."""
        key = style, matrix, viewport
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._mixed(style, matrix, viewport)
        return found

    def _mixed(self, style: Style, matrix: Matrix, viewport: tuple[float, float]) -> Paint:
        values = style.inherited
        factor, even = stretch(matrix)
        fill = self.colour(values["fill"], style) if values["fill-opacity"] > 0 else None
        stroke = self.colour(values["stroke"], style) if values["stroke-opacity"] > 0 else None
        width: float | None = _stroke_width(values["stroke-width"], style.font_size, viewport)
        if width == 0:
            stroke = None
        skewed = not even and stroke is not None
        if skewed or "non-scaling-stroke" in style.own.get("vector-effect", ""):
            width = None
        return Paint(
            fill=fill,
            stroke=stroke,
            width=None if width is None else width * factor,
            cap=Cap(values["stroke-linecap"]),
            join=values["stroke-linejoin"],
            dashed=values["stroke-dasharray"],
            evenodd=values["fill-rule"] == "evenodd",
            skewed=skewed,
        )

    def colour(self, value: Value, style: Style) -> str | None:
        """ "#rrggbb", or None where nothing can be seen."""
        if isinstance(value, tuple):
            value = self._server(value[1]) or value[2]
        if value == "currentcolor":
            value = style.inherited["color"]
        return None if value == "none" else value

    def _server(self, id_: str) -> str | None:
        element = self.ids.get(id_)
        if element is None:
            return None
        for _ in range(10):  # gradients that take their stops from another
            for child in element.iterchildren("{*}stop"):
                colour = self.cascade.style(child, START).own.get("stop-color", "#000000")
                return colour if isinstance(colour, str) and colour.startswith("#") else "#000000"
            following = self.ids.get(link(element)[1:])
            if following is None:
                break
            element = following
        return "#808080"  # a pattern, or a gradient without stops


def _stroke_width(value: tuple[float, str], font_size: float, viewport: tuple[float, float]) -> float:
    figure, unit = value
    if unit == "%":  # of the viewport's diagonal over the root of two: SVG 1.1, 7.10
        return figure / 100 * math.sqrt((viewport[0] * viewport[0] + viewport[1] * viewport[1]) / 2)
    return _size((figure, unit), font_size)
