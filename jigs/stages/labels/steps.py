"""Labels stuck on the rings before their faces are cut: the operation."""

from __future__ import annotations

from jigs.plans.torus import TorusPlan
from jigs.words.file_names import LABELS, of_job
from jigs.words.quantity import Quantity
from jigs.work.minutes import MARKING, each
from jigs.work.model import Operation, Rack, Stage, at_bench, right_if

ID = "labels"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Every ring's own, and the spare rings marked with their woods."""
    count = len(plan.left)
    ends = plan.half_ends if plan.job.form.half_sanding > 0 else {}
    return [
        at_bench(
            f"{ID}.stick",
            "Cut out the labels and put one on each ring.",
            how=(
                f"Print them ({of_job(plan.job.name, LABELS)}) at 100 %.",
                "Stand the ring up, segment 1 straight down.",
                *_where(plan),
                "Pencil the ring's number on its hole side too.",
                "Face 1 is then on your left, face 2 on your right: pencil 1 and 2 on them.",
                *(("Write END on the faces that are the ends of the halves.",) if ends else ()),
                *(("Write SPARE and their woods on the spare rings.",) if plan.spare_rings else ()),
            ),
            makes=(count, "ring"),
            rings=plan.left,
            settings=(
                Quantity("labels", "Labels", count, "count"),
                *(
                    Quantity(f"end-{ring}", f"END on ring {ring}", f"face {face}", "text")
                    for ring, face in sorted(ends.items())
                ),
            ),
            checks=right_if(
                "order",
                "Set the rings up in a row by their numbers: face 2 of each looks at face 1 of the next",
                if_not="peel the label off and turn the ring before you stick it on again",
            ),
            minutes=each(count, MARKING, 5),
        )
    ]


def _where(plan: TorusPlan) -> tuple[str, ...]:
    """Where no label touches fence, base or stop, whichever face is cut."""
    free = plan.blank.free_flat
    if free is None:
        return (
            "Tie the label on by a thread through the core, its thick edge outward; take it off for every cut.",
        )
    return (
        f"Stick the label on segment {free}, arrow up: there it touches neither base, fence nor stop.",
        "Tie it on where it says so, by a thread through the core, thick edge outward; take it off for every cut.",
    )


STAGE: Stage[TorusPlan] = Stage(ID, "Label the rings", operations)
