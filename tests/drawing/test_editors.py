"""The passing panel in each editor's dialect is the same drawing in millimetres (fixtures/editors).

The truth is `fixtures/panel.svg`, whose page unit is a millimetre; how many millimetres a unit of each dialect is
follows from the dialect (points, px, 90 or 300 to the inch, hundredths), not from the reader.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from lint.drawing import read
from lint.drawing.drawn import Drawing, Drawn, Words
from lint.geometry.chain import Floats
from tests.drawing.drawings import along

FIXTURES = Path(__file__).parent.parent.parent / "fixtures"
POINT, PX = 25.4 / 72, 25.4 / 96
UNITS = {
    "affinity-designer": 25.4 / 300,
    "boxy-svg": 1.0,
    "by-way-of-pdf": POINT,
    "coreldraw": 0.01,
    "dia": 0.5,
    "figma": PX,
    "freecad": 1.0,
    "illustrator-editable": POINT,
    "illustrator-exported": POINT,
    "illustrator-saved": POINT,
    "inkscape-0.48": 25.4 / 90,
    "inkscape-1.2-plain-saved": 1.0,
    "inkscape-1.2-saved": 1.0,
    "inkscape-clones": 1.0,
    "libreoffice-draw": 0.01,
    "librecad": 1.0,
    "paper-js": POINT,
    "scribus": POINT,
    "sketch": PX,
    "svg-edit": PX,
    "vectornator": PX,
}
# What the page says of its size where that is not the truth; None: it says nothing.
STATED = {
    "affinity-designer": None,
    "illustrator-exported": None,
    "vectornator": None,
    "illustrator-saved": PX,
    "dia": 350 / 691,
    "by-way-of-pdf": POINT,
}
NOISE = 0.02  # mm: the exporters' own rounding, two decimals of a px at most
PANEL = read((FIXTURES / "panel.svg").read_bytes())


def dialect(name: str) -> Drawing:
    return read((FIXTURES / "editors" / f"{name}.svg").read_bytes())


def points(one: Drawn, unit: float = 1.0) -> Floats:
    return np.vstack([along(chain, 9) for chain in one.chains]) * unit


def box(one: Drawn, unit: float = 1.0) -> Floats:
    on = points(one, unit)
    return np.concatenate((on.min(axis=0), on.max(axis=0)))


def corner(name: str, drawing: Drawing) -> Floats:
    """Where the page's upper left corner lies, page units."""
    if name == "dia":
        return np.array([39.0, 19.0])
    assert drawing.page.extent is None or name == "boxy-svg" or drawing.page.extent[:2] == (0, 0)
    return np.array(drawing.page.extent[:2] if drawing.page.extent else (0.0, 0.0))


def marks(drawing: Drawing) -> tuple[Drawn | Words, ...]:
    """Shapes and words together."""
    return (*drawing.drawn, *drawing.words)


def test_every_drawing_of_the_folder_is_tried() -> None:
    assert {path.stem for path in (FIXTURES / "editors").glob("*.svg")} == set(UNITS)


@pytest.mark.parametrize("name", UNITS)
def test_the_page_says_what_the_dialect_says(name: str) -> None:
    found = dialect(name).page.mm_per_unit
    stated = STATED.get(name, UNITS[name])
    assert (
        found is None
        if stated is None
        else found == pytest.approx(stated, rel=2e-3 if name == "by-way-of-pdf" else 1e-4)
    )


@pytest.mark.parametrize("name", UNITS)
def test_every_shape_lies_where_it_lies_on_the_panel(name: str) -> None:
    drawing, unit = dialect(name), UNITS[name]
    shift = np.tile(corner(name, drawing) * unit, 2)
    found = np.array([box(one, unit) - shift for one in drawing.drawn])
    for one in PANEL.drawn:
        apart = np.abs(found - box(one)).max(axis=1)
        assert apart.min() < NOISE, one.own.id


@pytest.mark.parametrize("name", UNITS)
def test_bars_keep_their_curves_and_widths(name: str) -> None:
    drawing, unit = dialect(name), UNITS[name]
    shift = corner(name, drawing) * unit
    bars = [one for one in PANEL.drawn if one.layer in ("frame", "scrolls")]
    for bar in bars:
        wanted = points(bar)
        same = [one for one in drawing.drawn if len(points(one)) == len(wanted)]
        apart = [np.abs(points(one, unit) - shift - wanted).max() for one in same]
        nearest = same[int(np.argmin(apart))]
        assert min(apart) < NOISE, bar.own.id
        assert nearest.paint.width is not None
        assert nearest.paint.width * unit == pytest.approx(bar.paint.width, abs=NOISE)
        assert nearest.paint.fill is None


@pytest.mark.parametrize("name", [name for name in UNITS if name != "by-way-of-pdf"])
def test_words_say_the_same_in_the_same_places(name: str) -> None:
    drawing, unit = dialect(name), UNITS[name]
    x, y = corner(name, drawing) * unit
    said = {w.text: w.extent for w in drawing.words}
    for word in (w for w in PANEL.words if w.layer != "notes"):
        left, top, right, bottom = (v * unit for v in said[word.text])
        middle = ((word.extent[0] + word.extent[2]) / 2, (word.extent[1] + word.extent[3]) / 2)
        away = np.hypot((left + right) / 2 - x - middle[0], (top + bottom) / 2 - y - middle[1])
        # The exporter's own idea of the text's width differs from ours; a letter or two is near enough for a mark.
        assert away < 6 if name in ("illustrator-saved", "libreoffice-draw") else away < 0.1, word.text


@pytest.mark.parametrize("name", [name for name in UNITS if name != "by-way-of-pdf"])
def test_each_layers_name_reaches_its_objects(name: str) -> None:
    """In the object's own names or its ancestors', beginning with the layer's word, whatever was added to it."""
    found = dialect(name)
    for layer in ("frame", "scroll", "collar", "rivet", "joint", "radius", "end", "dimension"):
        count = sum((one.layer or "").startswith(layer) for one in marks(PANEL))
        named = [
            one
            for one in marks(found)
            if any(n.lower().startswith(layer) for naming in (one.own, *one.above) for n in naming.names)
        ]
        assert len(named) >= count, layer
