"""Candidates tried as the job file would have them: read, solved, every jig drawn. Only what passes is named."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice
from pathlib import Path

from geometry.records import dataclass
from jigs.asked.change import Changes, changed
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import Source
from jigs.compare.figures import FIGURE, figures
from jigs.compare.wish import By, Wish
from jigs.forms.solve import solve
from jigs.words.quantity import Quantity

MOST_TRIALS = 40


@dataclass(frozen=True)
class Compared:
    """One way to build the work. `changes` is nothing for the job as it is."""

    changes: Changes
    figures: tuple[Quantity, ...]


def compared(source: Source, path: Path, every: Iterable[Changes], wish: Wish) -> list[Compared]:
    """The best of those that pass, in order: twice as many as are wanted are tried, for estimates are not figures."""
    passed: list[Compared] = []
    for changes in islice(every, MOST_TRIALS):
        if len(passed) == 2 * wish.best:
            break
        one = tried(source, path, changes, wish)
        passed += [one] if one else []
    passed.sort(key=lambda one: _figure(one, wish.by))
    return passed[: wish.best]


def _figure(one: Compared, by: By) -> float:
    """What is ordered by; less is better."""
    value = next(figure.value for figure in one.figures if figure.id == FIGURE[by])
    assert not isinstance(value, str)
    return -value if by == "piece" else value


def tried(source: Source, path: Path, changes: Changes, wish: Wish) -> Compared | None:
    """A job with changes, or None where it is refused."""
    try:
        return Compared(changes, tuple(figures(solve(job_of(changed(source, changes), path)), wish)))
    except Exception:  # refused; and what breaks the tool is none that anybody is offered
        return None
