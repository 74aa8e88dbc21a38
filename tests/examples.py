"""The examples of configs/ as solved, each once in a process."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
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


@contextmanager
def solved_once() -> Iterator[None]:
    """A make solves a job once, and makes its parts once, whatever folder its files lie in."""
    plans: dict[str, Any] = {}
    racks: dict[tuple[str, bool], tuple[list[Part], list[Finding]]] = {}

    def key(job: Job) -> str:
        places = {key: place.line for key, place in job.places.items()}
        return repr((replace(job, source=None, workshop_source=None, places={}), places))

    def solved(job: Job) -> Any:
        if key(job) not in plans:
            plans[key(job)] = solve(job)
        return replace(plans[key(job)], job=job)

    def racked(plan: Any, lean: bool = False) -> tuple[list[Part], list[Finding]]:
        if (key(plan.job), lean) not in racks:
            racks[key(plan.job), lean] = rack(plan, lean)
        return racks[key(plan.job), lean]

    with mock.patch("jigs.forms.solve.solve", solved), mock.patch("jigs.sets.rack.rack", racked):
        yield
