"""Thousands of random jobs: none may crash, hang, or be condemned by the dry fit although it is right.

    python -m tests.sweep.sweep --count 20000 --seed 1 --share 0.1 --limit 20 --processes 2

Every job is solved and its parts are designed; a share is made and dry-fitted too. Seconds are those that the
job's process worked, so that a busy machine does not count as a hang; a process that answers nothing for ten times
the limit is ended. Prints figures, and every job worth a look with its number: `--only NUMBER` runs that one again
and prints its job file. A log has every job, so that a run can be ended at any time: `--figures LOG LOG` counts
what is in some logs.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import signal
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict
from itertools import islice
from multiprocessing.connection import Connection, wait
from pathlib import Path
from random import Random
from time import monotonic
from types import FrameType

from tests.sweep.jobs import random_job
from tests.sweep.one import Outcome, TookTooLong, outcome

GIBIBYTE = 2**30
SLOW = 20.0  # s, as told in the figures
PATIENCE = 10  # times the limit, until a silent process is ended
BAD = ("crashed", "too long", "refused by make", "died", "misfits")


def main() -> int:
    asked = _arguments()
    if asked.only is not None:
        return _only(asked)
    if asked.figures:
        print(figures([one for log in asked.figures for one in _logged(log)]))
        return 0
    begun, found = monotonic(), list[Outcome]()
    with (asked.log or Path("/dev/null")).open("w") as log:
        for one in _run(asked):
            found.append(one)
            if one.state in BAD or one.condemned_right or one.overlooked or one.faults:
                print(_line(one), flush=True)
            log.write(json.dumps(asdict(one)) + "\n")
            log.flush()
            if len(found) % 500 == 0:
                print(f"... {len(found)} of {asked.count} after {monotonic() - begun:.0f} s", flush=True)
    print(figures(found))
    return (
        1 if any(one.state in ("crashed", "too long", "died") or one.condemned_right for one in found) else 0
    )


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--count", type=int, default=200, help="how many jobs")
    parser.add_argument("--first", type=int, default=0, help="number of the first one")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--share", type=float, default=0.1, help="of jobs that are made and dry-fitted too")
    parser.add_argument("--limit", type=float, default=SLOW, help="seconds of work for one job")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--memory", type=float, default=3.0, help="GiB for one process")
    parser.add_argument("--log", type=Path, help="JSON lines, one for every job")
    parser.add_argument("--figures", type=Path, nargs="+", help="logs to count, instead of a run")
    parser.add_argument("--only", type=int, help="one job by its number, made and dry-fitted")
    return parser.parse_args()


def _logged(log: Path) -> list[Outcome]:
    return [Outcome(**json.loads(line)) for line in log.read_text("utf-8").splitlines()]


def _only(asked: argparse.Namespace) -> int:
    job = random_job(asked.seed, asked.only)
    print(f"# {job.kind}\n{job.text}")
    print(json.dumps(asdict(outcome(asked.only, job, True)), indent=1))
    return 0


def _run(asked: argparse.Namespace) -> Iterator[Outcome]:
    """Outcomes as they come; a process that dies or goes silent is followed by another."""
    numbers = iter(range(asked.first, asked.first + asked.count))
    workers = [_Worker(asked) for _ in range(max(1, asked.processes))]
    busy = [
        worker
        for worker, number in zip(workers, islice(numbers, len(workers)), strict=False)
        if worker.ask(number)
    ]
    while busy:
        ready = wait([worker.line for worker in busy], timeout=1.0)
        for worker in list(busy):
            done = worker.answer() if worker.line in ready else worker.overdue()
            if done is None:
                continue
            yield done
            number = next(numbers, None)
            if number is None:
                busy.remove(worker)
                worker.end()
            else:
                worker.ask(number)


class _Worker:
    """One process, asked for one job at a time."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self.asked, self.number, self.since = asked, -1, monotonic()
        self._start()

    def _start(self) -> None:
        self.line, theirs = multiprocessing.Pipe()
        self.process = multiprocessing.Process(
            target=_work, args=(theirs, self.line, self.asked), daemon=True
        )
        self.process.start()
        theirs.close()

    def ask(self, number: int) -> bool:
        self.number, self.since = number, monotonic()
        self.line.send(number)
        return True

    def answer(self) -> Outcome:
        try:
            found = self.line.recv()
            assert isinstance(found, Outcome)
            return found
        except (EOFError, OSError):
            return self._again("the process died")

    def overdue(self) -> Outcome | None:
        silent = monotonic() - self.since
        if silent < PATIENCE * self.asked.limit:
            return None
        return self._again(f"nothing for {silent:.0f} s")

    def _again(self, why: str) -> Outcome:
        self.process.kill()
        self.process.join()
        self._start()
        return Outcome(self.number, random_job(self.asked.seed, self.number).kind, "died", 0.0, why)

    def end(self) -> None:
        self.line.close()
        self.process.join(5)


def _work(line: Connection, theirs: Connection, asked: argparse.Namespace) -> None:
    """Answer numbers with outcomes until the line is closed at their end, of which this process has a copy."""
    theirs.close()
    _limit_memory(asked.memory)
    signal.signal(signal.SIGPROF, _too_long)
    while True:
        try:
            number = line.recv()
        except (EOFError, OSError):
            return
        job, whole = (
            random_job(asked.seed, number),
            Random(f"share {asked.seed} {number}").random() < asked.share,
        )
        signal.setitimer(signal.ITIMER_PROF, asked.limit)
        found = outcome(number, job, whole)
        signal.setitimer(signal.ITIMER_PROF, 0)
        line.send(found)


def _limit_memory(gibibytes: float) -> None:
    import resource

    most = int(gibibytes * GIBIBYTE)
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _too_long(_signal: int, _frame: FrameType | None) -> None:
    raise TookTooLong


def _line(one: Outcome) -> str:
    told = [f"{one.number} {one.kind}: {one.state} after {one.seconds:.1f} s", one.detail]
    for name in ("condemned_right", "condemned_wrong", "undecided", "overlooked", "faults"):
        told += [f"   {name.replace('_', ' ')}: {text}" for text in getattr(one, name)[:4]]
    return "\n".join(line for line in told if line)


def figures(found: list[Outcome]) -> str:
    """How many of each state, and what the dry fits said."""
    states = Counter(one.state for one in found)
    fitted = [one for one in found if one.state in ("fits", "misfits")]
    made = [one for one in found if one.state in ("solved", "fits", "misfits")]
    codes = Counter(code for one in found if one.state == "refused" for code in one.detail.split())
    rows = [
        ("jobs", len(found)),
        ("refused", states["refused"] + states["unreadable"]),
        ("  of these by the reader", states["unreadable"]),
        ("can be made", len(made)),
        ("refused by make after a check that passed", states["refused by make"]),
        ("crashed", states["crashed"] + states["died"]),
        ("over the limit", states["too long"]),
        (f"over {SLOW:g} s", states["too long"] + sum(one.seconds > SLOW for one in found)),
        ("dry fits run", len(fitted)),
        ("dry fits that find something", states["misfits"]),
        (
            "dry fits that condemn what the independent check finds right",
            sum(bool(o.condemned_right) for o in found),
        ),
        ("dry fits that condemn what it finds wrong too", sum(bool(o.condemned_wrong) for o in found)),
        ("dry fits that condemn what it has no judge for", sum(bool(o.undecided) for o in found)),
        ("dry fits that pass what it finds wrong", sum(bool(o.overlooked) for o in found)),
        ("dry fits that failed themselves", sum(bool(o.faults) for o in found)),
    ]
    slowest = sorted(found, key=lambda one: -one.seconds)[:3]
    return "\n".join([
        *(f"{name}: {count}" for name, count in rows),
        "slowest: " + ", ".join(f"{one.seconds:.1f} s ({one.number} {one.kind})" for one in slowest),
        "refused for: " + ", ".join(f"{code} {count}" for code, count in codes.most_common(12)),
    ])  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
