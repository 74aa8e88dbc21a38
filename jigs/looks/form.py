"""A plan's finished form as pictures need it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from geometry.bodies.meridian import Meridian, torus_meridian, vessel_meridian
from geometry.bodies.section import Section
from geometry.records import Record
from jigs.looks.lid import shown_knob, with_knob
from jigs.looks.solid import Solid, torus_solid, vessel_solid
from jigs.looks.unrolled import Sheet
from jigs.plans.plan import Shown, by_form
from jigs.words.called import Called

if TYPE_CHECKING:
    from jigs.plans.shape import TorusShape, VesselShape
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


TORUS_VIEWS = {
    "perspective": "from above",
    "front": "the face, along the axis",
    "edge": "from the side of the rim",
}
VESSEL_VIEWS = {"perspective": "from above", "front": "from the side", "edge": "from above, along the axis"}


class Form(Record, eq=False):
    """`sheets` are what is unrolled to pictures, `whole` to the model's texture."""

    meridian: Meridian
    solid: Solid
    sheets: tuple[Sheet, ...]
    views: Mapping[str, str]  # of its pictures by name, in words
    upright: bool  # it stands on its foot
    lid: bool = False  # planned upside down, drawn with its top up

    @property
    def whole(self) -> Sheet:
        return Sheet("all of it", self.meridian.length, 0.0)


def form_of(plan: Shown) -> Form:
    return by_form(plan, torus=_of_torus, vessel=_of_vessel)


def _of_torus(plan: TorusPlan | TorusShape) -> Form:
    sizes = plan.job.form.major_radius, plan.job.form.tube
    meridian = torus_meridian(*sizes)
    sheet = Sheet("cut open along the hole, the rim in the middle", meridian.length, 0.0)
    return Form(meridian, torus_solid(*sizes), (sheet,), TORUS_VIEWS, upright=False)


def _of_vessel(plan: VesselPlan | VesselShape) -> Form:
    meridian, solid = vessel_meridian(plan.section), vessel_solid(plan.section)
    if knob := shown_knob(plan):
        meridian, solid = with_knob(plan.section, knob)
    sheets = _vessel_sheets(plan.section, meridian, plan.job.called)
    return Form(meridian, solid, sheets, VESSEL_VIEWS, upright=True, lid=plan.job.lid is not None)


def _vessel_sheets(section: Section, meridian: Meridian, word: Called) -> tuple[Sheet, ...]:
    """Outside from the rim down to the foot, inside from the rim down to the floor's middle."""
    inside = meridian.length - Meridian(section.inner).length
    rim = inside - (section.rim_radius - section.mouth_radius)
    foot = rim - Meridian(section.outer).length
    return (
        Sheet(f"the outside from the rim down to the {word.foot}", rim, foot),
        Sheet(f"the inside from the rim down to the {word.floor}'s middle", inside, meridian.length),
    )
