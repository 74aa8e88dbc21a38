"""The examples of configs/ as solved, each once in a process."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any
from unittest import mock

from jigs.asked.job import Job
from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.sets.rack import rack
from jigs.words.findings import Finding

CONFIGS = Path(__file__).parents[1] / "configs"


@cache
def plan_of_example(name: str) -> Any:
    """The plan, of either form."""
    return solve(load(CONFIGS / f"{name}.toml"))


def parts_of_example(name: str) -> tuple[Part, ...]:
    return tuple(_rack(name)[0])


@cache
def _rack(name: str) -> tuple[list[Part], list[Finding]]:
    return rack(plan_of_example(name))


@contextmanager
def as_solved(name: str) -> Iterator[None]:
    """A make of the example goes by the plan and the parts that the tests have; any other job is solved."""
    own = plan_of_example(name)

    def solved(job: Job) -> Any:
        return own if job == own.job else solve(job)

    def racked(plan: Any, lean: bool = False) -> tuple[list[Part], list[Finding]]:
        return _rack(name) if plan is own and not lean else rack(plan, lean)

    with mock.patch("jigs.forms.solve.solve", solved), mock.patch("jigs.sets.rack.rack", racked):
        yield


racking: Any = import_module("jigs.sets.rack")
KEPT = 30  # plans, the last that were asked for


@contextmanager
def solved_once() -> Iterator[None]:
    """A command solves a job once, and makes its parts once, whatever folder its files lie in."""
    known: dict[str, tuple[Any, dict[object, tuple[list[Part], list[Finding]]]]] = {}

    def key(job: Job) -> str:
        places = {key: place.line for key, place in job.places.items()}
        return repr((replace(job, source=None, workshop_source=None, places={}), places))

    def solved(job: Job, early: bool = False) -> Any:
        if early:  # mostly refused, each another
            return solve(job, early)
        own = key(job)
        plan, racks = known.pop(own, None) or (solve(job), {})
        known[own] = plan, racks
        if len(known) > KEPT:
            del known[next(iter(known))]
        return plan if plan.job.source == job.source else replace(plan, job=job)

    def racked(plan: Any, lean: bool = False) -> tuple[list[Part], list[Finding]]:
        _, racks = known.get(key(plan.job), (None, {}))
        way = lean, racking.settled  # some tests leave lettering out
        if way not in racks:
            racks[way] = rack(plan, lean)
        return [*racks[way][0]], [*racks[way][1]]

    with ExitStack() as stack:
        for name in ("forms.solve.solve", "sets.rack.solve", "sets.only.solve"):
            stack.enter_context(mock.patch(f"jigs.{name}", solved))
        for name in ("sets.rack.rack", "sets.only.rack"):
            stack.enter_context(mock.patch(f"jigs.{name}", racked))
        yield
