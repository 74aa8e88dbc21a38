"""Refused random jobs, and whether what their refusal offers first makes them pass as it is typed.

    python -m tests.sweep.remedies 1000 --seed 1

Not in the suite: so many take a quarter of an hour. Ends with the figures, and with 1 where fewer than 99 of 100 pass.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from jigs import toml_source
from jigs.findings import Refused
from jigs.jobfile import load
from jigs.proof import prove
from jigs.remedies.offered import remedies
from jigs.remedies.words import remedy_lines
from tests.jigs.remedies.pasted import pasted
from tests.sweep.jobs import random_job


@dataclass(frozen=True)
class Tried:
    """A refused job: its codes, the lines offered first, what refuses it with them, seconds of looking."""

    number: int
    kind: str
    codes: tuple[str, ...]
    offered: tuple[str, ...]
    left: tuple[str, ...]
    seconds: float

    @property
    def passes(self) -> bool:
        return bool(self.offered) and not self.left


def refused_jobs(count: int, seed: int, first: int = 0) -> Iterator[Tried]:
    """The first jobs of a seed that can be read and are refused."""
    number = first
    with TemporaryDirectory() as folder:
        while count:
            found = tried(seed, number, Path(folder))
            if found is not None:
                count -= 1
                yield found
            number += 1


def tried(seed: int, number: int, folder: Path) -> Tried | None:
    """What became of one job; None where it passes, or cannot be read."""
    job, file = random_job(seed, number), folder / "job.toml"
    file.write_text(job.text, "utf-8")
    codes = _codes(file)
    if not codes:
        return None
    begun, source = process_time(), toml_source.read(file)
    found = remedies(source, file, most=1)
    seconds = process_time() - begun
    if found is None:
        return None
    lines = remedy_lines(found[0], source) if found else []
    if lines:
        file.write_text(pasted(job.text, lines), "utf-8")
    return Tried(number, job.kind, codes, tuple(lines), _codes(file) if lines else (), seconds)


def _codes(file: Path) -> tuple[str, ...]:
    try:
        prove(load(file))
    except Refused as refused:
        return tuple(dict.fromkeys(finding.code for finding in refused.findings))
    return ()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, help="how many refused jobs")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="the number to begin with")
    asked = parser.parse_args()
    found = []
    for one in refused_jobs(asked.count, asked.seed, asked.first):
        found.append(one)
        if not one.passes:
            print(
                one.number,
                one.kind,
                *one.codes,
                "->",
                *(one.left or ("nothing",)),
                f"{one.seconds:.1f} s",
                flush=True,
            )
    return _figures(found)


def _figures(found: list[Tried]) -> int:
    offered, passing = ([one for one in found if getattr(one, name)] for name in ("offered", "passes"))
    seconds = sorted(one.seconds for one in found)
    print(f"{len(found)} refused, {len(offered)} offered something, {len(passing)} pass with it")
    print(f"seconds of looking: half under {seconds[len(found) // 2]:.2f}, the longest {seconds[-1]:.2f}")
    print(
        "codes:",
        *(f"{code} {times}" for code, times in Counter(c for one in found for c in one.codes).most_common()),
    )
    return 0 if len(passing) >= 0.99 * len(found) else 1


if __name__ == "__main__":
    sys.exit(main())
