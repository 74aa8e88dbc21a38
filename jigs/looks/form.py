"""A plan's finished form as pictures need it."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.bodies.meridian import Meridian, torus_meridian, vessel_meridian
from geometry.bodies.section import Section
from jigs.forms.shape import Shown
from jigs.looks.solid import Solid, torus_solid, vessel_solid
from jigs.looks.unrolled import Sheet


@dataclass(frozen=True, eq=False)
class Form:
    """`sheets` are what is unrolled to pictures, `whole` to the model's texture."""

    meridian: Meridian
    solid: Solid
    sheets: tuple[Sheet, ...]

    @property
    def whole(self) -> Sheet:
        return Sheet("all of it", self.meridian.length, 0.0)


def form_of(plan: Shown) -> Form:
    if plan.kind == "torus":
        sizes = plan.job.form.major_radius, plan.job.form.tube_radius
        meridian = torus_meridian(*sizes)
        sheet = Sheet("cut open along the hole, the rim in the middle", meridian.length, 0.0)
        return Form(meridian, torus_solid(*sizes), (sheet,))
    meridian = vessel_meridian(plan.section)
    return Form(meridian, vessel_solid(plan.section), _vessel_sheets(plan.section, meridian))


def _vessel_sheets(section: Section, meridian: Meridian) -> tuple[Sheet, ...]:
    """Outside from the rim down to the foot, inside from the rim down to the floor's middle."""
    inside = meridian.length - Meridian(section.inner).length
    rim = inside - (section.rim_radius - section.mouth_radius)
    foot = rim - Meridian(section.outer).length
    return (
        Sheet("the outside from the rim down to the foot", rim, foot),
        Sheet("the inside from the rim down to the floor's middle", inside, meridian.length),
    )
