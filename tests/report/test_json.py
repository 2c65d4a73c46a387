"""The JSON report holds what was measured, in the form of its schema."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from lint.check import check
from lint.report import as_json as module
from lint.report.as_json import SCHEMA, as_json, drawing_json, whole_json
from lint.report.sarif import as_sarif
from lint.report.terminal import report
from lint.report.terse import terse
from lint.result import Kind, Result
from lint.rules import RULES
from lint.sheet import load, sheet_for
from tests.report.hand_made import HOSTILE, WAIVER, failing, frame, panel, place, unreadable, verdict
from tests.report.sarif_log import held_to_the_standard

ROOT = Path(__file__).parent.parent.parent
DRAWINGS = sorted(path for folder in ("fixtures", "examples") for path in (ROOT / folder).rglob("*.svg*"))
FORM: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(FORM)


def parsed(text: str) -> dict[str, Any]:
    """The JSON read by a strict reader: no NaN, no key twice."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        assert len({key for key, _ in pairs}) == len(pairs)
        return dict(pairs)

    def refuse(word: str) -> None:
        raise AssertionError(word)

    whole: dict[str, Any] = json.loads(text, object_pairs_hook=once, parse_constant=refuse)
    VALIDATOR.validate(whole)
    return whole


def test_the_schema_is_one_of_json_schema_2020_12() -> None:
    jsonschema.Draft202012Validator.check_schema(FORM)
    assert FORM["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_schema_takes_every_rule_and_no_other_words() -> None:
    name = re.compile(FORM["$defs"]["result"]["properties"]["rule"]["pattern"])
    assert all(name.search(rule.id) for rule in RULES)
    assert not name.search("Pass through")


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("version",), 2),
        (("drawings", 0, "verdict"), "safe"),
        (("drawings", 0, "digest"), None),
        (("drawings", 0, "results", 0, "kind"), "open"),
        (("drawings", 0, "results", 0, "unit"), "in"),
        (("drawings", 0, "results", 0, "places"), {}),
        (("drawings", 0, "panel", "scrolls", 0, "kind"), "Z"),
        (("drawings", 0, "panel", "scrolls", 0, "ends"), []),
        (("drawings", 0, "panel", "openings", 0, "diameter"), "96.3"),
        (("drawings", 0, "panel", "extra"), 1),
    ],
)
def test_the_schema_refuses_what_is_not_of_its_form(path: tuple[Any, ...], value: Any) -> None:
    whole = parsed(as_json([verdict(failing())]))
    at: Any = whole
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = value
    assert list(VALIDATOR.iter_errors(whole))


def test_every_key_that_is_promised_is_there() -> None:
    """The keys that the description of the outputs names."""
    whole = parsed(as_json([verdict(failing())]))
    (drawing,) = whole["drawings"]
    assert {"version", "sheet", "drawings"} <= whole.keys()
    assert {"path", "verdict", "digest", "scale", "results", "panel"} <= drawing.keys()
    promised = {"rule", "kind", "message", "remedy", "measured", "required", "unit", "places", "waived"}
    assert all(promised <= result.keys() for result in drawing["results"])
    assert set(drawing["panel"]) >= set(
        "frame scrolls families fasteners contacts openings dimensions unread".split()  # noqa: SIM905
    )


def test_places_are_from_the_corner_of_the_frame() -> None:
    drawing = drawing_json(verdict(failing()))
    (found,) = next(r for r in drawing["results"] if r["rule"] == "pass-through")["places"]
    # (213.2, 324.8) less the frame's corner (10, 20)
    assert (found["x"], found["y"]) == (203.2, 304.8)
    assert (found["line"], found["id"], found["layer"]) == (41, "path12", "scrolls")
    assert (found["note"], found["sign"]) == ("largest circle 118.4 mm", "mend")
    corner = drawing["panel"]["frame"]["corners"][0]
    assert (corner["x"], corner["y"], corner["made"], corner["inside_radius"]) == (0.0, 0.0, "forged", 6.0)


def test_the_panel_is_told_in_millimetres_whatever_the_sheet_s_units() -> None:
    inches = replace(load("two-corner-panel"), units="in")
    told = drawing_json(verdict(sheet=inches))["panel"]
    assert told == drawing_json(verdict())["panel"]
    assert told["frame"]["outside"] == [406.4, 609.6]
    assert told["frame"]["diagonals"] == [732.649, 732.649]  # sqrt(406.4^2 + 609.6^2) = 732.6489...
    assert [(s["id"], s["kind"], s["sample"]) for s in told["scrolls"]] == [
        ("path12", "C", False),
        ("path14", "S", False),
        ("path20", "C", True),
    ]
    assert told["scrolls"][0]["length"] == 200.0
    assert told["openings"] == [{"diameter": 96.3, "x": 50.0, "y": 50.0, "area": 10000.0}]
    assert told["contacts"][0]["fastener"] == "rivet1"
    assert told["bars"] == [{"id": "picket", "length": 100.0, "width": None}]


def test_a_panel_without_frame_or_scale_is_told_with_nulls() -> None:
    bare = panel(frame=None, scale=replace(panel().scale, known=False, by="nobody"))
    half = panel(frame=replace(frame(), outside=None, inside=None, diagonals=None, bar_width=None, corners=()))
    whole = parsed(as_json([verdict(panel=bare), verdict(panel=half)]))
    assert whole["drawings"][0]["panel"]["frame"] is None
    assert whole["drawings"][0]["scale"] == {"mm_per_unit": None, "from": "nobody"}
    assert whole["drawings"][1]["panel"]["frame"]["outside"] is None


def test_a_waiver_is_told_with_its_reason() -> None:
    (drawing,) = parsed(as_json([verdict(failing(waived=WAIVER))]))["drawings"]
    waived = next(r["waived"] for r in drawing["results"] if r["rule"] == "pass-through")
    assert waived == {"drawing": "porch/*.svg", "reason": "hung above 3 m, agreed", "sheet": "requirements.toml"}
    assert drawing["verdict"] == "pass"


def test_an_unreadable_drawing_is_told_beside_the_others() -> None:
    whole = parsed(as_json([unreadable(), verdict()]))
    assert whole["drawings"][0]["verdict"] == "unreadable"
    assert (whole["drawings"][0]["error"], whole["drawings"][0]["line"]) == ("The file ends inside <path>.", 12)
    assert "panel" not in whole["drawings"][0]


def test_numbers_that_are_none_become_null_and_no_zero_is_negative() -> None:
    odd = failing(place(x=10.0 - 1e-9, y=20.0, measured=float("inf")), measured=float("nan"), required=-0.0)
    text = as_json([verdict(odd)])
    (found,) = next(r for r in parsed(text)["drawings"][0]["results"] if r["rule"] == "pass-through")["places"]
    assert found["measured"] is None
    assert "-0.0" not in text


def test_it_is_the_same_to_the_byte_each_time_and_holds_no_time() -> None:
    verdicts = [verdict(failing()), unreadable()]
    assert as_json(verdicts) == as_json(verdicts)
    assert not re.search(r"\b20\d\d-\d\d-\d\d\b", as_json(verdicts).replace(json.dumps(verdicts[0].sheet.digest), ""))


def test_drawings_checked_apart_give_the_same_as_together() -> None:
    verdicts = [verdict(failing()), verdict(path="b.svg"), unreadable()]
    assert whole_json([drawing_json(v) for v in verdicts], ["two-corner-panel"]) == as_json(verdicts)


def test_at_most_ten_thousand_places_are_held_and_the_rest_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST", 100)
    many = failing(*[place()] * 70)
    whole = parsed(as_json([verdict(many), verdict(many), verdict(many)]))
    held = [next(r for r in d["results"] if r["rule"] == "pass-through") for d in whole["drawings"]]
    assert [(len(r["places"]), r["places_left_out"]) for r in held] == [(70, 0), (30, 40), (0, 70)]


def test_several_sheets_leave_the_name_at_the_top_open() -> None:
    other = replace(load("two-corner-panel"), name="evening class")
    whole = parsed(as_json([verdict(), verdict(sheet=other)]))
    assert whole["sheet"] is None
    assert [d["sheet"]["name"] for d in whole["drawings"]] == ["two-corner-panel", "evening class"]
    assert parsed(as_json([verdict(sheet=other)]))["sheet"] == "evening class"


def test_hostile_names_come_back_as_they_are() -> None:
    odd = Result(rule="frame", kind=Kind.FAIL, message=HOSTILE, remedy=HOSTILE, places=(place(HOSTILE),))
    (drawing,) = parsed(as_json([verdict(odd, path=HOSTILE)]))["drawings"]
    assert drawing["path"] == HOSTILE
    assert drawing["results"][2]["message"] == HOSTILE


def test_a_file_name_that_is_no_utf_8_does_not_stop_the_report() -> None:
    whole = parsed(as_json([verdict(path="gate\udcff.svg")]))
    assert whole["drawings"][0]["path"] == "gate\ufffd.svg"
    as_json([verdict(path="gate\udcff.svg")]).encode("utf-8")


@pytest.mark.parametrize("drawing", DRAWINGS, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_drawing_s_outputs_hold_to_their_forms(drawing: Path) -> None:
    """JSON to its schema; SARIF to the standard as `test_sarif` has it; terse lines to the GNU form."""
    judged = check(drawing.read_bytes(), sheet_for(str(drawing)), path=str(drawing))
    parsed(as_json([judged]))
    held_to_the_standard(json.loads(as_sarif([judged], passes=True))["runs"][0])
    for line in terse([judged]).splitlines():
        assert re.match(r"[^:]+:\d+: ((fail|review|waived) [a-z-]+|unreadable): .+", line)
    assert report([judged]).isascii() or not set(report([judged])) & set("\x1b\u202e\u2028\x00")
