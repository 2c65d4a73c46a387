"""Work done in child processes, so that one drawing that breaks the geometry engine costs that drawing only.

A worker is a fork of this process: it starts in milliseconds with everything loaded. Where the system has no
fork, the work is done here, one piece after another, without that guard.
"""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import select
import signal
import struct
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

Job = TypeVar("Job")
Done = TypeVar("Done")

CPU_SECONDS = 9.0  # of processor time for one drawing; the limits promise an answer within ten seconds
MORE_SECONDS = 2.0  # more for each megabyte of the file over the first: thousands of scrolls are honest work
MOST_SECONDS = 25.0
SMALL = 200_000  # bytes: 64 scrolls with all their marks, written with four decimals, which take 0.4 s
SMALL_SECONDS = 1.4  # for such a file or a smaller one: an answer within two seconds
QUICK_START = 0.3  # of processor time to load the program on the machine that these figures were measured on
SLOWEST = 4.0  # times: a machine slower than that is not waited for
WALL_SECONDS = 60.0  # a worker that waits instead of working is ended too
MEMORY = 1 << 30  # bytes in use that one drawing may take, this program's own included
NO_MEMORY = 3
_HEAD = struct.Struct("!Q")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost:
    """A worker died over its job. `why` is a sentence."""

    why: str


@dataclass(slots=True)
class _Worker:
    """A child process, its two pipes, and the number of the job it is at (-1 for none), since when."""

    pid: int
    orders: int  # file descriptor to write jobs to
    answers: int  # file descriptor to read results from
    job: int = -1
    since: float = 0.0


def work_through(do: Callable[[Job], Done], jobs: Sequence[Job], count: int) -> Iterator[Done | Lost]:
    """`do` each job in one of `count` workers; results in the order of the jobs, each as soon as its turn comes.

    A job whose worker dies, or runs over its time, yields Lost; the others go on. Workers are ended when the
    caller stops early.
    """
    if not hasattr(os, "fork"):
        yield from map(do, jobs)
        return
    pool = [_start(do) for _ in range(max(1, min(count, len(jobs))))]
    try:
        yield from _serve(pool, do, jobs)
    finally:
        for worker in pool:
            _end(worker)


def _serve(pool: list[_Worker], do: Callable[[Job], Done], jobs: Sequence[Job]) -> Iterator[Done | Lost]:
    ready: dict[int, Any] = {}
    sent = told = 0
    while told < len(jobs):
        for worker in pool:
            if worker.job < 0 and sent < len(jobs):
                worker.job, worker.since = sent, time.monotonic()
                with contextlib.suppress(OSError):  # a worker that is gone shows when its answer is read
                    _send(worker.orders, jobs[sent])
                sent += 1
        # Wait only when every worker has a job that can have one: an idle worker is an idle processor.
        select.select([worker.answers for worker in pool if worker.job >= 0], [], [], 0.5)
        for at, worker in enumerate(pool):
            if worker.job >= 0 and _answered(worker):
                job = worker.job
                ready[job], pool[at] = _take(worker, do)
        while told in ready:
            yield ready.pop(told)
            told += 1


def _answered(worker: _Worker) -> bool:
    if time.monotonic() - worker.since > WALL_SECONDS:
        os.kill(worker.pid, signal.SIGKILL)
    return bool(select.select([worker.answers], [], [], 0)[0])


def _take(worker: _Worker, do: Callable[[Job], Done]) -> tuple[Any, _Worker]:
    """The worker's answer, and the worker to go on with: a new one where it died."""
    try:
        answer = pickle.loads(_receive(worker.answers))
    except EOFError:
        return Lost(why=_epitaph(_bury(worker))), _start(do)
    worker.job = -1
    return answer, worker


class _Working:
    """Whether this process is a worker: only a worker may be ended by the clock. `slowness` is how many times slower
    this machine is than the one the limits were measured on, read off what it took to load the program until here:
    a drawing that is judged on one machine is judged on a slower one too."""

    now = False
    slowness = min(max(time.process_time() / QUICK_START, 1.0), SLOWEST)


def seconds_for(size: int) -> float:
    """The processor time that a file of `size` bytes, unpacked, is worth on the machine measured on: from SMALL on it
    rises to what any drawing is given at twice that, and more for one of many megabytes."""
    rising = min(max(size / SMALL - 1.0, 0.0), 1.0) * (CPU_SECONDS - SMALL_SECONDS)
    return min(SMALL_SECONDS + rising + max(0.0, size / 1e6 - 1.0) * MORE_SECONDS, MOST_SECONDS)


def allow_for(size: int) -> None:
    """Give a worker the processor time that a file of `size` bytes is worth, from now on; elsewhere nothing."""
    if _Working.now:
        signal.setitimer(signal.ITIMER_PROF, seconds_for(size) * _Working.slowness)


def _epitaph(status: int) -> str:
    killed = os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0
    if killed in (signal.SIGPROF, signal.SIGKILL):
        return (
            "The drawing took too long to measure and was given up. "
            "Simplify it: fewer nodes, no copies on one another, only the panel on its layers."
        )
    if not killed and os.waitstatus_to_exitcode(status) == NO_MEMORY:
        return "The drawing needs more memory than a drawing may have. Simplify it: fewer nodes, no copies."
    how = signal.Signals(killed).name if killed else f"exit {os.waitstatus_to_exitcode(status)}"
    return (
        f"The geometry engine stopped over this drawing ({how}), so nothing in it was judged. "
        "Look for shapes with wild coordinates or thousands of copies on one another."
    )


def _start(do: Callable[[Any], Any]) -> _Worker:
    orders_out, orders_in = os.pipe()
    answers_out, answers_in = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(orders_in)
        os.close(answers_out)
        _labour(do, orders_out, answers_in)
    os.close(orders_out)
    os.close(answers_in)
    return _Worker(pid, orders_in, answers_out)


def _labour(do: Callable[[Any], Any], orders: int, answers: int) -> None:
    """The worker's whole life. It never returns: a child must not run its parent's clean-up."""
    code = 1
    try:
        _bound_memory(MEMORY)
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        signal.signal(signal.SIGPROF, signal.SIG_DFL)
        gc.disable()  # a large panel is millions of values and no rings of them: looked through between drawings
        gc.freeze()  # and what was there before the first drawing is not looked through at all
        while True:
            job = pickle.loads(_receive(orders))
            signal.setitimer(signal.ITIMER_PROF, CPU_SECONDS)
            _Working.now = True
            done = do(job)
            signal.setitimer(signal.ITIMER_PROF, 0)
            _send(answers, done)
            del done
            gc.collect()
    except EOFError:
        code = 0
    except MemoryError:
        code = NO_MEMORY
    finally:
        os._exit(code)


def _bound_memory(most: int) -> None:
    """Let this process use `most` bytes, so that a request for more raises MemoryError or ends it.

    Linux counts against RLIMIT_DATA what is set aside for writing, used or not (setrlimit(2)), so what is set aside
    now and not used comes on top. Elsewhere there is no such count, and no bound.
    """
    try:
        import resource

        with open("/proc/self/statm", encoding="ascii") as file:
            pages = [int(word) for word in file.read().split()]  # proc(5): size resident shared text lib data dt
    except (ImportError, OSError):
        return
    idle = max(0, pages[5] - (pages[1] - pages[2])) * resource.getpagesize()
    _, hard = resource.getrlimit(resource.RLIMIT_DATA)
    limit = most + idle
    if hard == resource.RLIM_INFINITY or limit < hard:
        resource.setrlimit(resource.RLIMIT_DATA, (limit, hard))


def _bury(worker: _Worker) -> int:
    """Wait for a worker that is gone, and give its exit status."""
    for end in (worker.orders, worker.answers):
        with contextlib.suppress(OSError):
            os.close(end)
    with contextlib.suppress(ChildProcessError):
        return os.waitpid(worker.pid, 0)[1]
    return 0


def _end(worker: _Worker) -> None:
    """End a worker, whatever it is at: workers write no files, so nothing is left half done."""
    with contextlib.suppress(ProcessLookupError):
        os.kill(worker.pid, signal.SIGKILL)
    _bury(worker)


def _send(to: int, value: object) -> None:
    data = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
    view = memoryview(_HEAD.pack(len(data)) + data)
    while view:
        view = view[os.write(to, view) :]


def _receive(source: int) -> bytes:
    (size,) = _HEAD.unpack(_exactly(source, _HEAD.size))
    return _exactly(source, size)


def _exactly(source: int, size: int) -> bytes:
    parts: list[bytes] = []
    while size:
        part = os.read(source, min(size, 1 << 20))
        if not part:
            raise EOFError
        parts.append(part)
        size -= len(part)
    return b"".join(parts)
