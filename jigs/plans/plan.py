"""Every number of a job, solved once and frozen, and which form its plan or its shape is: asked here. Whoever has two
ways to go names both, and a type misses a third."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar, overload

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.shape import TorusShape, VesselShape
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

Plan: TypeAlias = "TorusPlan | VesselPlan"
Shape: TypeAlias = "TorusShape | VesselShape"
Shown: TypeAlias = "Plan | Shape"  # either tells what a finished form looks like
T = TypeVar("T")


@overload
def by_form(of: Plan, *, torus: Callable[[TorusPlan], T], vessel: Callable[[VesselPlan], T]) -> T: ...


@overload
def by_form(of: Shape, *, torus: Callable[[TorusShape], T], vessel: Callable[[VesselShape], T]) -> T: ...


@overload
def by_form(
    of: Shown,
    *,
    torus: Callable[[TorusPlan | TorusShape], T],
    vessel: Callable[[VesselPlan | VesselShape], T],
) -> T: ...


def by_form(of: Shown, *, torus: Callable[[Any], T], vessel: Callable[[Any], T]) -> T:
    """What its own form's function makes of it."""
    return vessel(of) if of.kind == "vessel" else torus(of)
