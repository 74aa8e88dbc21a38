"""Refused random jobs, and whether what their refusal offers first makes them pass as it is typed.

    python -m tests.sweep.remedies 1000 --seed 1

The jobs are those of `tests.sweep.jobs` that can be read and that `check` refuses: sensible ones, careless ones, and
wild ones with any key bent to the end of its range. A file that cannot be read (a value out of its key's range, two
keys that exclude each other) is told what is wrong line by line and is offered nothing; such files are counted, but are
none of the refused jobs.

Led in a circle is who types in what is offered and is refused again: he may go back to where he was. None may be.

Not in the suite: so many take half an hour. Ends with the figures, and with 1 where fewer than 99 of 100 pass.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count as count_from
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.remedies.offered import remedies
from jigs.remedies.words import remedy_lines
from jigs.sets.rack import prove
from jigs.words.findings import Refused
from tests.jigs.remedies.pasted import pasted
from tests.sweep.jobs import random_job


@dataclass(frozen=True)
class Tried:
    """A refused job: its codes, the lines offered first, what refuses it with them, seconds of looking.

    One that is not `read` cannot be.
    """

    number: int
    kind: str
    codes: tuple[str, ...]
    offered: tuple[str, ...]
    left: tuple[str, ...]
    seconds: float
    read: bool

    @property
    def passes(self) -> bool:
        return bool(self.offered) and not self.left


def refused_jobs(count: int, seed: int, first: int = 0) -> Iterator[Tried]:
    """The first jobs of a seed that can be read and are refused."""
    refused = (one for one in all_jobs(seed, first) if one is not None and one.read)
    yield from islice(refused, count)


def all_jobs(seed: int, first: int = 0) -> Iterator[Tried | None]:
    """Job after job of a seed; None for each that passes."""
    with TemporaryDirectory() as folder:
        for number in count_from(first):
            yield tried(seed, number, Path(folder))


def tried(seed: int, number: int, folder: Path) -> Tried | None:
    """What became of one job; None where it passes."""
    job, file = random_job(seed, number), folder / "job.toml"
    file.write_text(job.text, "utf-8")
    codes = _codes(file)
    if not codes:
        return None
    begun, source = process_time(), toml_source.read(file)
    found = remedies(source, file, most=1)
    seconds = process_time() - begun
    lines = remedy_lines(found[0], source) if found else []
    if lines:
        file.write_text(pasted(job.text, lines), "utf-8")
    left = _codes(file) if lines else ()
    return Tried(number, job.kind, codes, tuple(lines), left, seconds, found is not None)


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
    found, unread, passing = [], 0, 0
    for one in all_jobs(asked.seed, asked.first):
        if one is None:
            passing += 1
        elif not one.read:
            unread += 1
        else:
            found.append(one)
            if not one.passes:
                print(_line(one), flush=True)
        if len(found) >= asked.count:
            break
    print(f"{passing} jobs pass as they are, {unread} cannot be read, {len(found)} are refused")
    return _figures(found)


def _line(one: Tried) -> str:
    after = " ".join(one.left) or "nothing offered"
    return f"{one.number} {one.kind}: {' '.join(one.codes)} -> {after}, {one.seconds:.1f} s"


def _figures(found: list[Tried]) -> int:
    offered, passing = ([one for one in found if getattr(one, name)] for name in ("offered", "passes"))
    seconds = sorted(one.seconds for one in found)
    print(f"{len(offered)} are offered something first, {len(passing)} pass with it as it is typed")
    print(f"led in a circle, refused again with what was offered: {len(offered) - len(passing)}")
    changes = Counter(sum(not line.startswith("[") for line in one.offered) for one in passing)
    print("lines in the set:", *(f"{lines}: {jobs}" for lines, jobs in sorted(changes.items())))
    tenths = ", ".join(f"{share}0 % {seconds[len(found) * share // 10]:.2f}" for share in (5, 7, 9))
    print(f"seconds of looking, at most: {tenths}, all {seconds[-1]:.2f}")
    codes = Counter(code for one in found for code in one.codes)
    print("codes:", *(f"{code} {times}" for code, times in codes.most_common()))
    return 0 if len(passing) >= 0.99 * len(found) else 1


if __name__ == "__main__":
    sys.exit(main())
