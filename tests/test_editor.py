"""A real editor (Debian's inkscape, without a window) opens and saves our drawings: the figures stay.

The panel is compared figure by figure, within 0.01 mm, as the approval record compares them.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest

from lint.commands._job import Wanted, verdict_on
from lint.panel.figures import figures_of
from lint.panel.panel import Panel
from lint.sheet import load_default
from lint.shop.blank import blank

ROOT = Path(__file__).parent.parent
EXAMPLES = ("two-c-panel", "s-pair-panel", "six-c-window", "mixed-panel")
MM = 96 / 25.4  # the editor's actions count in pixels

pytestmark = pytest.mark.skipif(shutil.which("inkscape") is None, reason="Debian's inkscape is not on this machine")


def saved(source: Path, target: Path, *actions: str, plain: bool = False) -> Path:
    """The drawing as the editor saves it after `actions`."""
    ending = ["export-plain-svg"] if plain else []
    steps = ";".join((*actions, *ending, f"export-filename:{target}", "export-do"))
    subprocess.run(["inkscape", str(source), f"--actions={steps}"], check=True, capture_output=True, timeout=120)
    return target


def panel_of(path: Path) -> Panel:
    panel = verdict_on(str(path), Wanted()).panel
    assert panel is not None
    return panel


def differences(before: Panel, after: Panel) -> list[str]:
    """Every row of figures that is not the same within 0.01 mm."""
    old, new = figures_of(before), figures_of(after)
    wrong = [f"{a.name}: {a.what}" for a, b in zip(old, new, strict=False) if (a.kind, a.what) != (b.kind, b.what)]
    wrong += [f"{len(old)} rows, then {len(new)}"] if len(old) != len(new) else []
    for a, b in zip(old, new, strict=False):
        if len(a.figures) != len(b.figures) or not np.allclose(a.figures, b.figures, rtol=0, atol=0.01):
            wrong.append(f"{a.name}: {a.figures} {b.figures}")
    return wrong


@pytest.mark.parametrize("plain", [False, True], ids=["own format", "plain format"])
@pytest.mark.parametrize("name", EXAMPLES)
def test_a_drawing_that_an_editor_saved_again_has_the_same_figures(name: str, plain: bool, tmp_path: Path) -> None:
    source = ROOT / "examples" / f"{name}.svg"
    again = saved(source, tmp_path / "again.svg", plain=plain)
    assert differences(panel_of(source), panel_of(again)) == []
    assert verdict_on(str(again), Wanted()).word == "pass"


def test_a_flipped_clone_is_the_scroll_it_stands_for(tmp_path: Path) -> None:
    """The second C is thrown away, and a clone of the first flipped and moved to its place."""
    source = ROOT / "examples" / "two-c-panel.svg"
    flipped = saved(
        source, tmp_path / "flipped.svg", "select-by-id:scroll-2", "delete", "select-by-id:scroll-1", "clone",
        "object-flip-horizontal",
    )  # fmt: skip
    mirrored = re.search(r"matrix\(-1,0,0,1,([\d.]+),", flipped.read_text())
    assert mirrored
    move = (340 - float(mirrored[1])) * MM  # the panel's middle stands at 170 mm on the page
    cloned = saved(
        source, tmp_path / "cloned.svg", "select-by-id:scroll-2", "delete", "select-by-id:scroll-1", "clone",
        "object-flip-horizontal", f"transform-translate:{move:.6f},0",
    )  # fmt: skip
    assert "<use" in cloned.read_text()
    assert differences(panel_of(source), panel_of(cloned)) == []


def test_nested_and_moved_layers_keep_the_figures(tmp_path: Path) -> None:
    source = ROOT / "examples" / "mixed-panel.svg"
    text = source.read_text()
    layer = '<g id="layer2" inkscape:groupmode="layer" inkscape:label="scrolls">'
    assert layer in text
    nested = text.replace(
        layer, f'{layer}<g id="inner" inkscape:groupmode="layer" inkscape:label="upper" transform="translate(3,0)">', 1
    )
    head, tail = nested.split('<path id="scroll-3"', 1)
    (tmp_path / "nested.svg").write_text(f'{head}</g><path id="scroll-3"{tail}')
    again = saved(
        tmp_path / "nested.svg", tmp_path / "again.svg", "select-by-id:inner", f"transform-translate:{-3 * MM:.6f},0"
    )
    assert differences(panel_of(source), panel_of(again)) == []


@pytest.mark.parametrize("plain", [False, True], ids=["own format", "plain format"])
@pytest.mark.parametrize(("size", "units"), [((406.4, 609.6), "in"), ((400.0, 600.0), "mm")])
def test_a_blank_drawing_keeps_its_layers_and_its_frame(
    size: tuple[float, float], units: str, plain: bool, tmp_path: Path
) -> None:
    source = tmp_path / "blank.svg"
    source.write_bytes(blank(*size, load_default(), units=units))
    again = saved(source, tmp_path / "again.svg", plain=plain)
    before, after = panel_of(source), panel_of(again)
    assert before.frame is not None
    assert before.frame.outside == pytest.approx(size, abs=1e-3)
    assert differences(before, after) == []
    for layer in ("scrolls", "collars", "rivets", "ends", "samples"):
        assert f'id="{layer}"' in again.read_text()
