"""Start-up, batch and rate: python tests/benchmarks/start_up.py [drawings]

Whole processes, run in turn (A B A B ...), so that a machine whose speed drifts slows both; the ratio of each pair is
taken, and the median printed. All run from compiled files, as an installed program does. Work that is warm is said in
milliseconds and against the bare imports of the same minute. Nothing is asserted.
"""

from __future__ import annotations

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from growth import panel_of  # type: ignore[import-not-found]

from lint.check import check
from lint.sheet import load_default
from lint.verdict import Verdict

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "two-c-panel.svg"
IMPORTS = "import click, lxml.etree, numpy, shapely"
ORDINARY = ("two-c-panel", "s-pair-panel", "mixed-panel", "six-c-window")


def cpu(command: Sequence[str]) -> float:
    """CPU seconds of one whole process and its children."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def wall(command: Sequence[str]) -> float:
    """Wall seconds of one whole process."""
    begun = time.monotonic()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return time.monotonic() - begun


@contextmanager
def compiled() -> Iterator[None]:
    """Child processes keep and find compiled files, whatever this one was told."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = folder
        yield


@contextmanager
def environment(**settings: str) -> Iterator[None]:
    """Child processes see these settings."""
    before = dict(os.environ)
    os.environ.update(settings)
    yield
    os.environ.clear()
    os.environ.update(before)


def start_up(runs: int = 9) -> float:
    """A check of two scrolls against the bare imports that it cannot do without; the CPU seconds of those."""
    ratio, bare = _start_up(runs)
    with environment(OPENBLAS_NUM_THREADS="1"):  # the bare imports start threads for numbers, the check does not
        single, _ = _start_up(runs)
    print(f"| start-up: `check` of two scrolls over the bare imports (click, lxml, numpy, shapely) "
          f"| {ratio:.1f} ({single:.1f} with one numeric thread for both) |")  # fmt: skip
    return bare


def _start_up(runs: int) -> tuple[float, float]:
    checking = [sys.executable, "-m", "lint", "check", str(EXAMPLE)]
    importing = [sys.executable, "-c", IMPORTS]
    cpu(checking), cpu(importing)
    pairs = [(cpu(checking), cpu(importing)) for _ in range(runs)]
    ratio = statistics.median(a / b for a, b in pairs)
    bare = statistics.median(b for _, b in pairs)
    print(f"start-up: check {statistics.median(a for a, _ in pairs):.3f} s CPU, "
          f"bare imports {bare:.3f} s CPU, ratio {ratio:.2f}")  # fmt: skip
    return ratio, bare


def warm(bare: float) -> None:
    """CPU for each ordinary drawing, everything loaded, beside that of the `bare` imports (s)."""
    drawings = {f"`{name}`": (ROOT / "examples" / f"{name}.svg").read_bytes() for name in ORDINARY}
    drawings["the growth benchmark's"] = panel_of(8)
    times = []
    for name, data in drawings.items():
        scrolls, best = _checked(data)
        times.append(best)
        said = f"{1000 * best:.0f} ms, {best / bare:.2f} of the bare imports"
        print(f"| {name}, {scrolls} scrolls, everything loaded | {said} |")
    print(f"| the mean of these | {1000 * statistics.mean(times):.0f} ms |")


def _checked(data: bytes, runs: int = 40) -> tuple[int, float]:
    """The scrolls of a drawing, and the least CPU seconds that a check of it took."""
    sheet = load_default()
    scrolls = _scrolls(check(data, sheet))
    times = []
    for _ in range(runs):
        begun = time.process_time()
        check(data, sheet)
        times.append(time.process_time() - begun)
    return scrolls, min(times)


def _scrolls(verdict: Verdict) -> int:
    assert verdict.panel is not None, "an example can be read"
    return len(verdict.panel.scrolls)


def rate(drawings: int = 500) -> None:
    """How much sooner two processors are done with a folder than one."""
    with tempfile.TemporaryDirectory() as folder:
        for n in range(drawings):
            shutil.copy(ROOT / "examples" / f"{ORDINARY[n % len(ORDINARY)]}.svg", Path(folder) / f"{n:03}.svg")
        checking = [sys.executable, "-m", "lint", "check", folder, "--terse", "--jobs"]
        one, two = (wall([*checking, str(jobs)]) for jobs in (1, 2))
        work = cpu([*checking, "2"])
    print(f"batch: {drawings} drawings, one processor {one:.1f} s, two {two:.1f} s, rate {one / two:.2f}; "
          f"{1000 * work / drawings:.1f} ms CPU for each, start-up and all")  # fmt: skip
    print(f"| {drawings} drawings on two processors over one | {one / two:.2f} times the rate |")


if __name__ == "__main__":
    with compiled():
        warm(start_up())
        rate(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
