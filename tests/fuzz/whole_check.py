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
import random
import re
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

ROOT = Path(__file__).parent.parent.parent
SHEET = load_default()
LARGEST = 30_000  # bytes of a seed: a larger one costs more than it finds

_NUMBER = re.compile(rb"-?\d+(?:\.\d+)?")
_ATTRIBUTE = re.compile(rb'[\w:-]+="[^"]*"')
_ELEMENT = re.compile(rb"<(?:path|rect|circle|line|polyline|polygon|ellipse|use|text)\b[^>]*?(?:/>|>[^<]*</\w+>)")
_WILD = (b"0", b"-0", b"1e-9", b"1e5", b"999999", b"-1", b"0.5", b"12.7", b"1e-320", b"NaN")
_NEW = (
    *(b'transform="matrix(1 0 0 0 5 5)"', b'transform="rotate(30)"', b'transform="scale(-1 1)"', b'stroke-width="0"'),
    *(b'stroke-width="400"', b'fill="black"', b'fill="none"', b'stroke="none"', b'display="none"', b'id="frame"'),
    *(b'id="scroll 1: ribbon / snub"', b'id="collar"', b'id="rivet"', b'id="joint: halved"', b'id="scale 1:4"'),
    *(b'stroke-linecap="square"', b'stroke-linejoin="round"', b'stroke-dasharray="1 2"', b'viewBox="0 0 1 1"'),
)


def changed(data: bytes, seed: int) -> bytes:
    """The drawing with one to three things of it changed."""
    dice = random.Random(seed)
    for _ in range(dice.randint(1, 3)):
        data = dice.choice((_number, _number, _nudged, _attribute, _cut, _doubled, _moved))(data, dice)
    return data


def _one(pattern: re.Pattern[bytes], data: bytes, dice: random.Random) -> tuple[int, int] | None:
    found = [match.span() for match in pattern.finditer(data)]
    return dice.choice(found) if found else None


def _put(data: bytes, span: tuple[int, int] | None, new: bytes) -> bytes:
    return data if span is None else data[: span[0]] + new + data[span[1] :]


def _number(data: bytes, dice: random.Random) -> bytes:
    """A number becomes a wild one, or another one of the drawing."""
    other = _one(_NUMBER, data, dice)
    new = dice.choice(_WILD) if other is None or dice.random() < 0.5 else data[other[0] : other[1]]
    return _put(data, _one(_NUMBER, data, dice), new)


def _nudged(data: bytes, dice: random.Random) -> bytes:
    span = _one(_NUMBER, data, dice)
    if span is None:
        return data
    value = float(data[span[0] : span[1]][:30]) + dice.choice((1e-6, 0.01, 0.5, 6.35, 25.4)) * dice.choice((-1, 1))
    return _put(data, span, f"{value:.8g}".encode())


def _attribute(data: bytes, dice: random.Random) -> bytes:
    other = _one(_ATTRIBUTE, data, dice)
    new = dice.choice(_NEW) if other is None or dice.random() < 0.7 else data[other[0] : other[1]]
    return _put(data, _one(_ATTRIBUTE, data, dice), new)


def _cut(data: bytes, dice: random.Random) -> bytes:
    return _put(data, _one(_ELEMENT, data, dice), b"")


def _doubled(data: bytes, dice: random.Random) -> bytes:
    span = _one(_ELEMENT, data, dice)
    return data if span is None else _put(data, (span[1], span[1]), data[span[0] : span[1]])


def _moved(data: bytes, dice: random.Random) -> bytes:
    """One element in the place of another, so that it stands under another name."""
    span = _one(_ELEMENT, data, dice)
    return data if span is None else _put(data, _one(_ELEMENT, data, dice), data[span[0] : span[1]])


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
