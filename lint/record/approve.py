"""Writes the approval record: what the teacher agreed to, part by part and measure by measure."""

from __future__ import annotations

import os
from dataclasses import asdict
from typing import Any

from lint.errors import Refused
from lint.panel.figures import figures_of
from lint.record.points import points_of
from lint.result import Kind, Result
from lint.sheet.approved import VERSION, Approved, Revision
from lint.verdict import Verdict

_HEAD = """\
# The approval record of {drawing}, kept beside it. The last [[revision]] is in force.
# It is a record of what was agreed, not a signature: sign the marked-up drawing for that.
# Lengths are mm, angles degrees; places are right and down from the frame's upper left outside corner.
"""


def approve(verdict: Verdict, *, by: str, on: str) -> str:
    """The record's text with one more revision, by whom and on which day (ISO 8601).

    Refused with a sentence where the drawing was not read, has no scale, or fails a rule that is not waived (the
    approval rule itself excepted: a new approval is its mend), and where the record already says the same.
    """
    if verdict.panel is None:
        raise Refused(f"{verdict.path}: was not read, so there is nothing to approve: {verdict.error}")
    name = " ".join(by.split())
    if not name:
        raise Refused("An approval needs a name: --by NAME.")
    failing = [result for result in verdict.results if result.stops and result.rule != "approval"]
    if failing:
        raise Refused(_why_not(verdict.path, failing))
    if not verdict.panel.scale.known:
        raise Refused(f"{verdict.path}: has no scale, so nothing in it can be agreed to the millimetre.")
    earlier = verdict.sheet.approved
    ruling = next((result.kind for result in verdict.results if result.rule == "approval"), None)
    if earlier is not None and ruling is Kind.PASS:
        raise Refused(
            f"{verdict.path}: is approved as it is: revision {earlier.last.number} by {earlier.last.by} on "
            f"{earlier.last.on}."
        )
    return _written(verdict, earlier, _revision(verdict, earlier, name, on))


def _why_not(path: str, failing: list[Result]) -> str:
    rules = ", ".join(result.rule for result in failing)
    return f"{path}: fails {rules}, so it cannot be approved. Mend it, or waive the rule with a reason in the sheet."


def _revision(verdict: Verdict, earlier: Approved | None, by: str, on: str) -> Revision:
    assert verdict.panel is not None
    waived = tuple((r.rule, r.waived.reason) for r in verdict.results if r.waived is not None)
    return Revision(
        number=earlier.last.number + 1 if earlier else 1,
        by=by,
        on=on,
        sheet=verdict.sheet.name,
        sheet_digest=verdict.sheet.digest,
        geometry_digest=verdict.panel.digest,
        waivers=waived,
        parts=figures_of(verdict.panel),
        points=points_of(verdict.panel, verdict.sheet),
    )


def _written(verdict: Verdict, earlier: Approved | None, new: Revision) -> str:
    import tomli_w

    drawing = os.path.basename(verdict.path)
    revisions = (*(earlier.revisions if earlier else ()), new)
    table = {"version": VERSION, "drawing": drawing, "revision": [_table(revision) for revision in revisions]}
    head = _HEAD.format(drawing="".join(c if c.isprintable() else "?" for c in drawing))
    return head + tomli_w.dumps(table)


def _table(revision: Revision) -> dict[str, Any]:
    table = asdict(revision)
    table["waiver"] = [{"rule": rule, "reason": reason} for rule, reason in table.pop("waivers")]
    table["part"] = [{**part, "figures": _round(part["figures"])} for part in table.pop("parts")]
    table["point"] = [_point(point) for point in table.pop("points")]
    return table


def _point(point: dict[str, Any]) -> dict[str, Any]:
    rounded = {**point, "value": round(point["value"], 3), "at": _round(point["at"])}
    rounded["limit"] = round(point["limit"], 4)
    if rounded["most"] is None:
        del rounded["most"]
    return rounded


def _round(figures: tuple[float, ...]) -> list[float]:
    return [round(float(figure), 3) + 0.0 for figure in figures]
