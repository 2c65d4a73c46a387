"""Elements in drawing order, each with the transform, style and names it stands under."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lxml import etree

from lint.drawing import motions, page
from lint.drawing.drawn import Naming
from lint.drawing.motions import IDENTITY, BadTransform, Matrix, times
from lint.drawing.names import SODIPODI, is_layer, naming
from lint.drawing.shapes import SHAPES
from lint.drawing.source import DEEPEST, SVG
from lint.drawing.style import START, Cascade, Style
from lint.drawing.survey import Survey, link
from lint.drawing.values import BadNumber, length, line_of
from lint.errors import UnreadableDrawing

MOST_CLONES = 20_000  # elements visited inside clones

TEXTS = frozenset(("text", "flowRoot"))
DRAWABLE = SHAPES | TEXTS | {"image", "use", "foreignObject"}
GROUPS = frozenset(("g", "a", "svg", "switch"))
# Never painted where they stand (SVG 1.1, 5.3 and 5.4): only what points to them draws them.
NEVER = frozenset(
    (
        *("defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient", "filter"),
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
    depth: int = 0
    direct: bool = False  # the element is itself what a clone points to


@dataclass(frozen=True, slots=True)
class Met:
    """One drawable element met on the walk, with its own transform and style applied in `stand`."""

    element: etree._Element
    tag: str
    stand: Stand
    foreign: bool = False
    trouble: str = ""


class Walk:
    """Walks one drawing. No recursion: nesting and clones may be as deep as the limits allow."""

    def __init__(self, root: etree._Element, namespace: str | None, survey: Survey, cascade: Cascade) -> None:
        self.root = root
        self.spaces = {SVG, namespace}
        self.survey = survey
        self.cascade = cascade
        self.namings: dict[etree._Element, Naming] = {}
        self.clone_visits = 0
        self.notes: dict[str, None] = {}
        self.transparent: list[str] = []

    def remarks(self) -> tuple[str, ...]:
        """Sentences for the report on what was noticed on the walk."""
        if not self.transparent:
            return tuple(self.notes)
        first, count = ", ".join(self.transparent[:5]), len(self.transparent)
        more = f" and {count - 5} more" if count > 5 else ""
        return (*self.notes, f"Fully transparent, but read as drawn: {first}{more}.")

    def naming(self, element: etree._Element) -> Naming:
        """The element's names, read once."""
        found = self.namings.get(element)
        if found is None:
            found = self.namings[element] = naming(element, root=element is self.root)
        return found

    def elements(self) -> Iterator[Met]:
        """Every drawable element in drawing order; hidden ones too, and each visit of a clone."""
        start = Stand(viewport=page.viewport(self.root))
        waiting: list[tuple[etree._Element, Stand]] = [(self.root, start)]
        while waiting:
            element, stand = waiting.pop()
            if not isinstance(element.tag, str):
                continue
            if stand.clone:
                self._count(element)
            space, _, tag = element.tag.rpartition("}")
            if (space[1:] or None) not in self.spaces:
                yield from self._foreign(element, space[1:], tag, stand)
                if space:
                    continue
            if tag in NEVER and not stand.direct:
                continue
            below = self._below(element, tag, stand)
            if tag == "use" and not below.hidden:
                trouble, target = self._target(element, below)
                if target is None:
                    yield Met(element, tag, below, trouble=trouble)
                else:
                    waiting.append((target, self._cloned(element, target, below)))
            elif tag in DRAWABLE:
                yield Met(element, tag, below)
            else:
                waiting += self._children(element, tag, below)

    def _count(self, element: etree._Element) -> None:
        self.clone_visits += 1
        if self.clone_visits > MOST_CLONES:
            raise UnreadableDrawing(
                f"The clones in the drawing stand for more than {MOST_CLONES:,} objects. "
                "Unlink the clones, or keep only the grille in the file."
            )

    def _foreign(self, element: etree._Element, space: str, tag: str, stand: Stand) -> Iterator[Met]:
        """Elements that are not SVG: guides are counted, shapes of an unknown kind listed, editors' data passed by."""
        if not space:
            if tag in DRAWABLE:
                self.notes["Some elements are in no namespace; they were read as SVG."] = None
        elif space == SODIPODI and tag == "namedview":
            for guide in element.iterchildren(f"{{{SODIPODI}}}guide"):
                yield Met(guide, "guide", self._bare(guide, stand))
        elif tag in DRAWABLE:
            yield Met(element, tag, self._bare(element, stand), foreign=True)

    def _bare(self, element: etree._Element, stand: Stand) -> Stand:
        return replace(stand, depth=stand.depth + 1)

    def _below(self, element: etree._Element, tag: str, stand: Stand) -> Stand:
        """What the element's children start from; for a shape, what it is itself drawn with."""
        names = self.naming(element)
        try:
            style = self.cascade.style(element, stand.style)
            matrix, fault = self._moved(element, style, stand)
            viewport = stand.viewport
            if tag in ("svg", "symbol") and element is not self.root:
                matrix, viewport = self._inner_viewport(element, tag, matrix, stand)
        except BadNumber as trouble:
            raise refused(element, trouble) from trouble
        hidden = stand.hidden or _hiding(element, style)
        if style.own.get("opacity") == 0 and not hidden:
            self.transparent.append(f"'{naming_shown(names.id or names.tag)}' (line {line_of(element)})")
        group = tag not in DRAWABLE
        return Stand(
            matrix=matrix,
            style=style,
            above=(names, *stand.above) if group else stand.above,
            layer=_layer(element, names, stand, self.root) if group else stand.layer,
            hidden=hidden,
            viewport=viewport,
            clone=stand.clone,
            fault=stand.fault or fault,
            depth=stand.depth + 1,
            direct=stand.direct,
        )

    def _moved(self, element: etree._Element, style: Style, stand: Stand) -> tuple[Matrix, str]:
        text = style.own.get("transform") or element.get("transform")
        if not text:
            return stand.matrix, ""
        try:
            own = motions.parse(str(text))
            origin = style.own.get("transform-origin")
            if origin:
                own = _about(own, str(origin), style, stand.viewport)
        except BadTransform as trouble:
            return stand.matrix, str(trouble)
        return times(stand.matrix, own), ""

    def _inner_viewport(
        self, element: etree._Element, tag: str, matrix: Matrix, stand: Stand
    ) -> tuple[Matrix, tuple[float, float]]:
        """A nested svg, or a symbol under `use`, opens a viewport of its own (SVG 1.1, 7.9)."""
        use = stand.clone.element if stand.direct and stand.clone else None
        w, h = stand.viewport
        x, y = (
            (0.0, 0.0)
            if tag == "symbol"
            else (length(element.get("x"), of=w) or 0.0, length(element.get("y"), of=h) or 0.0)
        )
        sides = []
        for name, of in (("width", w), ("height", h)):
            stated = (use is not None and length(use.get(name), of=of)) or length(element.get(name), of=of)
            sides.append(of if stated is None else stated)
        width, height = sides
        matrix = times(matrix, (1.0, 0.0, 0.0, 1.0, x, y))
        box = page.view_box(element)
        if box is None:
            return matrix, (width, height)
        if width <= 0 or height <= 0:  # nothing states a size: one to one
            width, height = box[2], box[3]
        fit = page.fit(element.get("preserveAspectRatio"))
        return times(matrix, page.onto(box, width, height, fit)), (box[2], box[3])

    def _children(self, element: etree._Element, tag: str, below: Stand) -> list[tuple[etree._Element, Stand]]:
        below = replace(below, direct=False) if below.direct else below
        children = [child for child in element.iterchildren() if isinstance(child.tag, str)]
        if tag == "switch":
            return _switched(children, below)[::-1]
        if tag not in GROUPS and tag != "symbol":
            self.notes[f"Elements called <{tag[:40]}> are not SVG; what lies in them was read as in a group."] = None
        return [(child, below) for child in reversed(children)]

    def _target(self, element: etree._Element, below: Stand) -> tuple[str, etree._Element | None]:
        where = link(element)
        if not where.startswith("#"):
            return ("it is a clone of something in another file" if where else "it is a clone of nothing"), None
        target = self.survey.ids.get(where[1:])
        if target is None:
            return f"it is a clone of '{where[1:41]}', which is not in the file", None
        if where[1:] in self.survey.twice:
            self.notes[f"Several objects have the id '{where[1:41]}'; its clones show the first of them."] = None
        if target in element.iterancestors() or target is element or (below.clone and below.clone.visits(target)):
            return "it is a clone that holds itself", None
        if below.clone and below.clone.depth >= DEEPEST:
            raise UnreadableDrawing(f"Clones lie more than {DEEPEST} deep in one another. Unlink the clones.")
        return "", target

    def _cloned(self, element: etree._Element, target: etree._Element, below: Stand) -> Stand:
        """SVG 1.1, 5.6: the clone stands in a group that is moved by x and y after the use's own transform."""
        w, h = below.viewport
        try:
            x, y = length(element.get("x"), of=w) or 0.0, length(element.get("y"), of=h) or 0.0
        except BadNumber as trouble:
            raise refused(element, trouble) from trouble
        tag = str(target.tag).rpartition("}")[2]
        return replace(
            below,
            matrix=times(below.matrix, (1.0, 0.0, 0.0, 1.0, x, y)),
            above=below.above if tag in DRAWABLE else (self.naming(element), *below.above),
            clone=Clone(element, target, below.clone, below.clone.depth + 1 if below.clone else 1, below.direct),
            direct=True,
        )


def refused(element: etree._Element, trouble: Exception) -> UnreadableDrawing:
    """A number beyond the limits, with the place where it stands."""
    line, id_ = line_of(element), element.get("id")
    tag = str(element.tag).rpartition("}")[2]
    what = f"the {tag} '{naming_shown(id_)}'" if id_ else f"a {tag}"
    return UnreadableDrawing(f"Line {line}: {what} holds {trouble}. Draw this object again.", line=line)


def naming_shown(text: str) -> str:
    """A name fit to print: no control characters, at most 80 characters."""
    return "".join(c if c.isprintable() else "?" for c in text)[:80]


def _hiding(element: etree._Element, style: Style) -> str:
    if not style.displayed:
        return "display is none"
    if not _applies(element):
        return "it is kept for another program or language"
    return ""


def _applies(element: etree._Element) -> bool:
    """SVG 1.1, 5.8: no extension is known here; a language passes unless it leaves English out."""
    if element.get("requiredExtensions") is not None:
        return False
    languages = element.get("systemLanguage")
    if languages is None:
        return True
    return any(word.strip().lower().partition("-")[0] == "en" for word in languages[:1000].split(","))


def _switched(children: list[etree._Element], below: Stand) -> list[tuple[etree._Element, Stand]]:
    """The first child that applies; the others are counted as hidden."""
    chosen = None
    for child in children:
        tag = str(child.tag).rpartition("}")[2]
        if tag in DRAWABLE | GROUPS and tag != "foreignObject" and _applies(child):
            chosen = child
            break
    other = replace(below, hidden=below.hidden or "it is another choice of a switch")
    return [(child, below if child is chosen else other) for child in children]


def _layer(element: etree._Element, names: Naming, stand: Stand, root: etree._Element) -> str | None:
    """The innermost group that an editor calls a layer; else the outermost group with a name."""
    if is_layer(element) and names.names:
        return names.names[0]
    if element is root:
        first = names.names[0] if names.names else ""
        return None if not first or first.lower().rstrip("0123456789") == "svg" else first
    outermost = len(stand.above) <= 1
    return names.names[0] if outermost and names.names else stand.layer or (names.names[0] if names.names else None)


def _about(own: Matrix, origin: str, style: Style, viewport: tuple[float, float]) -> Matrix:
    """The transform about its origin (CSS Transforms 1, section 6), where that is stated on the page."""
    words = origin.replace(",", " ").split()
    keywords = {"left": "0", "top": "0", "center": "50%", "right": "100%", "bottom": "100%"}
    if words[:1] in (["top"], ["bottom"]):
        words[:2] = words[1::-1] if len(words) > 1 else ["center", words[0]]
    words = [keywords.get(word, word) for word in words] + (["50%"] if len(words) == 1 else [])
    x, y = (length(w, of=of, font_size=style.font_size) for w, of in zip(words[:2], viewport, strict=True))
    box = style.own.get("transform-box", "view-box")
    if x is None or y is None or (box != "view-box" and any("%" in w for w in words)):
        raise BadTransform(f"the origin of its transform ('{origin[:30]}') cannot be followed")
    return times(times((1.0, 0.0, 0.0, 1.0, x, y), own), (1.0, 0.0, 0.0, 1.0, -x, -y))
