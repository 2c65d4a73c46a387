"""Our geometry against svgelements, a general-purpose SVG reader, over all drawings of the project.

Its trap (svgelements 1.9.6): a shape under a transform keeps it pending, so length() and the segments
do not have it; `abs(Path(element))` applies it.
"""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import svgelements

from lint.drawing import read
from lint.geometry.chain import Floats
from tests.drawing.drawings import along
from tests.drawing.test_accounting import DRAWINGS, ROOT


def second(path: Path) -> list[Floats]:
    """Extents of every shape that svgelements finds, in user units of the root (its viewBox undone)."""
    svg = svgelements.SVG.parse(io.BytesIO(path.read_bytes()), reify=False, ppi=96)
    view = svgelements.Matrix(svg.viewbox_transform) if svg.viewbox_transform else svgelements.Matrix()
    back = ~view
    found = []
    for one in svg.elements():
        if isinstance(one, svgelements.Shape) and one.values.get("display") != "none":
            shape = abs(svgelements.Path(one) * back)
            points = [
                p
                for segment in shape
                if not isinstance(segment, svgelements.Move)
                for p in segment.npoint(np.linspace(0, 1, 33))
            ]
            if points:
                on = np.array([[p[0], p[1]] for p in points])
                found.append(np.concatenate((on.min(axis=0), on.max(axis=0))))
    return found


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_second_reader_finds_each_shape_in_the_same_place(path: Path) -> None:
    found = np.array(second(path))
    drawing = read(path.read_bytes())
    if not drawing.drawn:
        return
    size = np.ptp(np.vstack([c.cubics.reshape(-1, 2) for d in drawing.drawn for c in d.chains]), axis=0).max()
    for one in drawing.drawn:
        on = np.vstack([along(chain) for chain in one.chains])
        ours = np.concatenate((on.min(axis=0), on.max(axis=0)))
        assert np.abs(found - ours).max(axis=1).min() < 1e-4 * size, f"{one.own.id} on line {one.line}"
