"""What is counted before it is measured. Honest panels stay far below; the figures are the README's own."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from lint.check import check
from lint.drawing import read
from lint.errors import UnreadableDrawing
from lint.panel import build, limit
from lint.panel.limit import MOST_CROSSINGS
from lint.sheet import load_default

FRAME = '<g id="frame"><path d="M6 6V894H894V6Z" fill="none" stroke="black" stroke-width="12"/></g>'
SCROLL = "M{x} {y}a5 5 0 1 1 10 0a12 12 0 1 1-24 0a25 25 0 0 1 50 0a12 12 0 1 1-24 0a5 5 0 1 1 10 0"


def drawing(layer: str, body: str, paint: str = 'fill="none" stroke="black" stroke-width="2"') -> bytes:
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" viewBox="0 0 900 900">'
    return f'{head}{FRAME}\n<g id="{layer}" {paint}>{body}</g></svg>'.encode()


def paths(*data: str) -> str:
    return "".join(f'<path id="p{k}" d="{d}"/>' for k, d in enumerate(data))


def trellis(across: int) -> bytes:
    """Bars on a square lattice: `across` squared crossings."""
    places = [20 + 860 * k / across for k in range(across)]
    return drawing("bars", paths(*(f"M{p:.1f} 12V888" for p in places), *(f"M12 {p:.1f}H888" for p in places)))


def scrolls(count: int) -> bytes:
    return drawing(
        "scrolls", paths(*(SCROLL.format(x=60 + 40 * (k % 20), y=50 + 70 * (k // 20)) for k in range(count)))
    )


def star(points: int) -> str:
    """A star polygon whose every side crosses nearly all others."""
    turns = [2 * math.pi * k * (points // 2) / points for k in range(points)]
    return "M" + " ".join(f"{450 + 300 * math.cos(t):.2f},{450 + 300 * math.sin(t):.2f}" for t in turns) + "z"


def refusal(data: bytes) -> UnreadableDrawing:
    with pytest.raises(UnreadableDrawing) as found:
        build(read(data), load_default())
    return found.value


HEAPS: dict[str, Callable[[], bytes]] = {
    "a trellis far too fine": lambda: trellis(60),
    "a star": lambda: drawing("scrolls", paths(star(301))),
    "the outline of a star": lambda: drawing("scrolls", paths(star(301)), 'fill="black"'),
    "scrolls a hair aside": lambda: drawing(
        "scrolls", paths(*(SCROLL.format(x=400 + k / 8, y=400) for k in range(60)))
    ),
    "a hatching": lambda: drawing("bars", paths("M100 100" + "h200v.01h-200v.01" * 200)),
}


@pytest.mark.parametrize("heap", HEAPS)
def test_a_heap_of_bars_is_refused_with_its_line_and_its_worst_bar(heap: str) -> None:
    trouble = refusal(HEAPS[heap]())
    assert trouble.line == 2
    assert "lie on one another or cross" in str(trouble)
    assert '"p' in str(trouble)
    assert str(trouble).endswith("by its middle or its edge.")


def test_a_trellis_of_fifty_bars_across_fifty_is_no_heap() -> None:
    """The largest that the limit was set for; 49 across 49 inside a frame leave room for the frame's own meetings."""
    assert 49 * 49 < MOST_CROSSINGS < 51 * 51
    assert len(build(read(trellis(30)), load_default()).bars) == 60


def test_scrolls_drawn_side_by_side_by_hand_are_no_heap() -> None:
    """Curves traced with a node every millimetre, a trembling hand's corners in them."""
    lines = []
    for row in range(12):
        nodes = ((20 + k, 40 + 70 * row + 20 * math.sin(k / 40) + (0.3 if k % 3 else -0.3)) for k in range(850))
        lines.append("M" + " ".join(f"{x},{y:.2f}" for x, y in nodes))
    assert len(build(read(drawing("scrolls", paths(*lines))), load_default()).scrolls) == 12


def test_more_shapes_than_a_small_file_is_worth_are_refused_with_their_number() -> None:
    trouble = refusal(drawing("scrolls", '<path d="M50 50h9v9h-9z"/>' * 4000, 'fill="black"'))
    assert trouble.line == 2
    assert "4,000 shapes and texts" in str(trouble)
    assert '"scroll"' in str(trouble)


def test_a_larger_file_may_have_more_shapes(monkeypatch: pytest.MonkeyPatch) -> None:
    """2,048 scrolls with their marks are some megabytes, and must be judged."""
    monkeypatch.setattr(limit, "SCROLLS", 3)
    monkeypatch.setattr(limit, "MORE_SCROLLS", 3)
    assert "10 shapes" in str(refusal(scrolls(10)))
    assert len(build(read(scrolls(10) + b" " * 4 * limit.SMALL), load_default()).scrolls) == 10


def test_notes_count_for_nothing() -> None:
    body = '<path d="M50 50h9v9h-9z"/>' * 4000
    assert check(drawing("notes", body, 'fill="black"'), load_default()).panel is not None


def test_a_tangled_collar_and_a_tangled_frame_are_refused_before_they_are_filled() -> None:
    assert '"p0"' in str(refusal(drawing("collars", paths(star(301)), 'fill="black"')))
    assert '"p0"' in str(refusal(drawing("frame", paths(star(301)), 'fill="black"')))


def test_rivets_and_collars_over_heaps_of_bars_are_refused_with_the_worst() -> None:
    bars = "".join(f'<path d="M{44 + 6 * k} 40v200" stroke-width="2"/>' for k in range(40))
    rivets = "".join(f'<circle id="r{k}" cx="160" cy="{100 + k / 10}" r="110"/>' for k in range(90))
    trouble = refusal(drawing("bars", f'{bars}</g>\n<g id="rivets">{rivets}'))
    assert trouble.line == 3
    assert '"r0" over 38 of them' in str(trouble)  # 37 bars and the frame
