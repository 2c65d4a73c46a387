"""A worker that dies costs its own job only."""

from __future__ import annotations

import gzip
import os
import signal
import time

import pytest

from lint.commands import workers
from lint.commands._paths import unpacked_size
from lint.commands.workers import Lost, seconds_for, work_through

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system has no fork")


def _square_or_die(n: int) -> int:
    if n == 3:
        os.kill(os.getpid(), signal.SIGSEGV)
    return n * n


def test_results_come_in_the_order_of_the_jobs() -> None:
    assert list(work_through(lambda n: n * n, list(range(20)), 3)) == [n * n for n in range(20)]


def test_a_crash_in_native_code_costs_that_job_only() -> None:
    done = list(work_through(_square_or_die, list(range(6)), 2))
    assert [d for d in done if not isinstance(d, Lost)] == [0, 1, 4, 16, 25]
    lost = done[3]
    assert isinstance(lost, Lost)
    assert "SIGSEGV" in lost.why


def _spin_on_one(n: int) -> int:
    while n == 1:
        pass
    return n


def test_a_job_that_runs_too_long_is_ended_with_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "CPU_SECONDS", 0.2)
    done = list(work_through(_spin_on_one, [0, 1, 2], 1))
    assert (done[0], done[2]) == (0, 2)
    assert isinstance(done[1], Lost)
    assert "took too long" in done[1].why


def _slow_pid(n: int) -> int:
    time.sleep(0.01)
    return os.getpid()


def test_a_caller_that_stops_early_leaves_no_worker_behind() -> None:
    going = work_through(_slow_pid, list(range(50)), 2)
    pid = next(going)
    going.close()  # type: ignore[attr-defined]
    assert isinstance(pid, int)
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)


def test_a_file_is_given_time_by_its_size_and_an_answer_within_two_seconds_where_it_is_small() -> None:
    """The limits of the README: two seconds under 200 kB, start and report included; ten at most for a megabyte."""
    assert seconds_for(0) == seconds_for(199_999) <= 1.8
    assert seconds_for(1_000_000) <= 9.0
    sizes = [seconds_for(size) for size in range(0, 20_000_000, 50_000)]
    assert sizes == sorted(sizes)
    assert sizes[-1] <= 25.0


def test_a_machine_that_loads_the_program_slowly_is_given_more_time(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[float] = []
    monkeypatch.setattr(signal, "setitimer", lambda _, seconds: given.append(seconds))
    monkeypatch.setattr(workers._Working, "now", True)
    for slowness in (1.0, 3.0):
        monkeypatch.setattr(workers._Working, "slowness", slowness)
        workers.allow_for(10_000)
    assert given[1] == pytest.approx(3 * given[0])


def test_a_packed_drawing_is_given_the_time_of_an_unpacked_one() -> None:
    drawing = b"<svg>" + b" " * 900_000 + b"</svg>"
    assert unpacked_size(gzip.compress(drawing)) == unpacked_size(drawing) == len(drawing)
