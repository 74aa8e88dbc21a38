"""Whether the lathe swings the blank and the retainer holds it."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi

from geometry.bodies.torus import Blank, outer_flat
from geometry.hardware.fittings import bolt_diameter, called
from geometry.lathe.turning import BAND_LOW, SWING_CLEARANCE
from jigs.asked.job import TorusJob, largest_that_fits
from jigs.stages.blank.check import ring_round
from jigs.stages.mountings.plan import HoldingPlan
from jigs.words.findings import Finding

LEAST_NECK_LENGTH = 2.0  # of the retainer, between the board and its band
LEAST_FLARE = 0.2  # of the retainer's band beyond its neck
LEAST_WASHER = 3.0  # in bolt diameters
NECK = 2.0  # least neck radius in bolt diameters


def lathe_findings(job: TorusJob, blank: Blank, holding: HoldingPlan) -> list[Finding]:
    """Swing, retainer."""
    return [
        *_swing(job, blank),
        *_retainer(job, holding),
        *_thin_tube(job, holding),
        *_thick_lining(job, holding),
    ]


def _thin_tube(job: TorusJob, holding: HoldingPlan) -> Iterator[Finding]:
    retainer = holding.retainer
    room = retainer.band_low - retainer.bottom
    if room >= LEAST_NECK_LENGTH:
        return
    grows = (LEAST_NECK_LENGTH + retainer.board_clearance) / (room + retainer.board_clearance)
    least = 2 * retainer.tube.wide * grows
    yield job.finding(
        "tube-too-thin-to-hold",
        f"a tube {job.show(2 * retainer.tube.wide)} thick leaves the retainer no room above its board",
        key="form.tube_diameter",
        remedy=f"a tube of at least {job.at_least(least)}",
    )


def _thick_lining(job: TorusJob, holding: HoldingPlan) -> Iterator[Finding]:
    """The band must flare beyond the straight neck at its foot: R - sqrt((r + g)^2 - z^2) over R - r - clearance."""
    plug = holding.retainer
    neck = plug.tube.wide + plug.neck_clearance - LEAST_FLARE
    most = plug.tube.nearest(neck, plug.band_low)[0]
    if plug.lining <= most:
        return
    show = job.show
    yield job.finding(
        "lining-too-thick",
        f"a lining of {show(plug.lining)} leaves the retainer's rim no wider than its neck",
        key="form.lining",
        remedy=f"a lining of at most {job.at_most(most)}",
    )


def _swing(job: TorusJob, blank: Blank) -> list[Finding]:
    limit = job.workshop.lathe.swing_over_bed - SWING_CLEARANCE
    if 2 * blank.swing_radius <= limit:
        return []
    form = job.form

    def fits(outer: float) -> bool:
        major = outer / 2 - form.tube_radius
        if major <= form.rough.wide:
            return True
        apothem, centre = ring_round(job, major, form.wedge_rings)
        swing = (centre + outer_flat(apothem, form.segments)) / cos(pi / form.wedge_rings)
        return 2 * swing <= limit

    most = largest_that_fits(fits, 4 * form.tube_radius, form.outer_diameter, step=1.0)
    smaller = f"an outer diameter of at most {job.at_most(most)}, or " if fits(most) else ""
    needed = 2 * blank.swing_radius + SWING_CLEARANCE
    return [
        job.finding(
            "swing",
            f"the blank swings {job.show(2 * blank.swing_radius)}; the lathe gives "
            f"{job.show(job.workshop.lathe.swing_over_bed)} less {job.show(SWING_CLEARANCE)} of clearance",
            key="lathe.swing_over_bed",
            remedy=f"{smaller}a lathe that swings at least {job.at_least(needed)}",
            wants={"lathe.swing_over_bed": needed, "form.outer_diameter": most},
        )
    ]


def _retainer(job: TorusJob, holding: HoldingPlan) -> Iterator[Finding]:
    retainer = holding.retainer
    bolt = bolt_diameter(holding.bolt)
    least_neck = NECK * bolt
    least_top = LEAST_WASHER * bolt / 2 + 3
    short = max(least_neck - retainer.neck_radius, least_top - retainer.top_radius)
    if short <= 0:
        return
    show = job.show
    yield job.finding(
        "hole-too-small-to-hold",
        f"in a hole of {show(job.form.hole_diameter)} the retainer's neck would be "
        f"{show(max(0.0, 2 * retainer.neck_radius))} across, too slim for its {called(holding.bolt)} bolt: its "
        f"band cannot touch from {BAND_LOW:g} of the tube's radius",
        key="bolts.centre",
        remedy=f"a hole of at least {job.at_least(job.form.hole_diameter + 2 * short)}, or a smaller bolt",
    )
