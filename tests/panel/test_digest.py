"""The fingerprint moves with the metal, and with nothing else."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from lint.drawing import read
from lint.panel import build
from lint.sheet import load_default

PANEL = (Path(__file__).parents[2] / "fixtures" / "panel.svg").read_text()
SHEET = load_default()


def digest(text: str) -> str:
    return build(read(text.encode()), SHEET).digest


def swapped(text: str) -> str:
    """The two scrolls in the other order."""
    first, second = re.findall(r"    <path id=\"scroll-\d\"[^\n]*\n", text)
    return text.replace(first + second, second + first)


_OTHER = {"fishtail": "ribbon", "ribbon": "fishtail"}
SAME: dict[str, Callable[[str], str]] = {
    "other colours": lambda t: t.replace("#8d949b", "#000000"),
    "other ids": lambda t: t.replace('id="rivet-', 'id="rivet-no-'),
    "another order": swapped,
    "an editor's own attributes": lambda t: t.replace("<g ", '<g data-seen="1" style="opacity:0.9" '),
    "a line drawn from its other end": lambda t: t.replace("M 42,30 L 298,30", "M 298,30 L 42,30"),
    "a node more": lambda t: t.replace("M 42,30 L 298,30", "M 42,30 H 117.3 H 298"),
    "a note more": lambda t: t.replace("</svg>", '<text id="note-9">seen</text></svg>'),
    "moved on the page": lambda t: t.replace('viewBox="0 0 340 300"', 'viewBox="-13.37 -2.71 340 300"'),
    "the last digit of an editor": lambda t: t.replace('cx="42" ', 'cx="42.0000004" ').replace(
        "M 36,24", "M 35.9999997,24"
    ),
    "another name for an end": lambda t: t.replace(">fishtail<", ">Fish-tail<"),
    "another spelling of a size": lambda t: t.replace(">280<", ">28 cm<"),
}
OTHER: dict[str, Callable[[str], str]] = {
    "a rivet moved by 0.02 mm": lambda t: t.replace('cx="42" cy="80.11771"', 'cx="42.02" cy="80.11771"'),
    "a bar wider by 0.02 mm": lambda t: t.replace('stroke-width="6"', 'stroke-width="6.02"'),
    "an end of another kind": lambda t: t.replace(">fishtail<", ">ball<"),
    "two ends changed about": lambda t: re.sub(">(fishtail|ribbon)<", lambda m: f">{_OTHER[m[1]]}<", t),
    "another figure": lambda t: t.replace(">280<", ">281<"),
    "another kind of joint": lambda t: t.replace('id="joint-1"', 'id="joint-1" inkscape:label="halved"'),
    "another radius": lambda t: t.replace("M 42,242 A 6,6 0 0 0 48,248", "M 42,241 A 7,7 0 0 0 49,248"),
    "a collar taken out": lambda t: re.sub(r"    <rect id=\"collar-1\"[^\n]*\n", "", t),
    "a scroll made a sample": lambda t: t.replace('id="scroll-2"', 'id="sample-2"'),
    "another scale": lambda t: t.replace("</svg>", '<text id="scale" x="9" y="290">1:2</text></svg>'),
}  # fmt: skip


@pytest.mark.parametrize("change", SAME)
def test_the_digest_stays(change: str) -> None:
    text = SAME[change](PANEL)
    assert text != PANEL
    assert digest(text) == digest(PANEL)


@pytest.mark.parametrize("change", OTHER)
def test_the_digest_moves(change: str) -> None:
    text = OTHER[change](PANEL)
    assert text != PANEL
    assert digest(text) != digest(PANEL)
