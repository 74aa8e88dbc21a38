"""Benchmarks as ratios to B, the wall time of `python -c "import cadquery"` in the same run.

Run as `python tests/bench/bench.py`. Every time is the least of three, interpreter start included, but for the
plain CadQuery script and the growth, which take long enough to be measured once. Nothing here can fail on time.
"""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import partial
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

ROOT = Path(__file__).parents[2]
BENCH = ROOT / "tests" / "bench"
JOB = str(ROOT / "configs" / "garland.toml")
VESSELS = {
    "vessel": str(ROOT / "configs" / "sorrel.toml"),
    "from a DXF": str(ROOT / "configs" / "tumbler.toml"),
}
SIZES = (1, 10, 100)


def python(*arguments: str | Path) -> str:
    """Run this Python from the checkout and return what it prints."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, *map(str, arguments)]
    done = subprocess.run(
        command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, check=True
    )
    return done.stdout.decode()


def seconds(run: Callable[[], object], times: int = 3) -> float:
    """Least wall time of a few runs."""
    return min(_timed(run) for _ in range(times))


def _timed(run: Callable[[], object]) -> float:
    start = perf_counter()
    run()
    return perf_counter() - start


def rows(work: Path) -> Iterator[tuple[str, float, float | None]]:
    """Name, seconds and what is wanted, in B, of each benchmark."""
    fresh = (work / f"{number}" for number in count())
    yield "B: import cadquery", seconds(lambda: python("-c", "import cadquery")), None
    yield "check", seconds(lambda: python("-m", "jigs", "check", JOB)), 0.2
    yield "make, into an empty folder", seconds(lambda: make(next(fresh))), 0.5
    yield "make, nothing changed", seconds(lambda: make(work / "0")), 0.15
    for name, job in VESSELS.items():
        yield f"{name}: check", seconds(partial(python, "-m", "jigs", "check", job)), 0.2
        yield f"{name}: make", min(_timed(partial(make, next(fresh), job)) for _ in range(3)), 0.5
        yield f"{name}: make, nothing changed", seconds(partial(make, work / name, job), times=4), 0.15
    yield "the same parts by a plain CadQuery script", seconds(lambda: plain(work), times=1), None


def make(folder: Path, job: str = JOB) -> None:
    python("-m", "jigs", "make", job, "--into", folder)


def plain(work: Path) -> None:
    (work / "plain").mkdir()
    python(BENCH / "plain_cadquery.py", work / "plates.json", work / "plain")


def print_ratios(work: Path) -> None:
    (work / "plates.json").write_text(python(BENCH / "plates.py", JOB))
    print(f"{'':<44}{'s':>8}{'/ B':>8}{'wanted':>10}")
    found: dict[str, float] = {}
    for name, took, wanted in rows(work):
        found[name] = took
        ratio = took / next(iter(found.values()))
        limit = f"<= {wanted:g}" if wanted else ""
        print(f"{name:<44}{took:>8.2f}{ratio:>8.3f}{limit:>10}", flush=True)
    times = found["the same parts by a plain CadQuery script"] / found["make, into an empty folder"]
    print(f"{'plain CadQuery script / make':<44}{times:>16.1f}{'>= 25':>10}\n")


def print_unrolled() -> None:
    """A picture of 1024 x 1024 points against `import numpy`, what the bare interpreter takes left off."""
    numpy = seconds(lambda: python("-c", "import numpy")) - seconds(lambda: python("-c", "pass"))
    took = min(float(python(BENCH / "unrolled.py")) for _ in range(3))
    print(f"{'':<44}{'s':>8}{'/ numpy':>8}{'wanted':>10}")
    print(f"{'import numpy':<44}{numpy:>8.2f}{1:>8.3f}")
    print(f"{'an unrolled torus with a layup':<44}{took:>8.2f}{took / numpy:>8.3f}{'<= 2':>10}\n", flush=True)


def print_growth() -> None:
    print(f"{'writing and measuring':<24}{'files':>8}{'s':>10}{'ms / file':>12}{'peak MiB':>12}")
    for name, job, sizes in (("the demo", JOB, SIZES), ("the vessel", VESSELS["vessel"], SIZES[:2])):
        for times in sizes:
            files, took, peak = map(float, python(BENCH / "growth.py", job, str(times)).split())
            each = 1000 * took / files
            print(
                f"{f'{name}, {times} x':<24}{files:>8.0f}{took:>10.2f}{each:>12.2f}{peak:>12.0f}", flush=True
            )


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        print_ratios(Path(folder))
    print_unrolled()
    print_growth()
