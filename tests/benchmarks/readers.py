"""Our reader beside two general-purpose ones, on the same files: python tests/benchmarks/readers.py

`svgelements` and `picosvg` (both from PyPI) read every drawing of examples/ and fixtures/editors/; each is asked for
shapes with their transforms applied, as `lint.drawing.read` gives them. Ratios of CPU, theirs over ours: over 1 is
faster here. A file that a reader cannot read is left out of its sum, and told. Nothing is asserted.
"""

from __future__ import annotations

import io
import time
from collections.abc import Callable
from pathlib import Path

from lint.drawing import read

ROOT = Path(__file__).parents[2]


def ours(data: bytes) -> None:
    """Every shape as a chain of cubics, every word, everything accounted for."""
    read(data)


def svgelements(data: bytes) -> None:
    """Every shape as a path, transforms applied."""
    from svgelements import SVG, Path, Shape

    for element in SVG.parse(io.BytesIO(data), reify=True).elements():
        if isinstance(element, Shape):
            abs(Path(element))


def picosvg(data: bytes) -> None:
    """Clones resolved, styles applied, every shape as a path (text is left, for it has no reading of it)."""
    from picosvg.svg import SVG

    svg = SVG.fromstring(data)  # type: ignore[no-untyped-call]  # picosvg has no types
    svg.apply_style_attributes(inplace=True)
    svg.resolve_use(inplace=True)
    for shape in svg.shapes_to_paths(inplace=True).shapes():
        shape.as_path().bounding_box()


def spent(reader: Callable[[bytes], None], data: bytes, runs: int = 5) -> float | None:
    """The least CPU seconds of some runs, None where the reader refuses the file."""
    best = None
    for _ in range(runs):
        begun = time.process_time()
        try:
            reader(data)
        except Exception:  # whatever a reader says of a file it cannot read
            return None
        took = time.process_time() - begun
        best = took if best is None else min(best, took)
    return best


def main() -> None:
    """Print one line for each of the other readers."""
    files = sorted([*(ROOT / "examples").glob("*.svg"), *(ROOT / "fixtures" / "editors").glob("*.svg")])
    for other in (svgelements, picosvg):
        mine = theirs = 0.0
        refused = 0
        for path in files:
            data = path.read_bytes()
            a, b = spent(ours, data), spent(other, data)
            if a is None or b is None:
                refused += b is None
                continue
            mine, theirs = mine + a, theirs + b
        read_by = len(files) - refused
        print(f"| reading alone: {other.__name__} over ours ({read_by} of {len(files)} files) | {theirs / mine:.1f} |")


if __name__ == "__main__":
    main()
