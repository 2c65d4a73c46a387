"""How much may be drawn on the layers that are judged."""

from __future__ import annotations

from collections.abc import Sequence

from lint.drawing.drawn import Drawn
from lint.errors import UnreadableDrawing

# Of path on judged layers. A panel of 2,048 scrolls drawn in pieces of 22.5 degrees, with its marks, has 108,000.
MOST_SEGMENTS = 150_000


def refuse_too_much(drawn: Sequence[Drawn]) -> None:
    """Raises UnreadableDrawing, with the line of the first object that is too much, where all shapes together have
    more than MOST_SEGMENTS segments."""
    total = 0
    for one in drawn:
        total += sum(len(chain.cubics) for chain in one.chains)
        if total > MOST_SEGMENTS:
            raise UnreadableDrawing(
                f"Line {one.line}: the layers of the panel have more than {MOST_SEGMENTS:,} path segments. "
                "Simplify the paths, or take off the layers what is no part of the panel.",
                line=one.line,
            )
