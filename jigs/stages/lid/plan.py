"""How a lid lies on its pot. Lengths mm."""

from __future__ import annotations

from typing import Literal

from geometry.bodies.lid_fit import LidFit
from geometry.bodies.section import Section
from geometry.records import Record

Rests = Literal["rim", "ledge"]
LEAST_BEARS = 1.5  # on which a lid lies, pushed quite to one side. Common practice, no source


class LidPlan(Record, eq=False):
    """The lid as it lies on its pot, which stands upright under it."""

    fit: LidFit
    pot: str  # its title
    pot_section: Section
    pot_mouth: float  # diameter at the rim, by which the pot is measured
    step: float  # height over the lid's foot, which is its top, at which the flange begins
    seat: float  # length of the flange
    rests: Rests
    bears: float  # on so much, radially, at the worst; less than nothing where it falls in
    overhangs: bool  # its rim is wider than the mouth
    over: float  # of the lid's underside over the pot's rim; less than nothing where it lies under it
    over_floor: float  # left between the flange's end and the pot's floor, or its ledge
    least_rim: float  # diameter that the lid's rim has to have to lie on the pot's
    solid_taken: bool  # whether the fit takes its flange for solid wood
    solid_found: bool  # whether its rings have solid wood there

    @property
    def lies(self) -> float:
        """Height over the pot's foot at which the flange begins."""
        return self.pot_section.height + self.over

    @property
    def flange(self) -> float:
        """Diameter."""
        return 2 * self.fit.flange
