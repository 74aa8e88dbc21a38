"""What the plans of a form are made into: one record for each form, which stands in its own room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from geometry.records import Record
from jigs.parts.coding import settled
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.words.quantity import Quantity
from jigs.work.model import Stage, Table

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

P = TypeVar("P", contravariant=True)


class Form(Record, Generic[P]):
    """The stages of its work in their order, the job in short, and tables of the whole job, told before the stages'."""

    stages: tuple[Stage[P], ...]
    facts: Callable[[P], tuple[Quantity, ...]]
    tables: tuple[Callable[[P], Sequence[Table]], ...]


def of_plan(plan: Plan) -> Form[Any]:
    """The record of the plan's form, whose functions take this plan."""
    return by_form(plan, torus=_of_torus, vessel=_of_vessel)


def _of_torus(_: TorusPlan) -> Form[Any]:
    from jigs.forms.torus.form import TORUS

    return TORUS


def _of_vessel(_: VesselPlan) -> Form[Any]:
    from jigs.forms.vessel.form import VESSEL

    return VESSEL


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan, their lettering in its places."""
    title = plan.job.title.upper()
    families = (family for stage in of_plan(plan).stages for family in stage.jigs)
    return [settled(part, title) for family in families for part in family(plan)]
