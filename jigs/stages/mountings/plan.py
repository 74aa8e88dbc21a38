"""The sequence of mountings, solved: holding plan, first board, braces, roughing flats."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from geometry.bodies.tube import Tube
from geometry.hardware.fittings import Screws
from geometry.lathe.mountings import Mounting, Setting
from geometry.lathe.roughing import FlatsStep
from geometry.lathe.turning import Channel, Retainer, Runout, rough_speed_limits
from geometry.records import Record
from geometry.statics.lathe_holding import LatheHolding
from jigs.asked.job import TorusJob
from jigs.stages.held.strength import turned_pull

OVER_SIZE = 4.0  # mm on the diameter of a board's layers, turned away
# mm, least room for the tool between the hole and the centre bolt's cap: common practice, no source.
BESIDE_CAP = 12.0


class FirstBoard(Record):
    """The board that the blank is glued to in mounting A."""

    centre_height: float  # of the tube's centre over its face, A - q
    face_height: float  # of its face over its back
    spigot_height: float
    spigot_radius: float
    scribed: float  # radius of the circle that the blank's outer corners meet
    turned_back: float  # radius to which the waste below the tube is turned straight back to the board
    saw_short: float  # of the waste flat, where turning it away in mounting B stops

    @property
    def left(self) -> float:
        """Radius to which mounting B turns it down. Of few rings the flats' corners are turned back with the waste."""
        return min(self.scribed, self.turned_back) + self.saw_short

    def face_at(self, tube: Tube) -> float:
        """Height of the turned face over the board's face, at a stage of this tube."""
        return self.centre_height + tube.high


class BracePlan(Record):
    """One brace: a strap whose finger lies on the waste flat and whose heel on a block; radii from the axis."""

    height: float  # of the waste flat over the channel board
    bolt: str
    hole: float
    bolt_radius: float
    tip: float  # radius of the finger's end: the tube's centre
    outer: float  # radius of the heel's end
    block_inner: float
    width: float
    thickness: float
    bearing: float  # of the finger on the waste flat
    layers: int  # of board in a block
    pad: float  # printed; with the block a little lower than the waste flat, so that strap and finger bear
    through: float  # what its bolt goes through, its head let into the board's back

    @property
    def stack(self) -> float:
        """Height of block and pad."""
        return self.layers * self.thickness + self.pad

    @property
    def finger_share(self) -> float:
        """Of the bolt's pull that the finger presses with: the strap bears on the flat's edge and on its heel's end."""
        return (self.outer - self.bolt_radius) / (self.outer - self.tip - self.bearing)


class Drawn(Record):
    """With how much a mounting's bolts are drawn: at least, to hold against the tool; at most, for the wood's sake."""

    mounting: str
    bolt: str
    pull: float  # N, of each
    torque: float  # N m, at its nut
    most_pull: float
    most_torque: float

    @property
    def safe(self) -> bool:
        """Whether a torque that surely holds is one that surely spares the wood, as a wrench can be set to it."""
        return turned_pull(self.pull) <= self.most_pull


class MountingsPlan(Record):
    """Mountings in the order of the work, and the things that they need."""

    setting: Setting
    mountings: tuple[Mounting, ...]
    sanded: float  # off the flat, for the glue
    waste_flat: float  # its width then
    first: FirstBoard
    brace: BracePlan
    centre_bolt: float  # least length under its head, for either mounting
    cap: float  # most across, of the wood on that bolt's end
    cap_thick: float
    flats: tuple[FlatsStep, ...]
    board_screws: Screws  # of the first board
    channel_screws: Screws
    retainer_screws: Screws
    runout: Runout = Runout()
    held: tuple[LatheHolding, ...] = ()  # of each mounting, in the same order; worked out when all else does
    drawn: tuple[Drawn, ...] = ()  # of those that bolts hold
    weighs: float = 0.0  # N, of the blank at most
    lifted: float = 0.0  # N, with its first board

    def named(self, name: str) -> Mounting:
        return next(m for m in self.mountings if m.name == name)

    def bolts(self, name: str) -> Drawn:
        """Raises StopIteration for a mounting that no bolt holds."""
        return next(drawn for drawn in self.drawn if drawn.mounting == name)


class HoldingPlan(Record):
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
        return rough_speed_limits(self.retainer_blank)


def most_sanded(job: TorusJob, blank: Blank) -> float:
    """Off the flat by which a torus is first glued on: down to the sanding allowance over the finished tube."""
    return max(0.0, blank.apothem - job.form.tube.high - job.gauges.sanding_allowance)
