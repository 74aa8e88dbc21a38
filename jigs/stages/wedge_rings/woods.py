"""The woods of the wedge rings: of which each segment is, whether a spiral closes, for which ring a spare does."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.grouping import gathered
from jigs.asked.job import Form, TorusJob

Woods = tuple[str, ...]


def ring_woods(form: Form) -> tuple[Woods, ...]:
    """The wood of every segment, ring by ring, each ring's woods turned on from the last's.

    Both lists repeat, or that by ring is shared out.
    """
    return tuple(_row(form, number) for number in range(1, form.wedge_rings + 1))


def left_open(form: Form) -> int:
    """By how many segments the woods miss ring 1's where the last ring meets it; 0 where they go on as before.

    The fewest, either way round; woods that do not meet at any turn have no answer and give 0.
    """
    first, after = _row(form, 1), _row(form, form.wedge_rings + 1)
    n = form.segments
    fits = [k for k in range(n) if after[k:] + after[:k] == first]
    return min((k if k <= n / 2 else k - n for k in fits), key=abs, default=0)


def _row(form: Form, number: int) -> Woods:
    count, n = len(form.species), form.segments
    names = form.species[((number - 1) * count // form.wedge_rings if form.spread else number - 1) % count]
    by = sum(round(form.turn[k % len(form.turn)]) for k in range(number - 1)) if form.turn else 0
    row = tuple(names[i % len(names)] for i in range(n))
    return tuple(row[(i - by) % n] for i in range(n))


def spare_rings(job: TorusJob, species: Sequence[Woods]) -> tuple[tuple[int, ...], ...]:
    """For each whole ring to spare the numbers, from 1, of those that it can stand in for.

    As many as are asked for of every order of woods that more than one ring has: a spare for one ring alone would be
    as much wood again. Before its wedge faces are cut a ring can be turned about its axis and over.
    """
    alike = gathered((() if job.layup else _order(woods), k) for k, woods in enumerate(species, 1))
    shared = [tuple(rings) for rings in alike.values() if len(rings) > 1]
    return tuple(rings for rings in shared for _ in range(job.workshop.spares.rings))


def _order(woods: Woods) -> Woods:
    """Alike for every way in which a ring can lie."""
    both = (woods, woods[::-1])
    return min(way[k:] + way[:k] for way in both for k in range(len(woods)))
