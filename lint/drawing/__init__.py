"""What is on the page: the only readers of SVG. bytes -> Drawing, every drawable element accounted for."""

from __future__ import annotations

from lint.drawing import names, page, source
from lint.drawing.drawn import Drawing
from lint.drawing.marked import strip_marks
from lint.drawing.resolve import Resolve
from lint.drawing.style import Cascade
from lint.drawing.survey import survey
from lint.drawing.values import printable
from lint.drawing.walk import Walk


def read(data: bytes) -> Drawing:
    """The drawing in `data` (SVG or svgz), in page units, y down.

    A drawing that this tool marked up is read as its original. Raises UnreadableDrawing, with the line and the
    mend, for what is no sound SVG file or goes over a limit; no other error, whatever the bytes.
    """
    tree = source.parse(data)
    strip_marks(tree.root)
    found = survey(tree.root)
    sheet = page.page(tree.root)
    cascade = Cascade(found)
    walk = Walk(tree.root, tree.namespace, found, cascade)
    resolve = Resolve(walk, sheet)
    met = 0
    for one in walk.elements():
        resolve.take(one)
        met += 1
    drawing = Drawing(
        page=sheet,
        drawn=tuple(resolve.drawn),
        words=tuple(resolve.words),
        asides=tuple(resolve.asides),
        elements=met,
        title=names.title_of(tree.root),
        notes=tuple(map(printable, (*tree.notes, *found.sheets.notes, *walk.remarks()))),
        active=(*tree.outside, *found.active),
        size=tree.size,
    )
    accounted = len(drawing.drawn) + len(drawing.words) + len(drawing.asides)
    assert accounted == met, f"{met} elements met, {accounted} accounted for"
    return drawing
