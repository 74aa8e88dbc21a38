"""The rings that the vessel is turned from, and the joints between them."""

from __future__ import annotations

from typing import Literal

from geometry.blanks.ring_stack import Ring
from geometry.blanks.staves import StaveBand
from geometry.bodies.floating_base import FloatingBase
from geometry.bodies.torus import SegmentCut
from geometry.plane.contour import Contour, polygon
from geometry.records import Record, replace
from jigs.asked.job_wood import LayupWish
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import taken_heavy
from jigs.stages.held.strength import allowed_across, allowed_along

Kind = Literal["disc", "segments", "open", "staves"]


class Layer(Record):
    """One ring, from the foot up. `cut` is None for a disc and for staves; a disc's `ring.segments` is 0."""

    ring: Ring
    kind: Kind
    species: tuple[str, ...]  # of each segment, in order round the ring
    turned: float  # angle of the middle of its first segment, radians, as it stands on the lathe
    cut: SegmentCut | None
    wood: float  # volume as glued
    plug: float = 0.0  # diameter of the plug in its middle; 0 for none
    upright: bool = False  # a disc whose grain runs along the axis

    @property
    def filled(self) -> Ring:
        """The ring with its plug glued in."""
        return replace(self.ring, core=0.0) if self.plug else self.ring

    @property
    def number(self) -> int:
        return self.ring.number

    @property
    def weighs(self) -> float:
        """N as glued, at most."""
        return taken_heavy((name, self.wood / len(self.species)) for name in self.species)

    def plied(self, layup: LayupWish | None) -> bool:
        """Whether its segments come from this layup."""
        return layup is not None and self.cut is not None and layup.covers(self.number)

    def stands(self, job: VesselJob) -> float:
        """N/mm² that it may be loaded with across its grain: its weakest wood, with a safety."""
        return allowed_across(self._woods(job))

    def stands_along(self, job: VesselJob) -> float:
        """N/mm² that it may be bent with along its grain."""
        return allowed_along(self._woods(job))

    def _woods(self, job: VesselJob) -> list[str]:
        plies = [ply.name for ply in job.layup.plies] if job.layup and self.plied(job.layup) else []
        strips = self.kind == "segments" and self.ring.spacer > 0.0
        strip = job.rings.spacer_species if strips else None
        # With a layup its core plug, and strips that none is named for, are of the ring's own.
        own = self.species if not plies or self.plug or (strips and strip is None) else ()
        return [*plies, *own, *([strip] if strip else [])]


class FloatingDisc(Record):
    """A solid base that lies loose in a groove of ring 1, under ring 2."""

    base: FloatingBase
    species: str
    upright: bool  # its grain along the axis


class Slim(Record):
    """What a push at the rim (SIDE, `held.strength`), weight and heavy sides do at a height. mm, N/mm2."""

    ring: int
    height: float
    diameter: float
    stress: float
    allowed: float
    least: float  # diameter that stands it
    joint: int | None = None  # the other ring, where it is their joint that is loaded
    wall: float | None = None  # thickness, where it is that of rings or staves round the hollow


class Joint(Record):
    """Between two layers: sizes in mm. An outer diameter of nothing is a joint in the floor."""

    height: float
    lower: int  # their numbers
    upper: int
    outer: float  # finished radii of the wall there
    inner: float
    finished: float  # least width of glue face, finished
    rough: float
    glue_area: float  # finished
    turn: float  # of the upper ring on the lower, counter-clockwise from above, over -π and up to π
    over: int  # segment of the lower ring that the middle of the upper one's segment 1 stands over; 0 over a disc
    past: float  # how far past the middle of its outer flat, along it, to the right as one looks at it
    under: int  # glued upside down: the upper ring's segment that the lower one's segment 1 stands over then
    under_past: float  # and how far past its middle, to the right as one looks at it then


class HeightsChoice(Record):
    """Ring heights chosen from the boards at hand, and what the other choice would have been."""

    chosen: str
    rings: int
    wood: float  # mm3
    other: str
    other_rings: int
    other_wood: float
    within: float  # mm; ring tops nearer to one another were taken for one in the search; 0 where none were


class StackPlan(Record):
    """The whole stack: it stands from `bottom` (under the foot by the allowance) to `top`."""

    layers: tuple[Layer, ...]
    joints: tuple[Joint, ...]
    staves: StaveBand | None
    staves_cut: StaveBand | None  # as they are cut and glued: higher by what is flattened off both ends
    choice: HeightsChoice | None
    allowance: float
    bottom: float
    top: float
    largest_radius: float  # farthest wood from the axis
    wood: float  # volume as glued, mm3
    weight: float  # finished, grams, of the species known
    weights: tuple[tuple[str, float, float], ...]  # species, finished mm3, grams (nan where not known)
    centre_height: float  # of gravity, from the foot
    tips_at: float  # angle at which it falls over, radians
    capacity: float  # mm3 to the brim, or to the lowest gaps between segments
    slimmest: Slim | None  # the place that is loaded most for what it stands
    waste_across: tuple[float, float]  # of the waste block: what its glue needs, and the lowest ring
    stemmed: bool  # a narrow solid place between foot and cup
    open_from: float | None  # height of the lowest gaps; None where all rings are closed
    floating: FloatingDisc | None = None
    glued: int = 0  # rings from the foot up that stand already, as they were measured
    stated: int = 0  # of these, so many by the readings' own word: their wood is cut
    raised: float = 0.0  # the vessel in its stack, over where it was planned

    @property
    def weighs(self) -> float:
        """N as glued, at most."""
        return sum(layer.weighs for layer in self.layers)

    @property
    def weighs_left(self) -> float:
        """N turned, at most."""
        return taken_heavy((name, volume) for name, volume, _ in self.weights)

    @property
    def to_make(self) -> tuple[Layer, ...]:
        """Those that are not glued in the stack already, by the readings' own word."""
        return self.layers[self.stated :]

    @property
    def upside_down(self) -> bool:
        """Whether it is a part of a vessel that is built with its foot away from the block."""
        return self.layers[0].number > 1

    def as_cut(self, planned: StackPlan) -> StackPlan:
        """With the sizes that rings were cut to: glued ones before they stood, one that is flattened to less as high
        as its board. Rings that are stated to be glued have those that they were measured to have."""
        above = [_from_its_board(layer, planned) for layer in self.layers[self.glued :]]
        own = self.layers[: self.stated]
        return replace(self, layers=(*own, *planned.layers[self.stated : self.glued], *above))

    def ring_at(self, layer: Layer, height: float) -> Ring:
        """One of its layers' polygon at a height: staves lean."""
        return ring_at(layer, height, self.staves)

    def cut_through(self, layer: Layer) -> Contour:
        """One of its layers, right of the axis: x is the apothem, y the height; staves lean."""
        low, high = layer.ring.bottom, layer.ring.top
        foot, top = (self.ring_at(layer, z) for z in (low, high))
        return polygon([(foot.core, low), (foot.outer, low), (top.outer, high), (top.core, high)])

    @property
    def finished_wood(self) -> float:
        """mm3 of the finished vessel, without its gaps."""
        return sum(volume for _, volume, _ in self.weights)


def ring_at(layer: Layer, height: float, staves: StaveBand | None) -> Ring:
    """A layer's polygon at a height: staves lean."""
    if layer.kind != "staves" or staves is None:
        return layer.filled
    return replace(layer.ring, outer=staves.outer_at(height), core=staves.inner_at(height))


def _from_its_board(layer: Layer, planned: StackPlan) -> Layer:
    before = next((one for one in planned.layers if one.number == layer.number), layer)
    over = before.ring.height - layer.ring.height
    if over <= 0 or before.kind != layer.kind:
        return layer
    ring = replace(layer.ring, bottom=layer.ring.bottom - over, height=before.ring.height)
    cut = layer.cut and before.cut and replace(layer.cut, length=before.cut.length)
    return replace(layer, ring=ring, cut=cut)
