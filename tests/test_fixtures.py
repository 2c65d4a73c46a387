"""Every drawing says in its <desc> what must be reported of it, and nothing else may be.

`expect: pass-through fail 128.0` is one result: rule, kind and, where given, the measured figure (within 0.1, or
0.2 % where that is more). A rule that is not named must pass or not apply; `pass` alone says that all do. Several
expectations stand on lines of their own, or behind semicolons.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from lxml import etree

from lint.check import check
from lint.commands._job import Wanted, verdict_on
from lint.result import Kind
from lint.sheet import load_default

ROOT = Path(__file__).parent.parent
SKIPPED = {"golden", "unreadable"}
DRAWINGS = sorted(
    p for p in (ROOT / "fixtures").rglob("*.svg") if p.relative_to(ROOT / "fixtures").parts[0] not in SKIPPED
)
_EXPECT = re.compile(r"expect:\s*(?P<what>[^\n]+)")


def expected(path: Path) -> dict[str, tuple[str, float | None]]:
    """Rule -> (kind, figure or None) as the drawing's own description says."""
    root = etree.parse(str(path), etree.XMLParser(huge_tree=True)).getroot()
    text = "\n".join("".join(map(str, d.itertext())) for d in root.iter("{*}desc"))
    found: dict[str, tuple[str, float | None]] = {}
    for match in _EXPECT.finditer(text):
        for part in match["what"].split(";"):
            words = part.split()
            if len(words) >= 2:
                found[words[0]] = (words[1], float(words[2]) if len(words) > 2 else None)
    return found


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda p: str(p.relative_to(ROOT / "fixtures")))
def test_a_drawing_breaks_what_it_announces_and_nothing_else(path: Path) -> None:
    verdict = verdict_on(str(path), Wanted())
    assert verdict.error == ""
    wanted = expected(path)
    for result in verdict.results:
        kind, figure = wanted.get(result.rule, ("", None))
        if not kind:
            assert result.kind in (Kind.PASS, Kind.NOT_APPLICABLE), f"{result.rule}: {result.kind}: {result.message}"
            continue
        assert result.kind.value == kind, f"{result.rule}: {result.message}"
        if figure is not None:
            assert result.measured == pytest.approx(figure, rel=0.002, abs=0.1), result.message


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda p: str(p.relative_to(ROOT / "fixtures")))
def test_every_drawable_element_is_accounted_for(path: Path) -> None:
    panel = verdict_on(str(path), Wanted()).panel
    assert panel is not None
    assert sum(panel.counts.values()) == panel.elements


def test_every_fixture_of_a_rule_announces_that_rule() -> None:
    for path in DRAWINGS:
        folder = path.relative_to(ROOT / "fixtures").parts[0]
        if folder not in {"panel.svg", "editors", "false-alarms", "misses", "outlines"}:
            assert folder in expected(path), path


def test_the_passing_panel_passes_every_rule() -> None:
    results = verdict_on(str(ROOT / "fixtures" / "panel.svg"), Wanted()).results
    not_passed = {r.rule: r.kind.value for r in results if r.kind is not Kind.PASS}
    assert not_passed == {"approval": "notApplicable"}


@pytest.mark.parametrize(
    "turn",
    ["rotate(180.36886101452512) translate(3 4)",
     "rotate(179.057882011448) translate(-28.607318277845973 25.37751849560388)"],
)  # fmt: skip
def test_outlines_a_little_askew_are_read_as_they_are_upright(turn: str) -> None:
    """Found by turning drawings at random: rounding among long even rows of points."""
    text = (ROOT / "fixtures" / "false-alarms" / "frame-as-filled-u-and-bar.svg").read_text()
    turned = re.sub(r'(<g id="layer1")', rf'<g transform="{turn}">\1', text, count=1).replace("</svg>", "</g></svg>")
    assert turned.count("<g transform=") > text.count("<g transform=")
    frame = [next(r for r in check(t.encode(), load_default()).results if r.rule == "frame") for t in (text, turned)]
    assert frame[0].kind is frame[1].kind is Kind.PASS
