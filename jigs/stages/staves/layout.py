"""The sled that cuts both edges of a stave: blade tilted, the piece turned by the gauge angle, by two stops.

x = 0 is where the blade's kept side meets the base's top, the piece lies at x < 0 and the blade leans over to +x, away
from it; y runs away from the operator, the fence's face is y = 0. The outer face is up. A stop of one sheet lies
before the fence and holds the piece in a corner: its toe under the end, its side along the edge. The first stop
takes a board as it was ripped, its wide end on the toe; the second the piece turned end for end, its narrow end on
the toe, its first edge, which leans out over the stop, on the stop's upper edge. For a blade that tilts to the left
all is mirrored as it is drawn. Distances without a formula are common practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, sin, tan

from geometry.hardware.hold_down import LEAST_ROOM, foot
from geometry.hardware.sled_sizes import BLADE_PAST_RING, HANDLE_LENGTH, LEFT, TAB
from geometry.hardware.stop_sled import BORDER, EXIT_SIDE, STOP_TAIL, StopSled

Point = tuple[float, float]

LEAST_TOE = 3.0  # of a toe under the end of a piece
LONGEST = 300.0  # of a stave: the hold-down's finger reaches over it
TOE = 14.0  # from the fence to the piece's nearest corner
ALONG = 0.8  # of the piece's length, beside which a stop reaches and up to which the hold-down bears
PAST_END = 6.0  # of the finger's pad inside the end of the wood
LEAST_PAD = 8.0  # of that pad: room for its two pins


class StaveSledLayout(StopSled):
    """Where everything stands on the sled; `height` is the thickness of the staves."""

    tilt: float
    taper: float  # gauge angle, not negative
    wide: float  # of the outer face, at the board's end where it is wide
    board: Point  # width and length, ends square
    slot_on_kept_side: bool

    @property
    def narrow(self) -> float:
        """Of the outer face, at the board's other end."""
        return self.wide - 2 * self.board[1] * tan(self.taper)

    @property
    def lean(self) -> float:
        """How far the blade leans out at the piece's top."""
        return self.height * tan(self.tilt)

    @property
    def slant(self) -> float:
        """Width of the cut, level."""
        return self.kerf / cos(self.tilt)

    def piece(self, cut: int) -> tuple[Point, Point, Point, Point]:
        """Corners of the top face that is kept in the first or second cut: from the one at the toe and the stop's side
        on, anticlockwise."""
        half, long = self.board[0] / 2, self.board[1]
        wide, narrow = self.wide / 2, self.narrow / 2
        if cut == 1:
            own = ((-half, 0.0), (wide, 0.0), (narrow, long), (-half, long))
            turn = -self.taper
        else:
            own = ((-narrow, 0.0), (narrow, 0.0), (wide, long), (-wide, long))
            turn = self.taper
        c, s = cos(turn), sin(turn)
        turned = [(x * c - y * s, x * s + y * c) for x, y in own]
        dx, dy = self.lean - turned[1][0], TOE - min(y for _, y in turned)
        a, b, d, e = ((x + dx, y + dy) for x, y in turned)
        return (a, b, d, e)

    def stop_corner(self, cut: int) -> tuple[Point, Point, Point]:
        """Of a stop: the toe's end, the corner that the piece lies in, the end of its side.

        The second stop's side meets the edge that leans over it at the height of its sheet.
        """
        a, b, _, e = self.piece(cut)
        inward = self.under if cut == 2 else 0.0
        side, end = _unit(a, e), _unit(a, b)
        # square to the side, into the piece
        square = (side[1], -side[0])
        step = inward / (end[0] * square[0] + end[1] * square[1])
        corner = (a[0] + end[0] * step, a[1] + end[1] * step)
        reach = ALONG * self.board[1]
        toe = corner[0] + end[0] * 1.0, corner[1] + end[1] * 1.0
        share = (-self.clear_of_blade - corner[0]) / (toe[0] - corner[0])
        toe_end = (-self.clear_of_blade, corner[1] + (toe[1] - corner[1]) * share)
        return toe_end, corner, (corner[0] + side[0] * reach, corner[1] + side[1] * reach)

    @property
    def under(self) -> float:
        """How far the first edge has come in at the height of a stop."""
        return max(0.0, self.height - self.sheet) * tan(self.tilt)

    @property
    def saw_height(self) -> float:
        """Along the tilted blade, from the table."""
        return (self.height + self.sheet) / cos(self.tilt) + BLADE_PAST_RING

    @property
    def cut_right(self) -> float:
        return self.lean + self.slant

    @property
    def room(self) -> float:
        """For the hold-down's foot: from the blade at the base's top to the stop, where the piece is narrowest."""
        return -self.piece(2)[0][0]

    @property
    def toe(self) -> float:
        """What is least under a piece's end, of the second stop: it ends clear of the blade."""
        return -self.clear_of_blade - self.stop_corner(2)[1][0]

    @property
    def fits(self) -> bool:
        """Whether a stave is wide and long enough for toe and hold-down, and thick enough to stand over its stops."""
        return (
            self.toe >= LEAST_TOE
            and self.room >= LEAST_ROOM
            and self.pad[1] - self.pad[0] >= LEAST_PAD
            and self.least_height <= self.height
            and self.board[1] <= LONGEST
        )

    @property
    def least_height(self) -> float:
        """Of the piece: the hold-down's finger is relieved by more than a stop stands over it."""
        return self.sheet - 1.0

    @property
    def foot(self) -> Point:
        """x of the hold-down's finger where it bears, from and to."""
        start, thick = foot(self.room, self.sheet)
        return (-start - thick, -start)

    def under_foot(self, cut: int) -> Point:
        """y from and to, of the wood under all of the foot: a stave that tapers lies askew in each cut."""
        a, b, c, d = self.piece(cut)
        return (max(_at(a, b, x) for x in self.foot), min(_at(d, c, x) for x in self.foot))

    @property
    def pad(self) -> Point:
        """y from and to, where the finger bears: on the wood in both cuts."""
        near, far = (
            max(self.under_foot(cut)[0] for cut in (1, 2)),
            min(self.under_foot(cut)[1] for cut in (1, 2)),
        )
        return (max(self.sheet + 1.0, near + PAST_END), near + ALONG * (far - near))

    @property
    def stop_left(self) -> float:
        """x of both stops' rear."""
        return min(x for cut in (1, 2) for x, _ in self.stop_corner(cut)) - STOP_TAIL

    @property
    def pin_line(self) -> float:
        return TOE + ALONG * self.board[1] / 2

    @property
    def fence_ends(self) -> Point:
        """x from and to."""
        left = min(self.slide - self.hold.width - BORDER, -self.clear_of_blade - 2 * TAB - 60)
        return (left, self.lean + self.slant + self.clear_of_blade + TAB + BORDER)

    @property
    def far_edge(self) -> float:
        return max(y for cut in (1, 2) for _, y in self.piece(cut)) + BORDER

    @property
    def runner(self) -> Point:
        """x of the mitre slot's two sides; at the table, under the base, the blade has come over to -x."""
        kept = -self.sheet * tan(self.tilt)
        if self.slot_on_kept_side:
            return (kept - self.slot_distance - self.slot_width, kept - self.slot_distance)
        far = kept + self.slant + self.slot_distance
        return (far, far + self.slot_width)

    @property
    def left_edge(self) -> float:
        hands = -self.sheet * tan(self.tilt) - self.hands_clear - HANDLE_LENGTH - BORDER
        return min(-LEFT, hands, self.runner[0] - 20, self.stop_left - BORDER, self.fence_ends[0] - BORDER)

    @property
    def right_edge(self) -> float:
        beside = self.lean + self.slant + EXIT_SIDE + BORDER
        return max(self.fence_ends[1] + BORDER, beside, self.runner[1] + 20)


def _at(a: Point, b: Point, x: float) -> float:
    """y at x of the line through two places."""
    return a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])


def _unit(a: Point, b: Point) -> Point:
    long = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    return ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
