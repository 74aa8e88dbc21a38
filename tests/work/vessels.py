"""Vessels whose work the tests look at: the examples and some more."""

from __future__ import annotations

from functools import cache

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.forms.vessel.form import VESSEL
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.sets.rack import draw
from jigs.work.model import Operation, Rack
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.vessel.test_floating import plan_of as floating_plan
from tests.jigs.vessel.test_made_round import BAND
from tests.jigs.vessel.test_stems import upright
from tests.jigs.wood.whole_jobs import CONFIG_VESSELS, VESSELS
from tests.work.works import proof_of

BOLTED = '[reversing]\nhold = "bolt"\nbase_hole = "11 mm"\n'
MORE = {
    "stem": upright,
    "floating": floating_plan,
    "floating, upright": lambda: floating_plan(more='grain = "upright"'),
    "bolted": lambda: solve(parse(vessel_text("vase", more=BOLTED), "vase.toml")),
    "bolted, open": lambda: solve(parse(vessel_text("open", more=BOLTED), "open.toml")),
    "bandsawn": lambda: solve(parse(vessel_text("platter", more=BAND), "platter.toml")),
}
JOBS = (*CONFIG_VESSELS, *VESSELS, "plied vase", *MORE)
BEFORE = ("shop", "coupon", "printing", "cutting_out", "building")  # tests/work/test_building.py
each = pytest.mark.parametrize("name", JOBS)


@cache
def job(name: str) -> tuple[VesselPlan, tuple[Part, ...]]:
    proof = draw(MORE[name]()) if name in MORE else proof_of(name)
    assert isinstance(proof.plan, VesselPlan)
    return proof.plan, tuple(proof.parts)


@cache
def done(name: str) -> tuple[Operation, ...]:
    return operations(*job(name))


def operations(plan: VesselPlan, parts: tuple[Part, ...]) -> tuple[Operation, ...]:
    rack = Rack(parts)
    own = [stage for stage in VESSEL.stages if stage.id not in BEFORE]
    return tuple(operation for stage in own for operation in stage.operations(plan, rack))


def ids(name: str) -> list[str]:
    return [operation.id for operation in done(name)]
