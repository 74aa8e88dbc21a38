"""One random job for each seed and number: the same two give the same job."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from tests.sweep.tables import text_of
from tests.sweep.torus_jobs import torus
from tests.sweep.vessel_jobs import SHAPES, vessel
from tests.sweep.wild_jobs import wild

WILD = 0.25  # of all jobs: any key at all, to the ends of its range
TORI = 0.35  # of the others
BY_EDGES = 0.6  # of the vessels


@dataclass(frozen=True)
class RandomJob:
    """A job file's text, and the kind of thing it asks for."""

    kind: str
    text: str


def random_job(seed: int, number: int) -> RandomJob:
    """Job `number` of a seed."""
    rng = Random(f"{seed} {number}")
    if rng.random() < WILD:
        return RandomJob("wild", text_of(wild(rng)))
    if rng.random() < TORI:
        return RandomJob("torus", text_of(torus(rng)))
    shape = rng.choice(list(SHAPES))
    by = "edges" if rng.random() < BY_EDGES else "stations"
    return RandomJob(f"{shape} by {by}", text_of(vessel(rng, shape, by)))
