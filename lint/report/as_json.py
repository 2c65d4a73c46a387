"""The verdicts as JSON, in the form of schemas/results-1.json: mm, degrees, stable order, no times."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from lint.panel.jigs import Jig, jigs
from lint.panel.panel import Panel
from lint.panel.parts import Corner, Frame, Point, Scroll
from lint.report.caution import CAUTION
from lint.result import Place, Result, Waiver
from lint.sheet.sheet import Sheet
from lint.shown import encodable
from lint.verdict import Verdict

VERSION = 1
MOST = 10_000  # places in one file
SCHEMA = Path(__file__).parent / "schemas" / "results-1.json"
Json = dict[str, Any]


def as_json(verdicts: Sequence[Verdict]) -> str:
    """One JSON text for all drawings: `whole_json` of the `drawing_json` of each."""
    sheets = list(dict.fromkeys(verdict.sheet.name for verdict in verdicts))
    return whole_json([drawing_json(verdict) for verdict in verdicts], sheets)


def whole_json(drawings: Sequence[Json], sheets: Sequence[str]) -> str:
    """One JSON text, ending in a line end. `drawings` come from `drawing_json`, `sheets` are the names of the
    sheets in force. At most 10,000 places in all: what is left out is counted beside each result."""
    whole = {
        "version": VERSION,
        "sheet": sheets[0] if len(sheets) == 1 else None,
        "caution": CAUTION,
        "drawings": _bounded(drawings),
    }
    return encodable(json.dumps(whole, indent=1, ensure_ascii=False, allow_nan=False)) + "\n"


def _bounded(drawings: Sequence[Json]) -> list[Json]:
    """The drawings with no more than `MOST` places in all."""
    left, kept = MOST, []
    for drawing in drawings:
        results = []
        for result in drawing.get("results", ()):
            places = result["places"][:left]
            left -= len(places)
            out = result["places_left_out"] + len(result["places"]) - len(places)
            results.append(result | {"places": places, "places_left_out": out})
        kept.append(drawing | {"results": results} if results else drawing)
    return kept


def drawing_json(verdict: Verdict) -> Json:
    """What the JSON holds of one drawing: plain values, 10,000 places of each result at most."""
    path = verdict.path.replace(os.sep, "/")
    panel = verdict.panel
    if panel is None:
        error = {"path": path, "sheet": _sheet(verdict.sheet), "verdict": verdict.word, "error": verdict.error}
        return error | {"line": verdict.line}
    return {
        "path": path,
        "title": panel.title,
        "sheet": _sheet(verdict.sheet),
        "verdict": verdict.word,
        "digest": panel.digest,
        "scale": {
            "mm_per_unit": _figure(panel.scale.mm_per_unit, 9) if panel.scale.known else None,
            "from": panel.scale.by,
        },
        "results": [_result(result, panel) for result in verdict.results],
        "panel": _panel(panel, verdict.sheet),
        "notes": [*panel.notes, *verdict.sheet.warnings],
        "active": list(verdict.active),
    }


def _sheet(sheet: Sheet) -> Json:
    return {"name": sheet.name, "path": sheet.path and sheet.path.replace(os.sep, "/"), "digest": sheet.digest}


def _result(result: Result, panel: Panel) -> Json:
    return {
        "rule": result.rule,
        "kind": result.kind.value,
        "message": result.message,
        "remedy": result.remedy,
        "measured": _figure(result.measured, 6),
        "required": _figure(result.required, 6),
        "unit": result.unit,
        "figure": result.figure,
        "asked": result.asked,
        "because": result.because,
        "places": [_place(place, panel) for place in result.places[:MOST]],
        "places_left_out": max(len(result.places) - MOST, 0),
        "waived": _waiver(result.waived),
    }


def _waiver(waiver: Waiver | None) -> Json | None:
    if waiver is None:
        return None
    return {"drawing": waiver.drawing, "reason": waiver.reason, "sheet": waiver.sheet.replace(os.sep, "/")}


def _place(place: Place, panel: Panel) -> Json:
    source = place.source
    return _at((place.x, place.y), panel) | {
        "line": source.line,
        "id": source.id,
        "layer": source.layer,
        "sign": place.sign.value,
        "note": place.note,
        "remedy": place.remedy,
        "measured": _figure(place.measured, 6),
    }


def _panel(panel: Panel, sheet: Sheet) -> Json:
    return _bars(panel, sheet) | _places(panel) | _stated(panel)


def _bars(panel: Panel, sheet: Sheet) -> Json:
    """The metal: frame, scrolls, their families, other bars."""
    return {
        "frame": panel.frame and _frame(panel.frame, panel),
        "scrolls": [_scroll(scroll, panel) for scroll in (*panel.scrolls, *panel.samples)],
        "families": [_jig(jig) for jig in jigs(panel, sheet)],
        "bars": [{"id": bar.id, "length": _figure(bar.line.length), "width": _figure(bar.width)} for bar in panel.bars],
    }


def _jig(jig: Jig) -> Json:
    overlay = _figure(jig.overlay, 4)
    return {"family": jig.family, "scrolls": list(jig.scrolls), "overlay": overlay, "turned_over": jig.turned_over}


def _places(panel: Panel) -> Json:
    """Where bars are held, where they touch, and what is open between them."""
    return {
        "fasteners": [
            {"kind": f.kind, "id": f.id} | _at(f.at, panel) | {"holds": list(f.holds)} for f in panel.fasteners
        ],
        "contacts": [
            {"bars": list(c.bars)}
            | _at(c.at, panel)
            | {"gap": _figure(c.gap), "fastener": next(iter(c.fasteners), None)}
            for c in panel.contacts
        ],
        "openings": [
            {"diameter": _figure(o.diameter)} | _at(o.at, panel) | {"area": _figure(o.area.size, 1)}
            for o in panel.openings
        ],
    }


def _stated(panel: Panel) -> Json:
    """What the drawing states, and what of it was passed over."""
    return {
        "dimensions": [
            {"id": d.origin.id, "text": d.text, "stated": _figure(d.stated), "drawn": _figure(d.drawn), "of": d.of}
            for d in panel.dimensions
        ],
        "unread": [
            {"layer": u.layer, "objects": u.objects, "hidden": u.hidden, "why": u.why, "line": u.first.line}
            for u in panel.unread
        ],
    }


def _frame(frame: Frame, panel: Panel) -> Json:
    return {
        "outside": _figures(frame.outside),
        "inside": _figures(frame.inside),
        "bar": _figure(frame.bar_width),
        "diagonals": _figures(frame.diagonals),
        "corners": [_corner(corner, panel) for corner in frame.corners],
    }


def _corner(corner: Corner, panel: Panel) -> Json:
    return _at(corner.at, panel) | {
        "made": corner.made,
        "angle": _figure(corner.angle),
        "outside_radius": _figure(corner.outside_radius),
        "inside_radius": _figure(corner.inside_radius),
    }


def _scroll(scroll: Scroll, panel: Panel) -> Json:
    return {
        "id": scroll.bar.id,
        "kind": scroll.kind,
        "length": _figure(scroll.bar.line.length),
        "width": _figure(scroll.bar.width),
        "family": scroll.family,
        "turns": _figures(scroll.turns),
        "own_symmetry": _figure(scroll.symmetry, 4),
        "sample": scroll.sample,
        "ends": [{"name": end.name} | _at(end.at, panel) for end in scroll.ends],
    }


def _at(point: Point, panel: Panel) -> Json:
    x, y = panel.from_origin(point)
    return {"x": _figure(x), "y": _figure(y)}


def _figure(value: float | None, decimals: int = 3) -> float | None:
    """A number to a thousandth, -0 as 0; None for none and for what is no number."""
    if value is None or not math.isfinite(value):
        return None
    return round(float(value), decimals) + 0.0


def _figures(values: Sequence[float] | None) -> list[float | None] | None:
    return None if values is None else [_figure(value) for value in values]
