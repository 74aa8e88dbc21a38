"""What shows of a job and what it is glued up from, without jigs and boards: drawn while its sizes are dragged."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Literal

from geometry.records import Record
from jigs.asked.job import TorusJob

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from geometry.bodies.section import Section
    from geometry.bodies.torus import Blank
    from jigs.asked.vessel_job import VesselJob
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
    from jigs.stages.knob.plan import KnobPlan
    from jigs.stages.layup.plan import LayupPlan
    from jigs.stages.stack.plan import Layer, StackPlan
    from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
    from jigs.stages.wedge_rings.layout.sled import SledLayout


class TorusShape(Record, eq=False):
    """A torus and its blank, whether or not that can be sawn and held."""

    job: TorusJob
    blank: Blank
    margins: tuple[float, ...]  # wood beyond the allowance at each flat, the first flat straight down
    wall: float  # between the core and the finished surface
    sled: SledLayout | BandsawLayout
    species: tuple[tuple[str, ...], ...]  # of each segment of each wedge ring
    layups: tuple[LayupPlan, ...]
    kind: Literal["torus"] = field(default="torus", init=False)


class VesselShape(Record, eq=False):
    """A vessel and its stack, whether or not that can be sawn and held."""

    job: VesselJob
    section: Section
    wall: tuple[float, float]  # the thinnest, and its height
    stack: StackPlan
    cut: tuple[Layer, ...]  # the rings as they are sawn
    sleds: dict[int, PlanAngleLayout]  # by count of segments
    layups: tuple[LayupPlan, ...]
    knob: KnobPlan | None  # of a lid
    kind: Literal["vessel"] = field(default="vessel", init=False)
