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
from jigs.parts.coding import settled
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


racking: Any = import_module("jigs.sets.rack")
KEPT = 30  # plans, the last that were asked for


def _asked(job: Job) -> str:
    """What a job asks for, wherever it lies."""
    places = {key: place.line for key, place in job.places.items()}
    return repr((replace(job, source=None, workshop_source=None, places={}), places))


@cache
def _asked_by_example(name: str) -> str | None:
    file = CONFIGS / f"{name}.toml"
    return _asked(load(file)) if file.exists() else None


def _is_example(job: Job) -> bool:
    return _asked_by_example(job.name) == _asked(job)


def _planned(job: Job) -> Any:
    return plan_of_example(job.name) if _is_example(job) else solve(job)


@contextmanager
def solved_once() -> Iterator[None]:
    """A command solves a job once, and makes its parts once, whatever folder its files lie in; no example anew."""
    known: dict[str, tuple[Any, dict[object, tuple[list[Part], list[Finding]]]]] = {}

    def solved(job: Job, early: bool = False) -> Any:
        if early:  # mostly refused, each another
            return solve(job, early)
        own = _asked(job)
        plan, racks = known.pop(own, None) or (_planned(job), {})
        known[own] = plan, racks
        if len(known) > KEPT:
            del known[next(iter(known))]
        return plan if plan.job.source == job.source else replace(plan, job=job)

    def racked(plan: Any, lean: bool = False) -> tuple[list[Part], list[Finding]]:
        _, racks = known.get(_asked(plan.job), (None, {}))
        way = lean, racking.settled  # some tests leave lettering out
        if way not in racks:
            own = way == (False, settled) and _is_example(plan.job)
            racks[way] = _rack(plan.job.name) if own else rack(plan, lean)
        return [*racks[way][0]], [*racks[way][1]]

    with ExitStack() as stack:
        for name in ("forms.solve.solve", "sets.rack.solve", "sets.only.solve"):
            stack.enter_context(mock.patch(f"jigs.{name}", solved))
        for name in ("sets.rack.rack", "sets.only.rack"):
            stack.enter_context(mock.patch(f"jigs.{name}", racked))
        yield
