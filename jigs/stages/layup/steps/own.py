"""What belongs to one layup of a job: its jigs, its steps, its stages of gluing."""

from __future__ import annotations

import re

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.glue_up.operation import stages_of
from jigs.stages.glue_up.plan import GlueStage
from jigs.stages.layup.plan import LayupPlan
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import pieces, slug
from jigs.work.model import Goods, Rack

SLED = tuple(
    f"layup-{name}"
    for name in ("base", "fence", "hold", "finger", "slab-hold", "slab-finger", "slab-foot", "cam", "lever",
                 "exit-block", "runner", "handle")
)  # fmt: skip
TRIM = (
    *(f"layup-trim-{name}" for name in ("base", "fence", "hold", "finger", "cam", "lever", "exit-block", "runner",
                                        "handle")),
    "layup-slanted-stop", "layup-square-stop-a", "layup-square-stop-b",
)  # fmt: skip
TRAY = ("layup-tray", "layup-tray-fence-a", "layup-tray-fence-b")
SANDING = tuple(
    f"layup-{name}-{side}"
    for side in "ab"
    for name in ("sanding-pocket", "sanding-back", "sanding-bar", "left-gauge")
)


class Own:
    """The parts of one layup of a job: their names end alike, before the letter of a piece of a split part."""

    def __init__(self, rack: Rack, suffix: str) -> None:
        self._rack, self.suffix = rack, suffix

    def parts(self, *heads: str) -> list[Part]:
        """Those that have something to tell."""
        names = re.compile(f"({'|'.join(map(re.escape, heads))}){re.escape(self.suffix)}(-[a-z])?")
        return [part for part in self._rack.of("layup") if names.fullmatch(part.name) and part.notes]


def stages_for(plan: Plan, layup: LayupPlan, *what: str) -> list[GlueStage]:
    found = stages_of(plan, "sheets", "stacks", "blocks", "rails")
    return [stage for stage in found if stage.rings == layup.rings and stage.what in what]


def plies(plan: Plan, layup: LayupPlan) -> tuple[Goods, ...]:
    """Of the sheets that are made."""
    wish = plan.job.layup
    if wish is None:
        return ()
    area = wish.sheet_width * wish.sheet_length
    return tuple(
        Goods(
            f"ply.{slug(name)}.{thick:.2f}",
            "plies",
            f"{name} ply",
            (
                pieces(count),
                calliper("thickness", "Thick", thick),
                ruled("width", "Wide", wish.sheet_width),
                ruled("length", "Long", wish.sheet_length),
                Quantity("area", "In all", count * area, "spread"),
                Quantity("volume", "In all", count * area * thick, "timber"),
            ),
        )
        for name, thick, count in layup.plies_wanted
    )
