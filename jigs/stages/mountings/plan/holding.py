"""The turned fixtures."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.lathe.turning import Channel, Retainer


@dataclass(frozen=True)
class HoldingPlan:
    """The turned fixtures: boards to glue, bolts and holes."""

    channel: Channel
    retainer: Retainer
    bolt: str
    bolt_hole: float
    bolt_length: float  # least, under the head
    washer: float
    board_diameter: float
    board_thickness: float
    board_layers: int
    layer_thickness: float
    retainer_layers: int
    retainer_blank: float  # diameter of its layers
    braces: int
    brace_bolt: str
    brace_hole: float
    brace_circle: float  # diameter of the bolt circle
    normal_force: float  # for each unit of pull, at the band's foot
    spread: float
    sticks: bool
