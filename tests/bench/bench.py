"""Benchmarks as ratios to B, what `python -c "import cadquery"` takes in the same run.

Run as `python tests/bench/bench.py`. Every time is the least of three, interpreter start included, but for the
plain CadQuery script and the growth, which take long enough to be measured once. What is wanted is of the
processor's time, which other work on the machine changes least. Nothing here can fail on time. With `--once`
each runs once, on one job, few parts and three plates: enough to see that it runs.
"""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import partial
from itertools import count
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
BENCH = ROOT / "tests" / "bench"
JOB, VESSEL, DRAWN = (str(ROOT / "configs" / f"{name}.toml") for name in ("garland", "sorrel", "tumbler"))
JOBS = (  # and what is wanted of a check and of a change, in B
    ("torus", JOB, 0.12, 0.08),
    ("vessel", VESSEL, 0.2, 0.15),
    ("vessel from a DXF", DRAWN, 0.25, None),
)
PLAIN = "the same parts by a plain CadQuery script"
SIZES = (1, 10, 100)
ONCE = sys.argv[1:] == ["--once"]
TIMES = 1 if ONCE else 3


def python(*arguments: str | Path) -> str:
    """Run this Python from the checkout, compiled as an installed one is, and return what it prints."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, *map(str, arguments)]
    done = subprocess.run(
        command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, check=True
    )
    return done.stdout.decode()


class Took(NamedTuple):
    """Seconds of a run, its children's and theirs: what the clock says, and of the processor."""

    wall: float
    cpu: float


def took(run: Callable[[], object], times: int = TIMES) -> Took:
    """The least of a few runs."""
    each = [_timed(run) for _ in range(times)]
    return Took(min(one.wall for one in each), min(one.cpu for one in each))


def _timed(run: Callable[[], object]) -> Took:
    start, used = perf_counter(), _used()
    run()
    return Took(perf_counter() - start, _used() - used)


def _used() -> float:
    children = getrusage(RUSAGE_CHILDREN)
    return children.ru_utime + children.ru_stime


def rows(work: Path) -> Iterator[tuple[str, Took, float | None]]:
    """Name, seconds and what is wanted of the processor, in B, of each benchmark."""
    fresh = (work / f"{number}" for number in count())
    yield "B: import cadquery", took(lambda: python("-c", "import cadquery")), None
    for name, job, checked, warm in JOBS[: 1 if ONCE else None]:
        yield f"{name}: check", took(partial(python, "-m", "jigs", "check", job)), checked
        yield f"{name}: make, the shop book too", took(lambda job=job: make(next(fresh), job)), 1.0
        yield f"{name}: make, STEP too", took(lambda job=job: make(next(fresh), job, "--solids")), None
        yield f"{name}: make, nothing changed", took(partial(make, work / name, job), times=TIMES + 1), 0.05
        if warm is not None:
            spent = float(python(BENCH / "warm.py", job))
            yield f"{name}: one dimension changed, warm", Took(spent, spent), warm
    yield PLAIN, took(lambda: plain(work), times=1), None


def make(folder: Path, job: str, *more: str) -> None:
    python("-m", "jigs", "make", job, "--into", folder, *more)


def plain(work: Path) -> None:
    (work / "plain").mkdir()
    python(BENCH / "plain_cadquery.py", work / "plates.json", work / "plain")


def print_ratios(work: Path) -> None:
    plates = json.loads(python(BENCH / "plates.py", JOB))
    (work / "plates.json").write_text(json.dumps(plates[-3:] if ONCE else plates))
    print(f"{'':<44}{'s':>8}{'/ B':>8}{'cpu':>8}{'/ B':>8}{'wanted':>10}")
    found: dict[str, Took] = {}
    for name, spent, wanted in rows(work):
        found[name] = spent
        unit = next(iter(found.values()))
        limit = f"<= {wanted:g}" if wanted else ""
        wall, cpu = (
            f"{spent.wall:>8.2f}{spent.wall / unit.wall:>8.3f}",
            f"{spent.cpu:>8.2f}{spent.cpu / unit.cpu:>8.3f}",
        )
        print(f"{name:<44}{wall}{cpu}{limit:>10}", flush=True)
    if not ONCE:
        times = found[PLAIN].cpu / found["torus: make, the shop book too"].cpu
        print(f"{'plain CadQuery script / make':<44}{times:>32.1f}\n")


def print_vectorised() -> None:
    """A picture of 1024 x 1024 points, and a thousand candidates, against `import numpy` without the interpreter."""
    numpy = took(lambda: python("-c", "import numpy")).wall - took(lambda: python("-c", "pass")).wall
    drawn, many = (
        min(float(python(BENCH / file)) for _ in range(TIMES)) for file in ("unrolled.py", "candidates.py")
    )
    print(f"{'':<44}{'s':>8}{'/ numpy':>8}{'wanted':>10}")
    print(f"{'import numpy':<44}{numpy:>8.2f}{1:>8.3f}")
    print(f"{'an unrolled torus with a layup':<44}{drawn:>8.2f}{drawn / numpy:>8.3f}{'<= 2':>10}")
    print(f"{'a thousand candidates compared':<44}{many:>8.3f}{many / numpy:>8.3f}{'<= 1':>10}\n", flush=True)


def print_growth() -> None:
    print(f"{'writing and measuring':<24}{'files':>8}{'s':>10}{'ms / file':>12}{'peak MiB':>12}")
    for name, job, sizes in (("the demo", JOB, SIZES), ("the vessel", VESSEL, SIZES[:2])):
        for times in sizes[: 1 if ONCE else None]:
            files, took, peak = map(float, python(BENCH / "growth.py", job, str(times)).split())
            each = 1000 * took / files
            print(
                f"{f'{name}, {times} x':<24}{files:>8.0f}{took:>10.2f}{each:>12.2f}{peak:>12.0f}", flush=True
            )


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        print_ratios(Path(folder))
    print_vectorised()
    print_growth()
