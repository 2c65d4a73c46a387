"""The verdicts as SARIF 2.1.0 (OASIS): what must be mended or looked at, for editors and code hosts.

Numbers in comments are sections of the standard. Passes are left out unless asked for: the widest used host shows
every result as an alert, whatever its `kind`; the JSON report holds them all.
"""

from __future__ import annotations

import hashlib
import json
import math
import os
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any
from urllib.parse import quote

from lint import __version__
from lint.report.caution import CAUTION
from lint.report.findings import findings, noted
from lint.report.rule_words import sections, sentence, title
from lint.result import Kind, Place, Result, Source
from lint.rules import RULES
from lint.rules._rule import Rule
from lint.shown import encodable, plain, shown
from lint.verdict import Verdict

HOME = "https://pypi.org/project/grille-lint/"
SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
BASE = "SRCROOT"
MOST = 10_000  # results in one file
Json = dict[str, Any]
_INDEX = {rule.id: index for index, rule in enumerate(RULES)}


def as_sarif(verdicts: Sequence[Verdict], *, root: str = ".", passes: bool = False) -> str:
    """One SARIF log for all drawings: `whole_sarif` of the `sarif_results` of each."""
    return whole_sarif([sarif_results(verdict, root=root, passes=passes) for verdict in verdicts], root=root)


def sarif_results(verdict: Verdict, *, root: str = ".", passes: bool = False) -> Json:
    """What SARIF holds of one drawing: "results" and "notifications". Paths under the folder `root` are given
    relative to it; `passes` adds what passed and what was not judged."""
    if verdict.panel is None:
        return {"results": [], "notifications": [_unreadable(verdict, root)]}
    results = _results(verdict, root, passes)
    return {"results": list(islice(results, MOST)), "notifications": [], "left_out": sum(1 for _ in results)}


def whole_sarif(drawings: Sequence[Json], *, root: str = ".") -> str:
    """One SARIF log with one run, ending in a line end. `drawings` come from `sarif_results`. At most 10,000
    results: what is left out is told as a notification."""
    results = [result for drawing in drawings for result in drawing["results"]]
    told = [notification for drawing in drawings for notification in drawing["notifications"]]
    left_out = max(len(results) - MOST, 0) + sum(drawing.get("left_out", 0) for drawing in drawings)
    run = {
        "tool": {"driver": _driver()},
        "invocations": [_invocation(told, left_out)],
        "originalUriBaseIds": {BASE: {"uri": _folder_uri(root), "description": _text("The folder of the drawings.")}},
        "columnKind": "unicodeCodePoints",
        "results": results[:MOST],
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return encodable(json.dumps(log, indent=1, ensure_ascii=False, allow_nan=False)) + "\n"


def _driver() -> Json:
    return {
        "name": "grille-lint",
        "version": __version__,
        "semanticVersion": __version__,
        "informationUri": HOME,
        "shortDescription": _text("Checks the drawing of a forged iron grille against the requirements of the class."),
        "fullDescription": _text(CAUTION),
        "language": "en",
        "rules": [_descriptor(rule) for rule in RULES],
    }


def _descriptor(rule: Rule) -> Json:
    """One rule (3.49), from the words that also explain it on the command line."""
    said = sections(rule)
    passes = dict(said).get("Passes when", "")
    return {
        "id": rule.id,
        "shortDescription": _text(title(rule)),
        "fullDescription": _text(f"Passes when {passes[0].lower()}{passes[1:]}" if passes else title(rule)),
        "help": {
            "text": "\n\n".join(f"{heading}: {words}" for heading, words in said) or title(rule),
            "markdown": "\n\n".join(f"**{heading}**\n\n{words}" for heading, words in said) or title(rule),
        },
        "helpUri": f"{HOME}#{rule.id}",
        "messageStrings": {"finding": {"text": "{0}."}},
        "defaultConfiguration": {"level": "error"},
    }


def _invocation(told: Sequence[Json], left_out: int) -> Json:
    """How the run went (3.20): a drawing that could not be read is told here."""
    more = [{"level": "warning", "message": _text(f"{left_out} more results are not listed.")}] if left_out else []
    return {"executionSuccessful": not told, "toolExecutionNotifications": [*told, *more]}


def _unreadable(verdict: Verdict, root: str) -> Json:
    where = {"physicalLocation": _physical(verdict.path, verdict.line, root)}
    return {"level": "error", "message": _text(sentence(plain(verdict.error))), "locations": [where]}


def _results(verdict: Verdict, root: str, passes: bool) -> Iterator[Json]:
    seen: Counter[str] = Counter()
    for result in verdict.results:
        if result.kind in (Kind.FAIL, Kind.REVIEW):
            for place in findings(result) or (None,):
                yield _result(result, place, verdict, root, seen)
        elif passes:
            yield _result(result, None, verdict, root, seen)


def _result(result: Result, place: Place | None, verdict: Verdict, root: str, seen: Counter[str]) -> Json:
    """One finding (3.27). `level` is "none" for all but a fail (3.27.10)."""
    source = place.source if place else Source()
    mark = _mark(result, place, verdict)
    seen[mark] += 1
    return {
        "ruleId": result.rule,
        "ruleIndex": _INDEX[result.rule],
        "kind": result.kind.value,
        "level": "error" if result.kind is Kind.FAIL else "none",
        "message": _message(result, place),
        "locations": [_location(verdict.path, source, root)],
        "partialFingerprints": {"object/v1": _hash(mark, str(seen[mark]))},
        "suppressions": _suppressions(result, root),
        "properties": _properties(result, place, verdict),
    }


def _message(result: Result, place: Place | None) -> Json:
    """What was found and what to change. The rule's message string ends it, so that each is one sentence or more."""
    found = noted(place) if place else sentence(shown(result.message, 1000))
    words = " ".join(filter(None, (found, shown((place.remedy if place else "") or result.remedy, 1000))))
    words = sentence(words)
    return {"text": words, "id": "finding", "arguments": [words[:-1]]}


def _location(path: str, source: Source, root: str) -> Json:
    where: Json = {"physicalLocation": _physical(path, source.line, root)}
    names = [shown(name) for name in (source.layer, source.id) if name]
    if names:
        logical = {"name": names[-1], "fullyQualifiedName": "/".join(names), "kind": "element"}
        where["logicalLocations"] = [logical]
    return where


def _physical(path: str, line: int | None, root: str) -> Json:
    return {"artifactLocation": _artifact(path, root), "region": {"startLine": line or 1}}


def _artifact(path: str, root: str) -> Json:
    """A relative URI under the base where the drawing lies in it, else an absolute one (3.4)."""
    if path == "-":
        return {"uri": "-", "description": _text("Standard input.")}
    full = os.path.abspath(path)
    folder = os.path.abspath(root).rstrip(os.sep) + os.sep
    if full.startswith(folder):
        return {"uri": _quoted(full[len(folder) :]), "uriBaseId": BASE}
    return {"uri": _file_uri(full)}


def _quoted(path: str) -> str:
    """A path as a URI's path (RFC 3986): UTF-8, percent-encoded; a file name that is no UTF-8 keeps its bytes."""
    return quote(os.fsencode(path.replace(os.sep, "/")))


def _file_uri(full: str) -> str:
    return f"file:///{_quoted(full).lstrip('/')}"


def _folder_uri(root: str) -> str:
    return f"{_file_uri(os.path.abspath(root)).rstrip('/')}/"


def _mark(result: Result, place: Place | None, verdict: Verdict) -> str:
    """What makes a finding the same one after edits elsewhere: rule and object; without an id, the place from the
    frame's corner to a millimetre. Lines and figures move, so they are not in it."""
    if place is None:
        return result.rule
    if place.source.id:
        return f"{result.rule} {place.source.id}"
    assert verdict.panel is not None
    x, y = verdict.panel.from_origin((place.x, place.y))
    return f"{result.rule} {round(x)} {round(y)}"


def _hash(*parts: str) -> str:
    return hashlib.sha256("\n".join(parts).encode("utf-8", "surrogatepass")).hexdigest()


def _suppressions(result: Result, root: str) -> list[Json]:
    """A waiver (3.35). Every result has the list, for a reader must know that none was forgotten (3.27.23)."""
    if result.waived is None:
        return []
    waived: Json = {
        "kind": "external",
        "status": "accepted",
        "justification": sentence(shown(result.waived.reason, 1000)),
    }
    if result.waived.sheet:
        waived["location"] = {"physicalLocation": {"artifactLocation": _artifact(result.waived.sheet, root)}}
    return [waived]


def _properties(result: Result, place: Place | None, verdict: Verdict) -> Json:
    """The figures, for a program that wants more than words (3.8)."""
    figures: Json = {"measured": result.measured, "required": result.required}
    if place is not None and verdict.panel is not None:
        x, y = verdict.panel.from_origin((place.x, place.y))
        figures |= {"x": x, "y": y, "measured": result.measured if place.measured is None else place.measured}
    kept = {k: round(float(v), 3) + 0.0 for k, v in figures.items() if v is not None and math.isfinite(v)}
    return kept | {"unit": result.unit, "sheet": verdict.sheet.name}


def _text(words: str) -> Json:
    return {"text": words}
