"""Coverage-guided fuzzing of the whole way, file to report: `python tests/fuzz/whole_check.py CORPUS [OPTION]...`

Needs atheris (`pip install atheris`; it stands in no extra, for it has no wheels for every Python). CORPUS is a
scratch folder outside the repository, seeded here with the drawings of `fixtures/`; the options are libFuzzer's:

    nice -n 19 python tests/fuzz/whole_check.py /tmp/corpus -max_total_time=3600 -artifact_prefix=/tmp/found-

Every input is read, measured and judged; one in eight is printed, written and marked up too. Anything but a verdict
is a crash, and so is a pass of a drawing that has no scroll. Half of the changes are libFuzzer's own, on bytes; the
other half change one thing of a drawing as an editor or a tired hand would: a number, an attribute, an element cut,
doubled, moved.

A crash is made small by hand and becomes a drawing in `fixtures/misses/` or `fixtures/unreadable/`, with a test.
The reader alone has a harness of its own, `tests/drawing/fuzz.py`, which is faster.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from zlib import crc32

import atheris

with atheris.instrument_imports(include=["lint"]):
    from lint.check import check
    from lint.errors import Refused
    from lint.report import terminal
    from lint.report.as_json import drawing_json
    from lint.report.markup import markup
    from lint.report.sarif import sarif_results
    from lint.sheet import load_default
    from lint.verdict import Verdict
    from tests.fuzz.changes import changed

ROOT = Path(__file__).parent.parent.parent
SHEET = load_default()
LARGEST = 30_000  # bytes of a seed: a larger one costs more than it finds


def mutate(data: bytes, most: int, seed: int) -> bytes:
    """libFuzzer's change, or one of ours."""
    if seed % 2:
        return bytes(atheris.Mutate(data, most))
    return changed(data, seed)[:most]


def try_one(data: bytes) -> None:
    """One input, all the way."""
    verdict = check(data, SHEET, path="fuzzed.svg")
    assert verdict.error or verdict.results, "nothing is said of it"
    assert verdict.error == "" or verdict.error.isprintable()
    if verdict.panel is not None:
        assert verdict.word != "pass" or verdict.panel.scrolls, "a drawing without scrolls passed"
    if crc32(data) % 8 == 0:
        written(data, verdict)


def written(data: bytes, verdict: Verdict) -> None:
    """Every output of one verdict; the marked-up copy is judged as its original."""
    said = terminal.one_drawing(verdict)
    assert all(c == "\n" or c.isprintable() or c in "\u200c\u200d" for c in said), "not fit for a terminal"
    json.dumps(drawing_json(verdict), allow_nan=False)
    sarif_results(verdict)
    if verdict.panel is not None:
        try:
            again = check(markup(data, verdict), SHEET, path="fuzzed.svg")
        except Refused:
            return
        assert [r.kind for r in again.results] == [r.kind for r in verdict.results], "marked up, it is judged otherwise"


def main() -> None:
    """Seed the corpus and fuzz."""
    corpus = Path(sys.argv[1])
    corpus.mkdir(parents=True, exist_ok=True)
    for path in sorted((ROOT / "fixtures").rglob("*.svg")):
        if path.stat().st_size <= LARGEST and "golden" not in path.parts:
            (corpus / f"{path.parent.name}-{path.name}").write_bytes(path.read_bytes())
    options = ["-timeout=120", "-rss_limit_mb=2048", f"-max_len={LARGEST}"]
    atheris.Setup([sys.argv[0], str(corpus), *options, *sys.argv[2:]], try_one, custom_mutator=mutate)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
