"""How much may be drawn on the layers that are judged: counted before it is measured, so that the answer is the same on
every machine."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from lint.drawing.drawn import Drawn, Words
from lint.errors import UnreadableDrawing
from lint.geometry.crossings import crossed
from lint.geometry.curve import Curve
from lint.panel.origins import id_of
from lint.panel.parts import Origin, Role
from lint.panel.roles import BARS, FASTENERS

# Of path on judged layers. A panel of 2,048 scrolls drawn in pieces of 22.5 degrees, with its marks, has 108,000.
MOST_SEGMENTS = 150_000

# Hundredths of a scroll that the work on one subpath or text is like, measured on panels of 100 and 400 of each. A
# stroke has more the more pieces it bends in, up to a scroll's sixteen.
STRAIGHT, BENT, MOST_BENT = 18, 5, 16
OUTLINE = 110
FASTENER, MARK, WORD = 4, 4, 3
SCROLLS = 300  # that a file may have, whose answer is promised within two seconds: it takes 1.4
SMALL = 200_000  # bytes of such a file
MORE_SCROLLS = 1_700  # for as many bytes more: a file twice as large has ten seconds
MOST_SCROLLS = 4_000  # however large the file: twice the 2,048 that are to be judged

# Places where bars lie on one another or cross. Scrollwork has none, for bars touch side by side; a trellis of 50 bars
# across 50 has 2,500, which take 1.6 seconds. Large panels have a few of their own.
MOST_CROSSINGS = 2_500
MORE_CROSSINGS = 2  # for each bar
SIMPLE = 60  # pieces of path: so few cross one another at most 1,770 times
LIES_ON = 0.25  # bar widths: middle lines nearer than this lie on one another

# Pairs of bars that one fastener holds, over all fasteners; a collar holds two bars, or three or four.
MOST_HELD = 100_000
MORE_HELD = 50  # for each fastener

Sorted = Sequence[tuple[Role | None, Drawn | Words]]


def refuse_too_much(items: Sorted, size: int = 0) -> None:
    """Raises UnreadableDrawing, with the line of the first object that is too much, where all shapes on judged layers
    together have more than MOST_SEGMENTS segments, or all shapes and texts are more work than a file of `size` bytes
    may ask for: 300 scrolls with their marks up to 200 kB, 2,000 at 400 kB, 4,000 at most."""
    most = min(SCROLLS + MORE_SCROLLS * max(size / SMALL - 1.0, 0.0), MOST_SCROLLS) * 100
    segments = 0
    work: Counter[Role] = Counter()
    for role, item in items:
        if role is None or role is Role.NOTE:
            continue
        segments += sum(len(chain.cubics) for chain in item.chains) if isinstance(item, Drawn) else 0
        if segments > MOST_SEGMENTS:
            raise UnreadableDrawing(
                f"Line {item.line}: the layers of the panel have more than {MOST_SEGMENTS:,} path segments. "
                "Simplify the paths, or take off the layers what is no part of the panel.",
                line=item.line,
            )
        work[role] += _work(role, item)
        if work.total() > most:
            raise _too_many(items, work, item, size)


def _work(role: Role, item: Drawn | Words) -> int:
    if isinstance(item, Words):
        return WORD
    if role not in BARS:
        return len(item.chains) * (FASTENER if role in FASTENERS else MARK)
    if item.paint.stroke is None:
        return len(item.chains) * OUTLINE
    return sum(STRAIGHT + BENT * min(len(chain.cubics), MOST_BENT) for chain in item.chains)


def _too_many(items: Sorted, work: Counter[Role], at: Drawn | Words, size: int) -> UnreadableDrawing:
    (most, _), *_ = work.most_common(1)
    count = sum(len(item.chains) if isinstance(item, Drawn) else 1 for role, item in items if role is most)
    return UnreadableDrawing(
        f'Line {at.line}: the drawing has {count:,} shapes and texts that read as "{most.value}", more than can be '
        f"measured of a file of {max(size, 1000) / 1000:,.0f} kB. Draw each part once, and take off the layers of the "
        "panel what is no part of it.",
        line=at.line,
    )


def refuse_heap(lines: Sequence[tuple[Drawn, Curve, float]]) -> None:
    """Raises UnreadableDrawing, with the line and id of the object that is the worst, where lines lie on one another or
    cross, or one crosses itself, at more than MOST_CROSSINGS places and MORE_CROSSINGS for each line.

    Each line comes with its object and the width of its bar, mm; 0 for an edge.
    """
    most = MOST_CROSSINGS + MORE_CROSSINGS * len(lines)
    found = crossed([line for _, line, _ in lines], [LIES_ON * width for _, _, width in lines], most)
    if found is None:
        return
    worst = lines[found.worst][0]
    raise UnreadableDrawing(
        f"Line {worst.line}: bars lie on one another or cross, or a line crosses itself, at more than {most:,} places, "
        f'most of them at "{id_of(worst)[:80]}". Delete the copies, and draw each bar once, by its middle or its edge.',
        line=worst.line,
    )


def refuse_tangle(drawn: Drawn, rings: Sequence[Curve]) -> None:
    """The same for the edges of one object, before they are filled."""
    if sum(len(chain.cubics) for chain in drawn.chains) > SIMPLE:
        refuse_heap([(drawn, ring, 0.0) for ring in rings])


def refuse_crowd(held: Sequence[tuple[Origin, int]]) -> None:
    """Raises UnreadableDrawing, with the line and id of the worst, where fasteners lie over so many bars that nobody
    can tell what they hold. Each comes with how many bars it lies over."""
    if sum(bars**2 for _, bars in held) <= MOST_HELD + MORE_HELD * len(held):
        return
    origin, bars = max(held, key=lambda one: one[1])
    name = (origin.id or origin.name)[:80]
    raise UnreadableDrawing(
        f'Line {origin.line}: collars, rivets or the like lie over heaps of bars, "{name}" over '
        f"{bars:,} of them. Draw each as large as it is, where it holds two bars or three.",
        line=origin.line,
    )
