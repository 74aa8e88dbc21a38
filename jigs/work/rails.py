"""Segments from a layup's rails: what is left of the rail comes off."""

from __future__ import annotations

from jigs.work.minutes import MARKING, SANDED, each
from jigs.work.model import Check, Operation


def split(of: str, pieces: int, rings: tuple[int, ...]) -> Operation:
    """For all segments that are cut so."""
    return Operation(
        f"{of}.split",
        "bench",
        "Split what is left of the rail off each segment.",
        how=(
            "Clamp the segment down, the paper joint upright.",
            "Split along the paper with a chisel, no hand before its edge.",
            "Sand the paper off; the face is flattened again in its ring.",
        ),
        pieces=pieces,
        comes="segment",
        rings=rings,
        checks=(
            Check(
                "clean", "No paper, no splinter on the face", if_not="sand on a flat board until it is clean"
            ),
        ),
        cautions=("chisel",),
        minutes=each(pieces, MARKING + SANDED),
    )
