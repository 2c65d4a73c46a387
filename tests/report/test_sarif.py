"""SARIF 2.1.0 (OASIS Standard, 27 March 2020): the constraints are written from memory, by section number.

`test_the_published_schema_agrees` holds the same output to the published schema where a copy is named in the
environment (SARIF_SCHEMA).
"""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path
from urllib.parse import unquote, urlsplit

import jsonschema
import pytest

from lint import __version__
from lint.report import sarif as module
from lint.report.sarif import as_sarif, sarif_results, whole_sarif
from lint.result import Sign, Source
from lint.rules import RULES
from lint.verdict import Verdict
from tests.report.hand_made import HOSTILE, WAIVER, failing, place, unreadable, verdict
from tests.report.sarif_log import REVIEW, run_of


def sound() -> list[Verdict]:
    """One of everything."""
    hostile = place(HOSTILE, source=Source(line=3, id=HOSTILE, layer=HOSTILE))
    bare = place("no id", source=Source())
    return [
        verdict(failing(place(), bare), REVIEW),
        verdict(failing(waived=WAIVER), path="porch/Tür links #2.svg"),
        verdict(failing(hostile), path="../elsewhere/a.svg"),
        verdict(replace(failing(), places=()), path="-"),
        unreadable(),
    ]


def test_one_of_everything_holds_to_the_standard() -> None:
    run = run_of(*sound())
    assert len(run["results"]) == 6
    run_of(*sound(), passes=True)
    run_of()


@pytest.mark.skipif("SARIF_SCHEMA" not in os.environ, reason="no copy of the published schema is named")
def test_the_published_schema_agrees() -> None:
    schema = json.loads(Path(os.environ["SARIF_SCHEMA"]).read_text(encoding="utf-8-sig"))
    jsonschema.validators.validator_for(schema)(schema).validate(json.loads(as_sarif(sound(), passes=True)))


def test_every_rule_is_described_with_help_from_the_rule_s_own_words() -> None:
    """3.49; a strict reader also wants a help address and sentences that end."""
    driver = run_of(verdict())["tool"]["driver"]
    assert (driver["version"], driver["informationUri"][:8]) == (__version__, "https://")
    assert [rule["id"] for rule in driver["rules"]] == [rule.id for rule in RULES]
    for described, rule in zip(driver["rules"], RULES, strict=True):
        assert described["shortDescription"]["text"].endswith(".")
        assert described["fullDescription"]["text"].endswith(".")
        assert described["help"]["text"]
        assert rule.section("Why")[1:] in described["help"]["markdown"]
        assert described.get("name", "").casefold() != rule.id  # a name that says the id again is none
        assert described["helpUri"].endswith(f"#{rule.id}")


def test_a_fail_is_an_error_at_its_file_line_and_object() -> None:
    (result,) = run_of(verdict(failing()))["results"]
    assert (result["ruleId"], result["kind"], result["level"]) == ("pass-through", "fail", "error")
    assert result["message"]["text"] == "Largest circle 118.4 mm. Close the opening, or set a bar in it."
    (location,) = result["locations"]
    assert location["physicalLocation"]["artifactLocation"] == {"uri": "porch/side-gate.svg", "uriBaseId": "SRCROOT"}
    assert location["physicalLocation"]["region"] == {"startLine": 41}
    assert location["logicalLocations"] == [
        {"name": "path12", "fullyQualifiedName": "scrolls/path12", "kind": "element"}
    ]
    assert result["properties"] == {
        "measured": 118.4,
        "required": 101.6,
        "x": 203.2,
        "y": 304.8,
        "unit": "mm",
        "sheet": "two-corner-panel",
    }


def test_what_is_to_be_looked_at_has_no_level() -> None:
    (result,) = run_of(verdict(REVIEW))["results"]
    assert (result["kind"], result["level"]) == ("review", "none")


def test_passes_are_there_only_where_they_are_asked_for() -> None:
    assert run_of(verdict())["results"] == []
    told = run_of(verdict(), passes=True)["results"]
    assert [(r["kind"], r["level"]) for r in told] == [("pass", "none")] * len(RULES)


def test_each_finding_is_a_result_of_its_own() -> None:
    """3.27.12: one location, unless a change at every one of them is needed to mend it."""
    results = run_of(verdict(failing(place("a"), place("b"), place("c", sign=Sign.FACT))))["results"]
    assert [r["message"]["text"][:2] for r in results] == ["A.", "B."]


def test_a_waiver_is_a_suppression_with_its_reason() -> None:
    waived, plain = run_of(verdict(failing(waived=WAIVER)), verdict(failing()))["results"]
    (suppression,) = waived["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("external", "accepted")
    assert suppression["justification"] == "hung above 3 m, agreed."
    assert suppression["location"]["physicalLocation"]["artifactLocation"]["uri"] == "requirements.toml"
    assert plain["suppressions"] == []


def test_an_unreadable_drawing_is_a_notification_and_no_success() -> None:
    run = run_of(unreadable(), verdict())
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    (told,) = invocation["toolExecutionNotifications"]
    assert (told["level"], told["message"]["text"]) == ("error", "The file ends inside <path>.")
    assert told["locations"][0]["physicalLocation"]["region"]["startLine"] == 12
    assert run_of(verdict())["invocations"][0]["executionSuccessful"] is True


@pytest.mark.parametrize(
    "name", ["porch/Tür links.svg", "a b/c%20d.svg", "x:y.svg", "#1?.svg", "渦 巻.svg", "a\\b.svg"]
)
def test_any_file_name_becomes_a_uri_that_leads_back_to_it(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    (result,) = run_of(verdict(failing(), path=str(path)), root=str(tmp_path))["results"]
    uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert unquote(uri) == name
    assert urlsplit(uri).scheme == ""


def test_a_drawing_outside_the_folder_has_its_whole_path(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    (result,) = run_of(verdict(failing(), path=str(tmp_path / "insider" / "a.svg")), root=str(inside))["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"] == {
        "uri": (tmp_path / "insider" / "a.svg").as_uri()
    }


def test_a_file_name_that_is_no_utf_8_keeps_its_bytes() -> None:
    (result,) = run_of(verdict(failing(), path="gate\udcff.svg"))["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "gate%FF.svg"
    as_sarif([verdict(failing(place("\udcff")), path="gate\udcff.svg")]).encode("utf-8")


def test_at_most_ten_thousand_results_are_held_and_the_rest_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST", 100)
    many = verdict(failing(*[place()] * 130))
    run = run_of(many, many)
    assert len(run["results"]) == 100
    (told,) = run["invocations"][0]["toolExecutionNotifications"]
    assert told["message"]["text"] == "160 more results are not listed."
    assert run["invocations"][0]["executionSuccessful"] is True


def test_drawings_checked_apart_give_the_same_as_together() -> None:
    assert whole_sarif([sarif_results(v) for v in sound()]) == as_sarif(sound())


def test_no_control_character_of_a_drawing_is_in_a_message() -> None:
    for result in run_of(*sound())["results"]:
        assert result["message"]["text"].isprintable()
