"""Segments from a layup's rails: what is left of the rail comes off."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.stages.boards.plan.steps import Step
from jigs.work.minutes import MARKING, SANDED, each
from jigs.work.model import Check, Operation


def split(of: str, steps: Sequence[Step]) -> list[Operation]:
    """One operation for what these steps cut; nothing where there are none."""
    if not steps:
        return []
    pieces = sum(step.pieces for step in steps)
    return [
        Operation(
            f"{of}.split",
            of,
            "bench",
            "Split what is left of the rail off each segment.",
            how=(
                "Clamp the segment down, the paper joint upright.",
                "Split along the paper with a chisel, no hand before its edge.",
                "Sand the paper off; the face is flattened again in its ring.",
            ),
            pieces=pieces,
            comes="segment",
            rings=tuple(sorted({ring for step in steps for ring in step.rings})),
            checks=(
                Check(
                    "clean",
                    "No paper, no splinter on the face",
                    if_not="sand on a flat board until it is clean",
                ),
            ),
            cautions=("chisel",),
            minutes=each(pieces, MARKING + SANDED),
        )
    ]
