"""The jigs of one layup: where everything on them stands."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.layup_sled import LayupSledLayout
from geometry.layup_tray import LayupTrayLayout
from geometry.sanding_holder import SandingHolder
from geometry.trim_sled import TrimSledLayout
from jigs.plan.held import HeldCut


@dataclass(frozen=True)
class LayupJigs:
    """`suffix` ends the name of every part: "" for the first layup of a job, then "-2" and so on."""

    suffix: str
    sled: LayupSledLayout
    trim: TrimSledLayout
    tray: LayupTrayLayout
    holders: tuple[SandingHolder, ...]  # none where no piece is glued to another
    held: tuple[HeldCut, ...]  # pieces in each cut on both sleds
