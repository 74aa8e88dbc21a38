"""Whether a knob stands on its lid and is glued into it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from geometry.statics.hoop import bending, least_diameter
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import SIDE, allowed_along
from jigs.stages.knob.plan import KnobPlan
from jigs.words.findings import Finding
from jigs.words.lengths import force_text, stress_texts

# Common practice, no source, all of them; mm.
UNDER = 2.0  # least wood under the hole
SHOULDER = 1.5  # least of the knob's foot round its tenon
LEAST_TOP = 0.0
PLACES = 100  # heights at which it is bent, beside its corners


def knob_findings(job: VesselJob, knob: KnobPlan | None) -> Iterator[Finding]:
    """Everything about it; nothing where there is no knob."""
    if knob is None:
        return
    show = job.show
    if knob.left < UNDER - 1e-9:
        most = knob.length + knob.left - UNDER
        leaves = (
            f"leaves {show(knob.left)} of the lid under its hole" if knob.left > 0 else "goes through the lid"
        )
        message = f"a tenon {show(knob.length)} long {leaves}; {show(UNDER)} must be left"
        remedy = f"use at most {job.at_most(most)}" if most >= 3.0 else "use a thicker floor in the lid"
        wants = {"wall.floor": knob.hole + UNDER}
        if job.inside is not None:
            wants = {"inside": job.inside.profile.bottom + UNDER - knob.left}
        yield job.finding("knob-deep", message, key="knob.tenon_length", remedy=remedy, wants=wants)
    foot = 2 * knob.profile.start[0]
    if foot < knob.tenon + 2 * SHOULDER - 1e-9:
        message = (
            f"a knob {show(foot)} across at its foot has no shoulder round a tenon of {show(knob.tenon)}"
        )
        remedy = f"use a tenon of at most {job.at_most(foot - 2 * SHOULDER)}"
        yield job.finding("knob-shoulder", message, key="knob.tenon_diameter", remedy=remedy)
    if knob.lands < LEAST_TOP - 1e-9:
        message = (
            f"the knob's foot is {show(foot)} across, wider than the flat of the lid's top, "
            f"{show(max(0.0, foot + 2 * knob.lands))}"
        )
        remedy = (
            f"let the lid's profile begin at least {job.at_least(foot)} across, without a hollow in its foot"
        )
        yield job.finding("knob-stands-over", message, key="knob", remedy=remedy)
    yield from _slim(job, knob)


def _slim(job: VesselJob, knob: KnobPlan) -> Iterator[Finding]:
    """Where a push bends it most, of a hand or a light cut where it is half its width; its grain runs along it."""
    allowed, line = allowed_along([knob.species]), knob.profile
    heights = np.linspace(line.bottom, line.top, PLACES)
    places = [*((z, line.radius_at(z)) for z in heights.tolist()), *line.vertices[:, 1::-1].tolist()]
    pushed = max(z for z, radius in places if 4 * radius >= knob.widest)
    stress, z, radius = max((bending(SIDE, pushed - z, r), z, r) for z, r in places if z <= pushed)
    if stress <= allowed:
        return
    show, (has, most) = job.show, stress_texts(stress, allowed, job.unit)
    least = job.at_least(least_diameter(SIDE, pushed - z, allowed))
    yield job.warning(
        "knob-slim",
        f"the knob is {show(2 * radius)} across, {show(z)} over the lid: a push of "
        f"{force_text(SIDE, job.unit)} {show(pushed)} over it bends it with {has}; {most} is the most for its wood "
        "along the grain",
        key="knob",
        remedy=f"make it at least {least} across there, or make it lower",
    )
