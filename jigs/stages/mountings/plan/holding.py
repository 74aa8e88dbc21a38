"""The turned fixtures."""

from __future__ import annotations

from geometry.lathe.turning import Channel, Retainer, rim_speed_limits
from geometry.records import dataclass

OVER_SIZE = 4.0  # mm on the diameter of a board's layers, turned away


@dataclass(frozen=True)
class HoldingPlan:
    """The turned fixtures: boards to glue, bolts and holes."""

    channel: Channel
    retainer: Retainer
    bolt: str
    bolt_hole: float
    washer: float
    board_diameter: float
    board_disc: float  # diameter that it is turned from
    board_thickness: float
    board_layers: int
    layer_thickness: float
    retainer_layers: int
    retainer_blank: float  # diameter of its layers
    retainer_faceplate: float  # diameter at most: the rim is turned over it, and the work passes it
    braces: int
    brace_bolt: str
    brace_hole: float
    brace_circle: float  # diameter of the bolt circle
    normal_force: float  # for each unit of pull, at the band's foot
    spread: float
    sticks: bool

    @property
    def retainer_speed(self) -> tuple[int, int]:
        """rpm, of the disc that the retainer is turned from."""
        return rim_speed_limits(self.retainer_blank)
