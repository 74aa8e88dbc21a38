"""The jigs of one layup: where everything on them stands."""

from __future__ import annotations

from geometry.records import dataclass
from jigs.stages.held.plan import HeldCut
from jigs.stages.layup.layout.holder import SandingHolder
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.tray import LayupTrayLayout
from jigs.stages.layup.layout.trim import TrimSledLayout


@dataclass(frozen=True)
class LayupJigs:
    """`suffix` ends the name of every part: "" for the first layup of a job, then "-2" and so on."""

    suffix: str
    sled: LayupSledLayout
    trim: TrimSledLayout
    tray: LayupTrayLayout
    holders: tuple[SandingHolder, ...]  # none where no piece is glued to another
    held: tuple[HeldCut, ...]  # pieces in each cut on both sleds
