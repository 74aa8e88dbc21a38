"""Tori whose work the tests look at: the examples and some more."""

from __future__ import annotations

from functools import cache

import pytest

from jigs.forms.torus.form import TORUS
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.sets.rack import draw
from jigs.work.model import Operation, Rack
from tests.jigs.wood.whole_jobs import CONFIG_TORI, LAYUPS, TORI, plan_of, torus

BANDSAW = "[bandsaw]\nheight = 160\n[cutting]\nwedge_rings = 'bandsaw'\nsegments = 'bandsaw'\nplan_angle_sled = true\n"
MORE = {
    "bandsaw": {"more": BANDSAW},
    "sixteen": {"rings": 16, "form": "turning_allowance = 3"},
    "six sides": {"segments": 6},
    "lined": {"form": "lining = 1.5"},
}
JOBS = (*CONFIG_TORI, *TORI, LAYUPS[0], *MORE)
each = pytest.mark.parametrize("name", JOBS)


@cache
def job(name: str) -> tuple[TorusPlan, tuple[Part, ...]]:
    proof = draw(torus(**MORE[name]) if name in MORE else plan_of(name))
    assert isinstance(proof.plan, TorusPlan)
    return proof.plan, tuple(proof.parts)


@cache
def done(name: str) -> tuple[Operation, ...]:
    plan, parts = job(name)
    return operations(plan, parts)


def operations(plan: TorusPlan, parts: tuple[Part, ...]) -> tuple[Operation, ...]:
    rack = Rack(parts)
    return tuple(operation for stage in TORUS.stages for operation in stage.operations(plan, rack))


def ids(name: str) -> list[str]:
    return [operation.id for operation in done(name)]


def one(name: str, id: str) -> Operation:
    return next(operation for operation in done(name) if operation.id == id)
