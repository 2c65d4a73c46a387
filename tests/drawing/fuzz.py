"""Coverage-guided fuzzing: `python tests/drawing/fuzz.py read CORPUS` for the reader, `check` for the whole check.

Needs atheris (`pip install atheris`). CORPUS is a scratch folder; it is seeded with the small drawings of
`fixtures/`. Options after it are libFuzzer's: `-max_total_time=3600 -timeout=10`. Anything but a Drawing or an
UnreadableDrawing with a printable sentence is a crash; the input is left beside the corpus, and becomes a fixture.
"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path
from typing import Any

atheris: Any = importlib.import_module("atheris")  # no stubs, and not installed for the other tests

with atheris.instrument_imports(include=["lint"]):
    from lint.check import check
    from lint.drawing import read
    from lint.errors import UnreadableDrawing
    from lint.sheet import load_default

ROOT = Path(__file__).parent.parent.parent
SHEET = load_default()
WORDS = (
    *(
        "<g id='scrolls'>",
        "<path d='M0 0",
        "<use href='#",
        "<style>",
        "<svg viewBox='0 0 9 9'>",
        "<text>",
        "<tspan x='1 2'>",
    ),
    *("transform='rotate(9)'", "transform='matrix(1 0 0 1 5 5)'", "style='stroke:red;stroke-width:6'", "id='frame'"),
    *("a5 5 0 0110 10", "C1 2 3 4 5 6", "Z", "1e9", "-.5.5", "<!DOCTYPE svg [<!ENTITY a 'b'>]>", "&a;", "<switch>"),
    *("<rect width='9' height='9' rx='2'/>", "<circle r='3'/>", "<symbol id='s' viewBox='0 0 1 1'>", "currentColor"),
)


def read_one(data: bytes) -> int:
    """Reads one input; the number of its elements, 0 where it is refused."""
    try:
        drawing = read(data)
    except UnreadableDrawing as refused:
        if not str(refused).isprintable():
            raise AssertionError(f"not fit to print: {refused!r}") from refused
        return 0
    return drawing.elements


def check_one(data: bytes) -> None:
    """Reads one input, and judges it where it is small."""
    if 0 < read_one(data) <= 60:
        check(data, SHEET)


def main() -> None:
    what, corpus = sys.argv[1], Path(sys.argv[2])
    corpus.mkdir(parents=True, exist_ok=True)
    for path in sorted((ROOT / "fixtures").rglob("*.svg*")):
        if (path.stat().st_size < 4_000 and "clones-of" not in path.name) or path.parent.name == "editors":
            (corpus / f"{path.parent.name}-{path.name}").write_bytes(path.read_bytes())
    words = corpus.with_suffix(".dict")
    words.write_text("\n".join('"' + word.replace("\\", "\\\\").replace('"', '\\"') + '"' for word in WORDS))
    atheris.Setup(
        [sys.argv[0], str(corpus), f"-dict={words}", *sys.argv[3:]], check_one if what == "check" else read_one
    )
    atheris.Fuzz()


if __name__ == "__main__":
    main()
