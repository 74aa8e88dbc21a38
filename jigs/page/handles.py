"""What of a section can be dragged, and which value of the job file that changes."""

from __future__ import annotations

from jigs.asked.vessel_job import VesselJob
from jigs.forms.shape import Shape, TorusShape
from jigs.page.contract import Handle

OUTER, TUBE = "form.outer_diameter", "form.tube_diameter"


def handles_of(shape: Shape) -> list[Handle]:
    return _torus_handles(shape) if shape.kind == "torus" else _stations(shape.job)


def _torus_handles(shape: TorusShape) -> list[Handle]:
    """The rim: it changes the outer diameter, or the tube's where the file leaves the outer one out."""
    form = shape.job.form
    rim = form.outer_diameter / 2
    if OUTER in shape.job.places:
        return [Handle("rim", OUTER, [], "Outer diameter", rim, 0.0, (1.0, 0.0), 2.0, form.outer_diameter)]
    return [Handle("rim", TUBE, [], "Tube diameter", rim, 0.0, (1.0, 0.0), 1.0, form.tube_diameter)]


def _stations(job: VesselJob) -> list[Handle]:
    """The diameter at each height that the file states."""
    outside = job.outside
    if outside.way != "stations":
        return []
    sizes = [(z, outside.profile.radius_at(z)) for z in outside.stations]
    return [
        Handle(f"station-{k + 1}", "profile.stations", [k, 1], f"Diameter at station {k + 1}", radius, z,
               (1.0, 0.0), 2.0, 2 * radius)
        for k, (z, radius) in enumerate(sizes)
    ]  # fmt: skip
