"""Where an element stands: all that it has from its ancestors, and from the clones it is seen through."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lxml import etree

from lint.drawing.drawn import Naming
from lint.drawing.names import is_layer
from lint.drawing.shapes import SHAPES
from lint.drawing.style import START, Style
from lint.drawing.transforms import IDENTITY, Matrix
from lint.drawing.values import Attributes, line_of, printable
from lint.errors import UnreadableDrawing
from lint.values import dataclass

TEXTS = frozenset(("text", "flowRoot"))
DRAWABLE = SHAPES | TEXTS | {"image", "use", "foreignObject"}
GROUPS = frozenset(("g", "a", "svg", "switch"))
# Never painted where they stand (SVG 1.1, 5.3 and 5.4): only what points to them draws them.
NEVER = frozenset(
    (
        *("defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient", "filter"),
        *(
            "animate",
            "animateTransform",
            "animateMotion",
            "animateColor",
            "set",
            "hatch",
            "meshgradient",
            "color-profile",
        ),
        *("title", "desc", "metadata", "style", "script", "font", "cursor", "view", "namedview", "solidColor", "mesh"),
    )
)


@dataclass(frozen=True, slots=True)
class Clone:
    """The `use` by which elements are visited: its line and id, and the uses around it."""

    element: etree._Element
    target: etree._Element
    within: Clone | None
    depth: int
    direct: bool  # the use is itself what the use around it points to

    @property
    def outermost(self) -> Clone:
        """The `use` that lies on the page itself."""
        here = self
        while here.within:
            here = here.within
        return here

    @property
    def namer(self) -> etree._Element:
        """The `use` whose name a directly cloned shape bears: of uses that point to one another, the outer."""
        here = self
        while here.direct and here.within:
            here = here.within
        return here.element

    def visits(self, element: etree._Element) -> bool:
        """Whether this clone, or one around it, points to the element: it would hold itself."""
        here: Clone | None = self
        while here:
            if here.target is element:
                return True
            here = here.within
        return False


@dataclass(frozen=True, slots=True)
class Stand:
    """Where an element stands: all that it has from its ancestors."""

    matrix: Matrix = IDENTITY
    style: Style = START
    above: tuple[Naming, ...] = ()
    layer: str | None = None
    hidden: str = ""  # why, or ""
    viewport: tuple[float, float] = (0.0, 0.0)
    clone: Clone | None = None
    fault: str = ""
    direct: bool = False  # the element is itself what a clone points to


@dataclass(frozen=True, slots=True)
class Met:
    """One drawable element met on the walk, with its own transform and style applied in `stand`."""

    element: etree._Element
    tag: str
    stand: Stand
    foreign: bool = False
    trouble: str = ""


def refused(element: etree._Element, trouble: Exception) -> UnreadableDrawing:
    """A number beyond the limits, with the place where it stands."""
    line, id_ = line_of(element), element.get("id")
    tag = str(element.tag).rpartition("}")[2]
    what = f"the {tag} '{shown(id_)}'" if id_ else f"a {tag}"
    return UnreadableDrawing(f"Line {line}: {what} holds {trouble}. Draw this object again.", line=line)


def shown(text: str) -> str:
    """A name fit to print: no control characters, at most 80 characters."""
    return printable(text[:80])


def hiding(attributes: Attributes, style: Style) -> str:
    """What keeps the element itself from being shown, as a clause; "" where nothing does."""
    if not style.displayed:
        return "display is none"
    if not applies(attributes):
        return "it is kept for another program or language"
    return ""


def applies(attributes: Attributes) -> bool:
    """SVG 1.1, 5.8: no extension is known here; a language passes unless it leaves English out."""
    if "requiredExtensions" in attributes:
        return False
    languages = attributes.get("systemLanguage")
    if languages is None:
        return True
    return any(word.strip().lower().partition("-")[0] == "en" for word in languages[:1000].split(","))


def switched(
    children: list[etree._Element], attributes: Mapping[etree._Element, Attributes], below: Stand
) -> list[tuple[etree._Element, Stand]]:
    """The first child that applies; the others are counted as hidden."""
    chosen = None
    for child in children:
        tag = str(child.tag).rpartition("}")[2]
        if tag in DRAWABLE | GROUPS and tag != "foreignObject" and applies(attributes[child]):
            chosen = child
            break
    other = replace(below, hidden=below.hidden or "it is another choice of a switch")
    return [(child, below if child is chosen else other) for child in children]


def layer_name(attributes: Attributes, names: Naming, stand: Stand, *, root: bool) -> str | None:
    """The innermost group that an editor calls a layer; else the outermost group with a name."""
    if is_layer(attributes) and names.names:
        return names.names[0]
    if root:
        first = names.names[0] if names.names else ""
        return None if not first or first.lower().rstrip("0123456789") == "svg" else first
    outermost = len(stand.above) <= 1
    return names.names[0] if outermost and names.names else stand.layer or (names.names[0] if names.names else None)
