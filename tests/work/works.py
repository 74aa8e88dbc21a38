"""The work of the tests' whole jobs, gathered once."""

from __future__ import annotations

from functools import cache

from jigs.forms.work import work
from jigs.sets.rack import Proof, draw
from jigs.words.quantity import Quantity
from jigs.work.model import Work
from tests.jigs.wood.whole_jobs import plan_of


@cache
def proof_of(name: str) -> Proof:
    return draw(plan_of(name))


@cache
def work_of(name: str) -> Work:
    proof = proof_of(name)
    return work(proof.plan, proof.parts, proof.notes)


def count_and_size(bolts: Quantity) -> tuple[int, str]:
    """Of a setting of bolts: 4 and "M6 x 40"."""
    count, _, size = str(bolts.value).partition(" x ")
    return int(count), size
