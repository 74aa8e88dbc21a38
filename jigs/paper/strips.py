"""What lies on a ring's tape: its segments in their order, as wide as they are cut, and what stands between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from geometry.records import Record, replace
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.stack.plan import Layer

SAME = 0.005  # mm: rings whose sizes differ by less share a sheet
STRAIGHT = 1e-6  # tangent below which an edge is no taper
OWN_STRIPS = "the segment before it"  # whose wood a strip has
LAYUP, TURNED, OTHER = "layup", "layup, top down", "layup, other hand"


class Strip(Record):
    """Rings alike. `lower` and `upper` are the outer widths of a piece at its lower and its upper end, as cut.

    `between` is what stands between two pieces, as it shows on the outside. `glued` is the length all round once
    `sanding` is off each end. `up` says what the arrow points to.
    """

    rings: tuple[int, ...]
    pieces: tuple[str, ...]  # the wood of each, in order
    lower: float
    upper: float
    height: float
    between: float
    strip: str  # wood of what stands between, "" for nothing
    sanding: float
    glued: float
    name: str  # of a piece
    up: str

    @property
    def edge(self) -> float:
        """The wider end."""
        return max(self.lower, self.upper)

    @property
    def pitch(self) -> float:
        """From piece to piece, along the wider end."""
        return self.edge + self.between

    @property
    def length(self) -> float:
        """All round, along the wider end, as cut."""
        return len(self.pieces) * self.pitch

    @property
    def slope(self) -> float:
        """Tangent of an edge's angle to the middle line, + where pieces widen upward; 0 for hardly any."""
        slope = (self.upper - self.lower) / 2 / self.height
        return slope if abs(slope) > STRAIGHT else 0.0


def strips_of(plan: Plan) -> list[Strip]:
    """In the order of each one's first ring; none of discs, nor of open rings."""
    return list(_alike(by_form(plan, torus=_of_torus, vessel=_of_vessel)))


def _alike(strips: Iterable[Strip]) -> Iterator[Strip]:
    """Rings of one size and one order of woods together."""
    found: dict[tuple[object, ...], Strip] = {}
    for strip in strips:
        sizes = (round(mm / SAME) for mm in (strip.lower, strip.upper, strip.height, strip.between))
        key = (*sizes, strip.pieces, strip.name)
        known = found.get(key)
        found[key] = replace(known, rings=(*known.rings, *strip.rings)) if known else strip
    yield from found.values()


def _of_torus(plan: TorusPlan) -> Iterator[Strip]:
    """Segments. Numbers run clockwise seen from face 2."""
    cut, blank, form = plan.segment, plan.blank, plan.job.form
    for number, species in zip(plan.left, plan.species, strict=False):
        yield Strip(
            rings=(number,),
            pieces=pieces(number, species, plan.layups),
            lower=cut.outer_edge,
            upper=cut.outer_edge,
            height=plan.ring_cut.ring_thickness,
            between=blank.spacer,
            strip=(form.spacer_species or OWN_STRIPS) if blank.spacer else "",
            sanding=form.joint_sanding,
            glued=plan.wood.glue.band(1).around,
            name="segment",
            up="to the side of face 1",
        )


def _of_vessel(plan: VesselPlan) -> Iterator[Strip]:
    for layer in plan.stack.to_make:
        if layer.kind == "staves":
            yield from _of_staves(plan, layer)
        elif layer.cut is not None and layer.kind != "open":  # those are glued one by one, in no band
            yield _of_ring(plan, layer, layer.cut.outer_edge)


def _of_ring(plan: VesselPlan, layer: Layer, edge: float) -> Strip:
    """A strip's outer end lies level with the corners beside it, as far apart as it is thick."""
    ring, wish = layer.ring, plan.job.rings
    wood = wish.spacer_species or OWN_STRIPS
    return Strip(
        rings=(layer.number,),
        pieces=pieces(layer.number, layer.species, plan.layups),
        lower=edge,
        upper=edge,
        height=ring.height,
        between=ring.spacer,
        strip=wood if ring.spacer else "",
        sanding=wish.joint_sanding,
        glued=ring.segments * (ring.outer_edge + ring.spacer),
        name="segment",
        up="up",
    )


def _of_staves(plan: VesselPlan, layer: Layer) -> Iterator[Strip]:
    """Their joints are planned as they leave the saw."""
    band = plan.stack.staves_cut
    if band is not None:
        lower, upper = band.board_widths
        yield Strip(
            rings=(layer.number,),
            pieces=layer.species,
            lower=lower,
            upper=upper,
            height=band.stock_length,
            between=0.0,
            strip="",
            sanding=0.0,
            glued=band.count * max(lower, upper),
            name="stave",
            up="up",
        )


def pieces(number: int, species: tuple[str, ...], layups: Sequence[LayupPlan]) -> tuple[str, ...]:
    """Their woods; segments of a layup, and which of them are the mirror image, as on a chessboard."""
    layup = next((one for one in layups if number in one.rings), None)
    if layup is None:
        return species
    mirror = OTHER if layup.seams.other_hand else TURNED
    row = (number - 1) % 2 if layup.seams.alternate_rings else 0
    every = layup.seams.alternate_segments
    return tuple(mirror if (row + k * every) % 2 else LAYUP for k in range(len(species)))
