"""Which pieces are held in which cuts, and how long a cut takes."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from jigs.stages.held.plan import HeldCut
from jigs.stages.held.statics.sleds import HeldPiece

# Seconds for each segment, counted at the bench by what the hands do; an estimate, no source.
BUTT = 4.0  # strip moved on or turned over, and butted
LEVER = 2.0  # one cam down or up
LEVERS = 4  # two cams, down and up
STOP = 6.0  # pin in and out, arm in and out
SWITCH = 15.0  # blade up to speed, and until it stands still
LIFT = 4.0  # the segment into the bin
FEED = 20.0  # mm/s, there and back
RUN = 100.0  # mm of feed beyond the strip's width


def held_cuts(pieces: Iterable[HeldPiece]) -> tuple[HeldCut, ...]:
    """Each piece by the statics of its cut."""
    return tuple(_held(piece) for piece in pieces)


@lru_cache(maxsize=2048)
def _held(piece: HeldPiece) -> HeldCut:
    found = piece.caged()
    away = "" if found.held or found.motion is None else found.motion.kind
    return HeldCut(piece.what, found.held, away, piece.grip if found.held else 0.0)


def segment_seconds(width: float) -> float:
    """For one segment from a strip of this width along the cut: what the hands do, and the feed there and back."""
    return BUTT + LEVERS * LEVER + STOP + SWITCH + LIFT + 2 * (width + RUN) / FEED
