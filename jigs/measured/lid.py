"""A lid's pot as its mouth was measured: the flange follows it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from jigs.asked.vessel_job import MOUTH, is_slip, mouths_read
from jigs.measured.advice import NOTHING, Advice, Words
from jigs.words.quantity import calliper

if TYPE_CHECKING:
    from jigs.plans.vessel import VesselPlan

TOPIC = "lid"
ROUND = 0.3  # mm that two readings across a mouth may differ by. Common practice, no source


def lid_advice(plan: VesselPlan) -> Iterator[Advice]:
    """Nothing for what is no lid, and where its pot was not measured."""
    read, words = mouths_read(plan.job.readings), Words(plan.job.unit)
    if plan.lid is None or not read:
        return
    planned = 2 * plan.lid.pot_section.mouth_radius
    least, most = min(read), max(read)
    told = (
        calliper("mouth", "Mouth of the pot, across", least),
        calliper("off", "Wider than planned by", least - planned),
    )
    id = f"{TOPIC}.{MOUTH.rpartition('.')[2]}"
    if is_slip(least, planned):
        says = (
            f"A mouth of {words.fine(least)} is far from its plan of {words.fine(planned)}: measure it again."
        )
        yield Advice(id, TOPIC, "unclear", told, (says,))
        return
    oval = f"The mouth is out of round by {words.fine(most - least)}: the flange follows the smaller reading."
    rows = (oval,) if most - least > ROUND else ()
    if abs(least - planned) < NOTHING:
        yield Advice(
            id, TOPIC, "right", told, ("The mouth has its size: the flange stays as planned.", *rows)
        )
        return
    says = (
        f"The flange follows the mouth as you measured it, {words.fine(least)} across; make draws its gauges."
    )
    yield Advice(id, TOPIC, "correct", told, (says, *rows))
