"""The examples of configs/ as solved, each once in a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.sets.rack import rack

CONFIGS = Path(__file__).parents[1] / "configs"


@cache
def plan_of_example(name: str) -> Any:
    """The plan, of either form."""
    return solve(load(CONFIGS / f"{name}.toml"))


@cache
def parts_of_example(name: str) -> tuple[Part, ...]:
    return tuple(rack(plan_of_example(name))[0])
