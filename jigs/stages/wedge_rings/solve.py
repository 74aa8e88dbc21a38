"""Whole rings to spare: which rings each can stand in for."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.grouping import gathered
from jigs.asked.job import TorusJob

Woods = tuple[str, ...]


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
