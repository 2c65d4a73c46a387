"""Elements in drawing order, each with the transform, style and names it stands under."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from lxml import etree

from lint.drawing import page, transforms
from lint.drawing.drawn import Naming
from lint.drawing.names import SODIPODI, naming
from lint.drawing.source import DEEPEST, SVG
from lint.drawing.stand import DRAWABLE, GROUPS, NEVER, Clone, Met, Stand, hiding, layer_name, refused, shown, switched
from lint.drawing.style import Cascade, Style
from lint.drawing.survey import Survey, link
from lint.drawing.transforms import BadTransform, Matrix, times
from lint.drawing.values import BadNumber, length, line_of
from lint.errors import UnreadableDrawing

MOST_CLONES = 20_000  # elements visited inside clones


class Walk:
    """Walks one drawing. No recursion: nesting and clones may be as deep as the limits allow."""

    def __init__(self, root: etree._Element, namespace: str | None, survey: Survey, cascade: Cascade) -> None:
        self.root = root
        self.spaces = {SVG, namespace}
        self.survey = survey
        self.attributes = survey.attributes
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
            found = self.namings[element] = naming(element, self.attributes[element], root=element is self.root)
        return found

    def elements(self) -> Iterator[Met]:
        """Every drawable element in drawing order; hidden ones too, and each visit of a clone."""
        start = Stand(viewport=page.viewport(self.root))
        waiting: list[tuple[etree._Element, Stand]] = [(self.root, start)]
        while waiting:
            element, stand = waiting.pop()
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
                yield Met(guide, "guide", stand)
        elif tag in DRAWABLE:
            yield Met(element, tag, stand, foreign=True)

    def _below(self, element: etree._Element, tag: str, stand: Stand) -> Stand:
        """What the element's children start from; for a shape, what it is itself drawn with."""
        names, own = self.naming(element), self.attributes[element]
        try:
            style = self.cascade.style(element, stand.style)
            matrix, fault = self._moved(own.get("transform"), style, stand)
            viewport = stand.viewport
            if tag in ("svg", "symbol") and element is not self.root:
                matrix, viewport = self._inner_viewport(element, tag, matrix, stand)
        except BadNumber as trouble:
            raise refused(element, trouble) from trouble
        hidden = stand.hidden or hiding(own, style)
        if style.own.get("opacity") == 0 and not hidden:
            self.transparent.append(f"'{shown(names.id or names.tag)}' (line {line_of(element)})")
        group = tag not in DRAWABLE
        return Stand(
            matrix=matrix,
            style=style,
            above=(names, *stand.above) if group else stand.above,
            layer=layer_name(own, names, stand, root=element is self.root) if group else stand.layer,
            hidden=hidden,
            viewport=viewport,
            clone=stand.clone,
            fault=stand.fault or fault,
            direct=stand.direct,
        )

    def _moved(self, attribute: str | None, style: Style, stand: Stand) -> tuple[Matrix, str]:
        text = style.own.get("transform") or attribute
        if not text:
            return stand.matrix, ""
        try:
            own = transforms.parse(str(text))
            origin = style.own.get("transform-origin")
            if origin:
                own = transforms.about(
                    own, str(origin), style.own.get("transform-box", ""), stand.viewport, style.font_size
                )
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
        children = list(element.iterchildren("*"))
        if tag == "switch":
            return switched(children, self.attributes, below)[::-1]
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
