"""Verdicts made by hand, so that each report is tried on known figures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from lint.geometry.area import area
from lint.geometry.curve import curve
from lint.panel.panel import Panel
from lint.panel.parts import (
    Bar,
    Contact,
    Corner,
    Dimension,
    DrawnAs,
    End,
    Fastener,
    Frame,
    Opening,
    Origin,
    Scale,
    ScaleSource,
    Scroll,
    Unread,
)
from lint.result import Kind, Place, Result, Sign, Source, Waiver
from lint.rules import RULES
from lint.sheet import load_default
from lint.verdict import Verdict

# A name that would clear a terminal, turn its line round and break a page, were it printed as it is.
HOSTILE = "\x1b[2J\u202egp.evil\x00\u2028<script>alert(1)</script>"


def box(left: float, top: float, right: float, bottom: float) -> Any:
    return area([np.array([[left, top], [right, top], [right, bottom], [left, bottom]], dtype=float)])


def bar(name: str, points: list[tuple[float, float]], width: float | None = 6.0) -> Bar:
    return Bar(
        id=name,
        origin=Origin(line=7, id=name, layer="scrolls"),
        line=curve(np.array(points, dtype=float)),
        width=width,
        depth=12.0,
        metal=None,
        drawn_as=DrawnAs.CENTRELINE,
    )


def scroll(name: str, kind: str = "C", *, sample: bool = False) -> Scroll:
    ends = (End(at=(20.0, 30.0), name="ribbon"), End(at=(20.0, 230.0), name=None))
    line = bar(name, [(20.0, 30.0), (20.0, 230.0)])
    return Scroll(bar=line, kind=kind, turns=(1.25, 1.25), ends=ends, sample=sample, symmetry=0.01)


def frame() -> Frame:
    corners = tuple(
        Corner(at=(x, y), made="forged", angle=90.0, outside_radius=0.0, inside_radius=6.0 if y else None)
        for x, y in ((10.0, 20.0), (416.4, 20.0), (416.4, 629.6), (10.0, 629.6))
    )
    return Frame(
        members=(),
        metal=None,
        outer=None,
        inner=None,
        outside=(406.4, 609.6),
        inside=(381.0, 584.2),
        sides=(406.4, 609.6, 406.4, 609.6),
        diagonals=(732.6489, 732.6489),
        bar_width=12.7,
        corners=corners,
        meetings=(),
        joints=(),
        closed=True,
    )


def panel(**changed: Any) -> Panel:
    """A panel of two scrolls, one sample and one of everything else; its frame's corner lies at (10, 20)."""
    made = Panel(
        title="Side gate",
        scale=Scale(
            mm_per_unit=1.0,
            known=True,
            by="page",
            sources=(ScaleSource(by="page", says="406.4 mm", mm_per_unit=1.0),),
        ),
        page_zero=(0.0, 0.0),
        page_extent=None,
        origin=(10.0, 20.0),
        frame=frame(),
        scrolls=(scroll("path12"), scroll("path14", "S")),
        samples=(scroll("path20", sample=True),),
        bars=(bar("picket", [(0.0, 0.0), (0.0, 100.0)], None),),
        fasteners=(
            Fastener(
                id="rect3",
                kind="collar",
                origin=Origin(line=9, id="rect3", layer="collars"),
                at=(110.0, 120.0),
                size=(18.0, 12.0),
                area=box(101, 114, 119, 126),
                holds=("path12", "path14"),
            ),
        ),
        contacts=(Contact(bars=("path12", "frame"), at=(12.0, 40.0), gap=0.0, length=3.0, fasteners=("rivet1",)),),
        closeness=(),
        openings=(Opening(area=box(0, 0, 100, 100), at=(60.0, 70.0), diameter=96.3),),
        dimensions=(
            Dimension(
                origin=Origin(line=12, id="line4", layer="dimensions"),
                text="16 in",
                stated=406.4,
                drawn=406.4,
                between=((10.0, 0.0), (416.4, 0.0)),
                of="width",
            ),
        ),
        unread=(
            Unread(layer="doodles", objects=3, hidden=False, why="no role", first=Origin(line=3, id="x", layer="d")),
        ),
        doubles=(),
        notes=(),
        counts={},
        elements=0,
        digest="d1" * 32,
    )
    return replace(made, **changed)


def place(note: str = "largest circle 118.4 mm", *, sign: Sign = Sign.MEND, **changed: Any) -> Place:
    made = Place(x=213.2, y=324.8, note=note, sign=sign, source=Source(line=41, id="path12", layer="scrolls"))
    return replace(made, **changed)


def failing(*places: Place, **changed: Any) -> Result:
    """Pass-through, failed."""
    made = Result(
        rule="pass-through",
        kind=Kind.FAIL,
        message="A ball of 101.6 mm passes: the largest circle is 118.4 mm.",
        remedy="Close the opening, or set a bar in it.",
        measured=118.4,
        required=101.6,
        unit="mm",
        figure="118.4 mm",
        asked="under 101.6 mm",
        places=places or (place(),),
    )
    return replace(made, **changed)


def results(*others: Result) -> tuple[Result, ...]:
    """A pass of every rule, those of `others` in their stead."""
    stead = {result.rule: result for result in others}
    return tuple(
        stead.get(rule.id)
        or Result(rule=rule.id, kind=Kind.PASS, message="It stands at 1 mm.", measured=1.0, unit="mm", figure="1 mm")
        for rule in RULES
    )


WAIVER = Waiver(drawing="porch/*.svg", rule="pass-through", reason="hung above 3 m, agreed", sheet="requirements.toml")


def verdict(*others: Result, path: str = "porch/side-gate.svg", **changed: Any) -> Verdict:
    """A verdict on the panel above."""
    made = Verdict(path=path, sheet=load_default(), panel=panel(), results=results(*others))
    return replace(made, **changed)


def unreadable(path: str = "broken.svg") -> Verdict:
    """A drawing that could not be read."""
    return Verdict(
        path=path, sheet=load_default(), panel=None, results=(), error="The file ends inside <path>.", line=12
    )
