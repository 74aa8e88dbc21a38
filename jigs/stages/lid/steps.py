"""A lid: its pot measured first, its flange fitted, the lid on its pot. The operations."""

from __future__ import annotations

from jigs.plans.vessel import VesselPlan
from jigs.stages.lid.plan import LidPlan
from jigs.stages.sizes.parts.sticks import lid_gauges
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, GAUGED, MOUNTED
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, at_lathe, right_if, uses
from jigs.work.woods import weighs

POT, FIT, ON = "lid_pot", "lid_fit", "lid_on"
MOUTH_STICK, FLANGE_GAUGE = "lid-mouth-stick", "lid-flange-gauge"


def measured(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """The pot, before anything of the lid is turned; nothing for what is no lid."""
    lid, wish = plan.lid, plan.job.lid
    if lid is None or wish is None:
        return []
    mouth = calliper("mouth", "Mouth of the pot, across", lid.pot_mouth)
    return [
        at_bench(
            f"{POT}.measure",
            "Measure the pot's mouth and the moisture of both woods, before you turn the lid.",
            how=(
                "A lid is turned upside down, its top towards the waste block, the hollow in its flange away from it.",
                "Turn, sand and finish the pot first.",
                "Keep pot and lid in one room until the moisture meter shows the same for both.",
                "Break the inner edge of the pot's mouth with fine paper, so that it does not scrape.",
            ),
            settings=(mouth, Quantity("moisture", "Moisture as fitted", f"{wish.moisture:g} %", "text")),
            jigs=uses(rack.named(MOUTH_STICK), notes=True),
            checks=right_if(
                "mouth",
                "Mouth stick across the pot, two ways: GO enters, TOO WIDE does not",
                if_not="measure it, write the reading into the readings file, and make the jigs again",
            ),
            minutes=2 * GAUGED,
            readings=(Reading("mouth", "Mouth of the pot, two ways", mouth, 2),),
        )
    ]


def fitted(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """The flange, the lid still on its waste block; nothing for what is no lid."""
    lid = plan.lid
    if lid is None:
        return []
    return [
        at_lathe(
            f"{FIT}.flange",
            "Turn the flange to fit the pot, with a sharp tool and light cuts; never sand it to size.",
            how=(
                "Cut the step square to the flange.",
                "Take the flange down until GO passes over it, all along. TOO SMALL must never pass.",
                "Turn a shallow groove into the corner of step and flange, and break the flange's edge.",
                "Try the pot over it, the lathe stopped, before you take the lid off.",
            ),
            settings=(
                calliper("flange", "Flange, across", lid.flange),
                ruled("seat", "Flange, long", lid.seat),
                calliper("gap", "Gap all round in the pot, as fitted", lid.fit.gap),
            ),
            known=(
                calliper("gap.least", "Gap all round in the dampest air", lid.fit.least),
                calliper("gap.most", "Gap all round in the driest air", lid.fit.widest),
            ),
            jigs=uses(rack.named(FLANGE_GAUGE), notes=True),
            checks=(
                Check(
                    "flange",
                    "Lathe stopped: flange gauge at both ends of the flange, two ways",
                    if_not="TOO SMALL passes: the lid is loose; line the pot's mouth, or make the lid again",
                ),
                Check(
                    "pot",
                    "The pot goes on by its own weight and turns freely, in four places round",
                    if_not="rub pencil on the flange, see where the pot wipes it off, and take a scraping off there",
                ),
            ),
            cautions=("lathe.gauge", "lathe", "lathe.stand"),
            minutes=MOUNTED + 3 * GAUGED,
        )
    ]


def put_on(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """The finished lid; nothing for what is no lid."""
    return [_on(plan, plan.lid)] if plan.lid else []


def _on(plan: VesselPlan, lid: LidPlan) -> Operation:
    return at_bench(
        f"{ON}.on",
        f"Put the lid on its pot, {lid.pot}.",
        how=(
            "Let finish on flange and mouth dry before they meet: it sticks.",
            "Keep both from sun, radiators and damp: rings of wood swell and shrink, and the fit with them.",
            f"It lies on the pot's {lid.rests}, all round."
            + (" Its underside stays clear of the rim." if lid.over > 0 else ""),
        ),
        settings=(ruled("over", "Lid clear of the pot's rim by", lid.over),) if lid.over > 0 else (),
        known=weighs(plan),
        checks=right_if(
            "lies",
            "Press round the edge with a finger: nothing rocks. A strip of paper under it is held alike all round",
            if_not="rub chalk on the pot's rim, turn the lid on it, and sand down what the chalk marks",
        ),
        minutes=CHECKED,
    )


POT_STAGE: Stage[VesselPlan] = Stage(POT, "Measure the lid's pot", measured, jigs=(lid_gauges,))
FIT_STAGE: Stage[VesselPlan] = Stage(FIT, "Fit the lid's flange", fitted)
ON_STAGE: Stage[VesselPlan] = Stage(ON, "Put the lid on its pot", put_on)
