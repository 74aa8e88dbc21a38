"""One size of pieces cut from a layup: how many, how glued up, what for."""

from __future__ import annotations

from collections import Counter
from math import ceil, radians
from typing import TYPE_CHECKING, Literal

from geometry.blanks.layup import Layup, Side
from geometry.blanks.planes import Mirrored, Plane
from geometry.records import Record
from jigs.asked.job_wood import LayupWish
from jigs.stages.held.plan import HeldCut
from jigs.stages.layup.layout.rail import BlockRail

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.layout.sled import LayupSledLayout
    from jigs.stages.layup.layout.tray import LayupTrayLayout, SandingHolder
    from jigs.stages.layup.layout.trim import TrimSledLayout

StackKind = Literal["square", "staggered", "one by one"]
TRAYS = 6  # that blocks are glued up in: common practice, no source

Against = Literal["more wood", "more stacks", "short strips", "set back"]
Change = Literal["angle", "ply thickness", "angle and plies", "segment"]


class StackWay(Record):
    """One way of gluing strips to stacks and cutting the pieces from them.

    The sled saws a stack at `cut_angle` to its plies, along side `cut` of the pieces, and the strip moves on by
    `pitch` for the next; the slabs are then cut off square.
    """

    kind: StackKind
    stacks: int
    pieces: int  # cut from each stack; the strip moves on by the pitch for the next
    strips: int  # glued face to face in each stack
    strip_length: float
    stagger: float  # each strip is set back by so much on the one below it; 0 where ends are square
    sheets: int  # to be made, beside those at hand
    wood: float  # of the strips as planed, mm3
    made: float  # of that, from sheets that have to be made
    waste: float  # of that, what no piece takes, kerfs among it
    cuts: int
    cut: Side
    cut_angle: float
    slab: float  # thickness of a slab: side b where it is cut along a, else a
    slab_length: float  # to which it is cut off square
    pitch: float  # along the plies
    foot: float  # from the lowest strip's end to the corner on which the first piece stands
    from_hand: int  # strips from sheets at hand
    last: int  # strips from the last sheet that is made; 0 where none is
    against: Against | None  # why it is not the chosen one
    tail: float  # scrap of the same section behind each stack, for the hold-down in the last cut

    @property
    def strips_in_all(self) -> int:
        return self.stacks * self.strips


class Closing(Record):
    """A change at which the pattern closes with whole repeats, `i` along a and `j` along b, no ply cut in two.

    `i` or `j` is 0 where the plies run along that side, or it is not seen. Angle, plies or sizes not named in
    `what` stay, but for `up`: on a torus the pattern ends whole at one radius only, and this says at which.
    """

    what: Change
    i: int
    j: int
    angle: float
    repeat: float  # square to the plies: the sheet's thickness
    across: float  # of a, as it shows on the finished form
    up: float
    radius: float | None = None  # on a torus, from its axis: where seams of rings end it whole


class LayupVolumes(Record):
    """Where the wood of the sheets used goes, mm3: all but `stock` sum to it."""

    stock: float
    pieces: float  # of the finished work, as cut
    spares: float
    more: float  # pieces that the last stacks give beyond these
    stacks: float  # kerfs and cut-offs of the stacks
    kerf: float  # of ripping and cutting strips to length
    planed: float  # off the strips' edges
    trimmed: float  # off the sheets' edges and ends
    offcuts: float  # of sheets

    @property
    def left(self) -> float:
        """What does not close: nothing, to rounding."""
        work = self.pieces + self.spares + self.more
        return self.stock - work - self.stacks - self.kerf - self.planed - self.trimmed - self.offcuts


class Seams(Record):
    """What the joints ask for so that plies meet at them."""

    alternate_segments: bool  # every other one round a ring is the mirror image, left for right
    alternate_rings: bool  # every other ring, up for down
    broken: int  # mitres at which plies cannot meet, one for each odd ring that alternates
    other_hand: int  # segments made as mirror images; 0 where turning a whole one about does it


class LayupPlan(Record):
    """The pieces of all rings whose segments are of one size."""

    rings: tuple[int, ...]  # numbers from 1
    layup: Layup  # a piece as cut
    names: tuple[str, ...]  # of the plies
    colours: tuple[str | None, ...]
    plane: Plane
    mirrored: Mirrored
    turned: bool
    sanding: float  # off each glued face
    across: float  # side a with its glued face sanded: along the flat, or the depth for the plane "end"
    up: float  # side b so: along the tube or the height, or the depth for the plane "face"
    segments: int
    spare_segments: int
    per_segment: int  # pieces: 1, 2 or 4
    pieces: int  # of the finished work
    spares: int
    ways: tuple[StackWay, ...]  # all that were worked out, the chosen one first
    closings: tuple[Closing, ...]  # the nearest of each kind first
    seams: Seams
    seam_loss: float  # of the ply at the seams' crossing, square to it, by sanding
    shown_across: float  # of side a, what shows between seams of the finished form
    shown_farthest: float  # the same, where seams round an elliptical tube are farthest apart
    shown_up: float  # of side b; on a torus at the major radius
    shown_up_range: tuple[float, float]  # on a torus from the hole to the rim
    strip_width: float  # as ripped
    batch: int  # joints of a stack that close within the glue's open time
    rail: BlockRail  # what holds the blocks while they are mitred
    saw_height: float  # that it has to give
    volumes: LayupVolumes

    @property
    def way(self) -> StackWay:
        """The chosen one."""
        return self.ways[0]

    @property
    def plies_wanted(self) -> tuple[tuple[str, float, int], ...]:
        """Of the sheets that are made: each ply's name, its thickness, and how many."""
        alike = Counter(zip(self.names, self.layup.plies, strict=True))
        return tuple((name, thick, each * self.way.sheets) for (name, thick), each in alike.items())

    @property
    def repeats_across(self) -> float:
        """Of the pattern, along what shows of side a."""
        return self.shown_across / self.layup.period_a

    @property
    def repeats_up(self) -> float:
        """Along what shows of side b; on a torus at the major radius."""
        return self.shown_up / self.layup.period_b

    @property
    def turned_over(self) -> int:
        """Of the pieces of a segment, those that are glued in turned over."""
        return self.per_segment // 2

    @property
    def stack_goes(self) -> int:
        """Glue-ups of each stack, so that each closes within the open time."""
        return ceil((self.way.strips - 1) / self.batch)

    @property
    def trays(self) -> int:
        """Blocks that can be in clamps at a time; one tray only shows the plies of a segment of one piece."""
        return min(TRAYS, self.blocks) if self.per_segment > 1 else 1

    @property
    def blocks(self) -> int:
        """That segments are sawn from, those of spare ones among them."""
        return self.segments + self.spare_segments


def columns_and_rows(plan: LayupPlan) -> tuple[int, int]:
    """Pieces along a and along b: the depth is never mirrored."""
    left_right = plan.mirrored in ("left and right", "both") and plan.plane != "end"
    up_down = plan.mirrored in ("up and down", "both") and plan.plane != "face"
    return 1 + left_right, 1 + up_down


class LayupJigs(Record):
    """`suffix` ends the name of every part: "" for the first layup of a job, then "-2" and so on."""

    suffix: str
    sled: LayupSledLayout
    trim: TrimSledLayout
    tray: LayupTrayLayout
    holders: tuple[SandingHolder, ...]  # none where no piece is glued to another
    held: tuple[HeldCut, ...]  # pieces in each cut on both sleds


LEAST_ANGLE = radians(
    15
)  # of the plies to the blade; below it cut and fence get too long to hold. Common practice


def makes_sense(wish: LayupWish) -> bool:
    """Whether a segment can be mirrored so: not about the direction in which the pattern runs through it."""
    if wish.plane == "end":
        return wish.mirrored in ("none", "up and down")
    return wish.plane == "flat" or wish.mirrored in ("none", "left and right")
