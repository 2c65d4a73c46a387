"""One element met on the walk -> Drawn, Words or Aside: nothing is dropped."""

from __future__ import annotations

import numpy as np
from lxml import etree

from lint.drawing import text
from lint.drawing.drawn import Aside, Drawn, Naming, Page, Words
from lint.drawing.pathdata import MOST_SEGMENTS, TooMany
from lint.drawing.shapes import Shape, shape
from lint.drawing.stand import TEXTS, Met, Stand, refused, shown
from lint.drawing.style import Painter
from lint.drawing.survey import link
from lint.drawing.transforms import IDENTITY, Matrix, as_array, flattens
from lint.drawing.values import LARGEST_NUMBER, Attributes, BadNumber, line_of, printable
from lint.drawing.walk import Walk
from lint.errors import UnreadableDrawing
from lint.geometry.chain import Chain

FARTHEST = 1e6  # mm on paper, after all transforms


class Resolve:
    """Collects what is on the page in drawing order."""

    def __init__(self, walk: Walk, page: Page) -> None:
        self.walk = walk
        self.reach = min(LARGEST_NUMBER, FARTHEST / page.mm_per_unit if page.mm_per_unit else LARGEST_NUMBER)
        self.painter = Painter(walk.survey.ids, walk.cascade)
        self.shapes: dict[etree._Element, Shape] = {}  # of cloned originals, in their own units
        self.settings: dict[tuple[object, ...], text.Setting | None] = {}
        self.segments = 0
        self.drawn: list[Drawn] = []
        self.words: list[Words] = []
        self.asides: list[Aside] = []

    def take(self, met: Met) -> None:
        """Puts the element in its place. Raises UnreadableDrawing over a limit."""
        why, detail = _not_geometry(met)
        if why:
            self._aside(met, why, detail)
            return
        try:
            if met.tag in TEXTS:
                self._take_text(met)
            else:
                self._take_shape(met)
        except BadNumber as trouble:
            raise refused(met.element, trouble) from trouble
        except TooMany as trouble:
            raise _too_many(met) from trouble

    def _take_shape(self, met: Met) -> None:
        stand = met.stand
        found = self._shape(met)
        self._count(found, met)
        paint = self.painter.paint(stand.style, stand.matrix, stand.viewport)
        if found.fault and (not found.chains or (paint.fill is None and paint.stroke is None)):
            self._aside(met, "broken", found.fault)
        elif paint.fill is None and paint.stroke is None:
            self._aside(met, "no paint")
        elif not found.chains:
            self._aside(met, "empty", "it has no length")
        else:
            chains = _moved(found.chains, stand.matrix)
            self._bound(chains, met)
            own, clone_of = self._own(met)
            self.drawn.append(
                Drawn(
                    own=own,
                    above=stand.above,
                    line=_line(met),
                    paint=paint,
                    chains=chains,
                    layer=stand.layer,
                    fault=_sentence(found.fault),
                    clone_of=clone_of,
                )
            )

    def _shape(self, met: Met) -> Shape:
        attributes = self.walk.attributes[met.element]
        if not met.stand.clone:
            return shape(met.tag, attributes, met.stand.style, met.stand.viewport)
        if met.element not in self.shapes or _has_relative_lengths(attributes):
            self.shapes[met.element] = shape(met.tag, attributes, met.stand.style, met.stand.viewport)
        return self.shapes[met.element]

    def _count(self, found: Shape, met: Met) -> None:
        for chain in found.chains:
            self.segments += len(chain.cubics)
        if self.segments > MOST_SEGMENTS:
            raise _too_many(met)

    def _bound(self, chains: tuple[Chain, ...], met: Met) -> None:
        for chain in chains:
            # The sum of squares is quick, and tells enough of most chains.
            near = np.vdot(chain.cubics, chain.cubics) < self.reach * self.reach
            if not near and not float(np.abs(chain.cubics).max()) < self.reach:
                line, id_ = line_of(met.element), met.element.get("id")
                what = f"the {met.tag} '{shown(id_)}'" if id_ else f"a {met.tag}"
                raise UnreadableDrawing(
                    f"Line {line}: {what} lies more than a kilometre off the page. Delete it or draw it again.",
                    line=line,
                )

    def _take_text(self, met: Met) -> None:
        stand = met.stand
        set_ = self._setting(met)
        paint = self.painter.paint(stand.style, stand.matrix, stand.viewport)
        if set_ is None:
            self._aside(met, "empty", "it has no words")
        elif paint.fill is None and paint.stroke is None:
            self._aside(met, "no paint", set_.words[:80])
        else:
            own, clone_of = self._own(met)
            self.words.append(
                Words(
                    own=own,
                    above=stand.above,
                    line=_line(met),
                    text=set_.words,
                    extent=set_.extent(stand.matrix),
                    colour=paint.fill or paint.stroke,
                    layer=stand.layer,
                    clone_of=clone_of,
                )
            )

    def _setting(self, met: Met) -> text.Setting | None:
        """The text set in its own units, once for all clones of it that inherit the same style."""
        stand = met.stand
        key = (met.element, stand.viewport, *stand.style.inherited.values())
        if key not in self.settings:
            words = text.words(met.element, stand.style, self.walk.cascade, stand.viewport, self._start_of_path)
            self.settings[key] = words
        return self.settings[key]

    def _start_of_path(self, element: etree._Element) -> tuple[float, float] | None:
        path = self.walk.survey.ids.get(link(element)[1:])
        if path is None or not str(path.tag).endswith("path"):
            return None
        chains = shape("path", self.walk.attributes[path], Stand().style, (0.0, 0.0)).chains
        return (float(chains[0].cubics[0, 0, 0]), float(chains[0].cubics[0, 0, 1])) if chains else None

    def _own(self, met: Met) -> tuple[Naming, Naming | None]:
        """The names of what stands on the page, and those of its original where it is a clone.

        A clone of one shape bears the name of its `use`; a shape in a cloned group keeps its own name. The id is
        always that of the outermost `use`: the object that lies on the page.
        """
        names = self.walk.naming(met.element)
        clone = met.stand.clone
        if not clone:
            return names, None
        own = self.walk.naming(clone.namer).names if met.stand.direct else names.names
        return Naming(names=own, id=clone.outermost.element.get("id"), tag=names.tag), names

    def _aside(self, met: Met, why: str, detail: str = "") -> None:
        own, _ = self._own(met)
        self.asides.append(
            Aside(
                own=own,
                above=met.stand.above,
                line=_line(met),
                layer=met.stand.layer,
                why=why,
                detail=_sentence(detail),
            )
        )


def _not_geometry(met: Met) -> tuple[str, str]:
    """(why, detail) for what needs no look at its shape; ("", "") for the rest."""
    stand = met.stand
    found = ("", "")
    if met.tag == "guide":
        found = "guide", ""
    elif met.foreign:
        found = "foreign", "it is in no namespace of SVG, so no program draws it"
    elif stand.hidden:
        found = "hidden", stand.hidden
    elif met.trouble:
        found = "broken", met.trouble
    elif not stand.style.visible:
        found = "hidden", "visibility is hidden"
    elif met.tag == "image":
        found = "image", ""
    elif met.tag == "foreignObject":
        found = "foreign", "it is no part of the drawing but a page set into it"
    elif stand.fault:
        found = "broken", stand.fault
    elif flattens(stand.matrix):
        found = "broken", "its transform flattens it to a line or a point"
    return found


def _moved(chains: tuple[Chain, ...], matrix: Matrix) -> tuple[Chain, ...]:
    if matrix == IDENTITY:
        return chains
    letters = as_array(matrix)
    return tuple(chain.transformed(letters) for chain in chains)


def _too_many(met: Met) -> UnreadableDrawing:
    line = line_of(met.element)
    return UnreadableDrawing(
        f"Line {line}: the drawing has more than {MOST_SEGMENTS:,} path segments. "
        "Keep only the grille in the file, or simplify its paths.",
        line=line,
    )


def _has_relative_lengths(attributes: Attributes) -> bool:
    return any(text.rstrip().endswith(("%", "em", "ex")) for text in attributes.values())


def _line(met: Met) -> int:
    element = met.stand.clone.outermost.element if met.stand.clone else met.element
    return line_of(element)


def _sentence(clause: str) -> str:
    return printable(f"{clause[0].upper()}{clause[1:]}.") if clause else ""
