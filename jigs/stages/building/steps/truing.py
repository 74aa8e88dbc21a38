"""What quarters, halves and half rings are trued on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from geometry.records import replace
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.building.steps.common import DRY, built, flush_text, named, square
from jigs.words.quantity import calliper
from jigs.work.hardware import bolts
from jigs.work.model import Check, Goods, Operation, Rack, right_if
from jigs.work.supplies import abrasive

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

BARE = Check(
    "bare",
    "Straight edge over the abrasive: flat, and bare board beside it where the work slides",
    if_not="tear it off and glue a new, flat piece",
)


def truing_jigs(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Sanding board on its base, then the carrier that brings halves and quarters to it."""
    layout = plan.truing
    through = 3 * layout.sheet + plan.sled.ring_height
    return [
        built(
            plan,
            "truing-board",
            "Glue the sanding board upright into its base.",
            (
                DRY,
                "Glue the board into the base, then its gussets behind it.",
                "Once dry, glue one flat piece of abrasive between its lines, over the mortises.",
                "Wax the base in front of it.",
            ),
            named(rack, "truing-base", "truing-board", "truing-gusset"),
            (calliper("abrasive", "Abrasive with its glue, thick", layout.abrasive),),
            (square("the board"), BARE),
            more=_coarse(plan, named(rack, "truing-board")),
        ),
        built(
            plan,
            "truing-carrier",
            "Glue up the truing carrier and its clamping bar.",
            (
                "Glue the cheeks into the carrier, square to it.",
                "Glue the layers of the bar together.",
                f"Countersink the carrier below, {flush_text(plan)}; bolt the bar on through it. A half goes between.",
            ),
            named(rack, "truing-carrier", "truing-cheek", "truing-bar"),
            (bolts("bar", "Bolt with a wing nut", 1, plan.job.fittings.bolt, through, "wing nut", True),),
            right_if(
                "feet",
                "Slide it to the sanding board: both feet touch the bare board at once",
                if_not="sand the foot that touches first",
            ),
        ),
    ]


def ring_truing(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """The upright at which halves of rings are sanded; none where every ring has an odd count."""
    parts = named(rack, "ring-truing-face", "ring-truing-board")
    if not parts:
        return []
    return [
        built(
            plan,
            "ring-truing",
            "Stand the sanding face upright, with the board that slides along it.",
            (
                "Screw the face to the edge of a straight, heavy board, square to the bench.",
                "Clamp both down on the bench.",
                "Glue one flat piece of abrasive on it above the line; leave it bare below.",
                "Wax the underside of the sliding board.",
            ),
            parts,
            checks=(
                replace(
                    square("the face"),
                    if_not="loosen its screws, put card under its edge, and screw it down again",
                ),
                BARE,
            ),
            more=_coarse(plan, named(rack, "ring-truing-face")),
        )
    ]


def _coarse(plan: Plan, boards: list[Part]) -> tuple[Goods, ...]:
    """Enough to cover each board, though its foot stays bare."""
    area = sum(abs(board.outline.area) for board in boards)
    return (abrasive("80", area, plan.job.unit),)
