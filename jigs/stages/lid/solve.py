"""How a lid lies on its pot, worked out."""

from __future__ import annotations

from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.lid.plan import LEAST_BEARS, LidPlan
from jigs.stages.stack.plan import StackPlan

HAIR = 1e-6  # mm beside a step


def lid_plan(job: VesselJob, section: Section, stack: StackPlan) -> LidPlan | None:
    """None for what is no lid."""
    if job.lid is None or job.pot is None:
        return None
    pot, fit, seat = job.pot.job, job.pot.fit, job.lid.seat
    body = solve_section(pot)
    inner, rim = body.inner, body.outer.end
    step = section.height - seat
    own = max(radius for radius, z, _ in section.outer.vertices.tolist() if abs(z - step) < HAIR)
    mouth = job.lid.mouth_diameter / 2 if job.lid.mouth_diameter else inner.end[0]
    on_rim = min(own, rim[0]) - mouth - fit.widest
    deep = pot.rebate.depth
    on_ledge = fit.flange - (mouth - pot.rebate.width) - fit.widest
    ledged = deep > 0 and (seat >= deep or on_rim < LEAST_BEARS)
    return LidPlan(
        fit=fit,
        pot=pot.title,
        pot_section=body,
        pot_mouth=2 * mouth,
        step=step,
        seat=seat,
        rests="ledge" if ledged else "rim",
        bears=on_ledge if ledged else on_rim,
        overhangs=own > mouth,
        over=seat - deep if ledged else 0.0,
        over_floor=0.0 if ledged else (deep or rim[1] - inner.bottom) - seat,
        least_rim=2 * (mouth + fit.widest + LEAST_BEARS),
        solid_taken=fit.lid.solid,
        solid_found=any(
            layer.kind in ("disc", "staves")
            for layer in stack.layers
            if layer.ring.bottom < section.height and layer.ring.bottom + layer.ring.height > step
        ),
    )
