"""One run of SARIF, held to what the standard says SHALL be; and a result to look at."""

from __future__ import annotations

import json
import re
from typing import Any
from urllib.parse import urlsplit

from lint.report.sarif import as_sarif
from lint.result import Kind, Result, Sign
from lint.verdict import Verdict
from tests.report.hand_made import place

REVIEW = Result(
    rule="balance",
    kind=Kind.REVIEW,
    message="The layout repeats within 9 mm only.",
    remedy="Look at it.",
    places=(place("left half is off by 9 mm", sign=Sign.LOOK),),
)


def run_of(*verdicts: Verdict, **how: Any) -> dict[str, Any]:
    log = json.loads(as_sarif(verdicts, **how))
    assert log["version"] == "2.1.0"  # 3.13.2
    (run,) = log["runs"]
    held_to_the_standard(run)
    return dict(run)


def held_to_the_standard(run: dict[str, Any]) -> None:
    """What the standard says SHALL be, as far as this output uses it."""
    driver = run["tool"]["driver"]
    assert driver["name"]  # 3.19.8
    assert re.fullmatch(r"\d+\.\d+\.\d+", driver["semanticVersion"])  # 3.19.12
    assert len({rule["id"] for rule in driver["rules"]}) == len(driver["rules"])
    for result in run["results"]:
        held_result(result, driver["rules"])
    bases = run["originalUriBaseIds"]
    assert all(base["uri"].startswith("file:///") and base["uri"].endswith("/") for base in bases.values())  # 3.14.14
    # 3.27.23: all null or all not null
    assert len({"suppressions" in result for result in run["results"]}) < 2
    for invocation in run["invocations"]:
        assert isinstance(invocation["executionSuccessful"], bool)  # 3.20.14
    for location in located(run):
        held_artifact(location, bases)


def held_result(result: dict[str, Any], rules: list[dict[str, Any]]) -> None:
    assert rules[result["ruleIndex"]]["id"] == result["ruleId"]  # 3.27.5, 3.27.6
    assert result["kind"] in ("pass", "open", "informational", "notApplicable", "review", "fail")  # 3.27.9
    assert result["level"] == "none" or result["kind"] == "fail"  # 3.27.10
    message = result["message"]
    assert message["text"].endswith(".")
    template = rules[result["ruleIndex"]]["messageStrings"][message["id"]]["text"]  # 3.11.7
    assert template.replace("{0}", message["arguments"][0]) == message["text"]  # 3.11.5
    for location in result["locations"]:
        assert location["physicalLocation"]["region"]["startLine"] >= 1  # 3.30.5
    for mark in result["partialFingerprints"].values():
        assert re.fullmatch(r"[0-9a-f]{64}", mark)  # 3.27.17
    for suppression in result["suppressions"]:
        assert suppression["kind"] in ("inSource", "external")  # 3.35.2
        assert suppression["status"] in ("accepted", "underReview", "rejected")  # 3.35.3


def held_artifact(location: dict[str, Any], bases: dict[str, Any]) -> None:
    """3.4.3 and 3.4.4: a URI reference (RFC 3986); relative with a base that is known, absolute without."""
    uri = location["uri"]
    assert re.fullmatch(r"[A-Za-z0-9\-._~!$&'()*+,;=:@%/]*", uri)
    assert not re.search(r"%(?![0-9A-F]{2})", uri)
    if "uriBaseId" in location:
        assert location["uriBaseId"] in bases
        assert not urlsplit(uri).scheme
        assert not uri.startswith("/")
        assert ".." not in uri.split("/")
    else:
        assert uri.startswith("file:///") or uri == "-"


def located(tree: Any) -> list[dict[str, Any]]:
    """All artifactLocation objects."""
    if isinstance(tree, list):
        return [found for item in tree for found in located(item)]
    if not isinstance(tree, dict):
        return []
    own = [tree["artifactLocation"]] if "artifactLocation" in tree else []
    return own + [found for item in tree.values() for found in located(item)]
