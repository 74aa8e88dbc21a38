"""A second opinion on a torus's set: short arithmetic of the job and brute force on the written files.

Nothing of `geometry` or of the dry fit is used here. With N wedge rings w = pi/N, with n segments mu = pi/n; R is the
job's major radius, a and b are half the tube's width and height. Each finding names a part, what was measured, and how
far it is off what is wanted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import cos, degrees, pi, radians, sin, sqrt, tan
from pathlib import Path

import numpy as np
import shapely
from shapely import affinity

from jigs.asked.job import TorusJob
from jigs.words.file_names import what_of
from tests.sweep.drawings import Drawing, Plate, drawing, pieces
from tests.sweep.measured import (
    FAR,
    Floats,
    along_line,
    between,
    frame,
    hits,
    side_at,
    slot_along,
    steps,
    taper_of,
    touching,
)

ANGLE, PLACE, SIZE, WOOD = 0.03, 0.05, 0.035, -0.035  # degrees, mm, mm, mm
TOP = 1.0  # mm: a jaw is held off the ring by so much when it is bolted


@dataclass(frozen=True)
class Found:
    """What a part does, off what it should do; `least` and `most` are what it may be off."""

    part: str
    what: str
    off: float
    least: float
    most: float

    @property
    def right(self) -> bool:
        return self.least <= self.off <= self.most


def _near(part: str, what: str, value: float, wanted: float, slack: float) -> Found:
    return Found(part, what, value - wanted, -slack, slack)


class Set:
    """A torus job and the folder with its files."""

    def __init__(self, job: TorusJob, folder: Path) -> None:
        self.job, self.folder, form = job, folder, job.form
        self.w, self.mu = pi / form.wedge_rings, pi / form.segments
        self.major, self.tube = form.major_radius, form.tube_radius
        self.high = (form.tube_height or form.tube_diameter) / 2
        self.stages = job.gauges.stages
        self.flats_out = form.segments % 4 == 0

    def drawn(self, name: str) -> Drawing:
        return drawing(self.folder, name, self.job.workshop.cutter.kerf)

    def plates(self, pattern: str) -> Iterator[tuple[str, Plate]]:
        """Parts of that name, by name."""
        stems = {re.sub("-[a-h]$", "", what_of(file)) for file in self.folder.glob("*/*.*")}
        for name in sorted(stem for stem in stems if re.fullmatch(pattern, stem)):
            for plate in pieces(self.folder, name, self.job.workshop.cutter.kerf):
                yield name, plate

    def places(self, turns: Floats, off: float = 0.0) -> Floats:
        """Of the ellipse where its normals have these angles, and so far outside it: (turns, 2)."""
        out = np.column_stack([np.cos(turns), np.sin(turns)])
        support = np.hypot(self.tube * out[:, 0], self.high * out[:, 1])
        return np.asarray(out * (self.tube**2, self.high**2) / support[:, None] + off * out)

    @cached_property
    def depth(self) -> float:
        """Half of the least radius of curvature: a parallel curve so far inside has no corners."""
        return min(self.tube, self.high) ** 2 / max(self.tube, self.high) / 2

    @cached_property
    def within(self) -> shapely.Polygon:
        """The curve parallel to the tube's, `depth` inside it."""
        return shapely.Polygon(self.places(np.linspace(0, 2 * pi, 2881), -self.depth))

    def off(self, shape: shapely.Geometry, x: float = 0.0) -> Floats:
        """How far outside the tube it lies, the tube's centre at so much; negative in it."""
        return np.asarray(shapely.distance(shape, affinity.translate(self.within, x, 0)) - self.depth)

    @cached_property
    def apothem(self) -> float:
        """Of a ring: the jaw's screw comes down on its uppermost flat."""
        return float(self.drawn("sled-jaw").lines["screw"][:, 1].min()) / 2

    @cached_property
    def out(self) -> float:
        """From a ring's middle to its outermost flat or arris."""
        return self.apothem if self.flats_out else self.apothem / cos(self.mu)

    def ring(self) -> shapely.Polygon:
        """A ring on the sled, on a flat at y = 0, its outermost place at x = 0."""
        turns = [-pi / 2 + self.mu * (2 * k + 1) for k in range(self.job.form.segments)]
        radius = self.apothem / cos(self.mu)
        return shapely.Polygon([(radius * cos(a) - self.out, radius * sin(a) + self.apothem) for a in turns])


def judge_torus(job: TorusJob, folder: Path) -> list[Found]:
    """All that is measured. A file that is missing or cannot be read leaves its part out."""
    found: list[Found] = []
    for judge in (_sled, _angles, _carrier, _edges, _sizes, _boards):
        try:
            found += judge(Set(job, folder))
        except (OSError, KeyError):  # on paper, or not in this set: the lines have no names
            continue
    return found


def torus_right(found: list[Found], where: str, what: str) -> bool | None:
    """Whether what a check of the dry fit condemns is right; None where it was not measured."""
    own = [one for one in found if _same(one, where, what)]
    return all(one.right for one in own) if own else None


def overlooked_of(found: list[Found], condemned: list[tuple[str, str]]) -> list[str]:
    """What is wrong, and no check that is about the same condemns."""
    wrong = [one for one in found if not one.right and not any(_same(one, *check) for check in condemned)]
    return [f"{one.part}: {one.what}: off by {one.off:.4f}" for one in wrong]


def _same(one: Found, where: str, what: str) -> bool:
    """Whether a check of the dry fit is about the same."""
    for check, parts in SAME.items():
        if re.fullmatch(check, f"{where}: {what}"):
            return bool(re.fullmatch(parts.format(where=re.escape(where)), f"{one.part}: {one.what}"))
    return False


def _sled(files: Set) -> Iterator[Found]:
    """Both cuts of a ring, and whether the torus with its allowance is within the rings cut so."""
    base, cheek, wedge = (files.drawn(name) for name in ("sled-base", "sled-stop-cheek", "sled-wedge"))
    angle, apex, along = frame(base)
    yield _near("sled", "fence to blade", degrees(angle), degrees(files.w), ANGLE)
    taper, thin = taper_of(wedge), side_at(wedge, 0)
    yield _near("sled", "wedge", degrees(taper), degrees(files.w), ANGLE)
    foot = cheek.outline.intersection(shapely.box(-FAR, -FAR, FAR, -1.0)).bounds[2]
    touch = touching(files.ring(), cheek.outline)
    slots = [slot_along(shape, apex, along) for shape in base.closed[1:]]
    stops = [high - foot + touch for low, high, off in slots if off > -0.4 * files.job.workshop.boards.sheet]
    for stop in stops:
        yield _near("sled", "stop's line", along_line(base.lines["stop line"], apex, along), stop, PLACE)
        yield _near("sled", "stops in one plane", stop, stops[0], PLACE)
    beyond = touch - cheek.outline.bounds[0]  # the wedge's thin end stands at the tips of a V's arms
    thick = stops[0] * tan(angle) - thin + beyond * tan(taper)
    included = angle + taper
    off = (
        files.job.form.face_sanding - files.job.form.ring_spacer / 2
    )  # each face, by sanding; a strip puts it back
    out = thick / (2 * tan(included / 2)) - off / sin(files.w)
    yield Found(
        "sled", "faces of all rings, degrees", degrees(included) * files.job.form.wedge_rings - 360, -0.2, 0.2
    )
    yield Found("blank", "wood round the torus", _wood(files, out - files.out), WOOD, FAR)
    jaw = files.drawn("sled-jaw").outline
    yield _near("jaw", "off the ring", float(jaw.distance(files.ring())), 0.0, TOP / 2)
    yield Found("jaw", "in the ring", float(jaw.intersection(files.ring()).buffer(-PLACE).area), 0.0, 0.0)


def _wood(files: Set, centre: float) -> float:
    """The least wood beyond the torus with its allowance, by places all over it, within a ring's two faces."""
    phi, theta = np.meshgrid(np.linspace(-files.w, files.w, 61), np.linspace(0, 2 * pi, 1441))
    reach = files.places(theta.ravel(), files.job.form.turning_allowance)
    x = (files.major + reach[:, 0]) * np.cos(phi.ravel()) - centre
    z = reach[:, 1]
    flats = -pi / 2 + 2 * files.mu * np.arange(files.job.form.segments)
    return float(min((files.apothem - x * cos(a) - z * sin(a)).min() for a in flats))


def _angles(files: Set) -> Iterator[Found]:
    """Each plate has two long edges at its angle; a corner holds a whole number of rings."""
    mitre, ring = degrees(files.mu), degrees(2 * files.w)
    for name, wanted in (("tilt-plate", mitre), ("joint-plate", 2 * mitre)):
        found = between(files.drawn(name))
        yield Found(name, "angle", float(np.abs(np.abs(found) - wanted).min()), 0.0, ANGLE)
    found = between(files.drawn("check-corner"))
    several = np.abs((found + ring / 2) % ring - ring / 2)
    inside = found > ring / 2
    yield Found("check-corner", "rings in it", float(several[inside].min()), 0.0, 2 * ANGLE)


def _carrier(files: Set) -> Iterator[Found]:
    """Segments of so many that close into a ring of the sled's apothem: (A + C) tan(mu), and what is sanded off."""
    if not any(files.folder.glob("*/*_segment-base.dxf")):
        return
    base, form = files.drawn("segment-base"), files.job.form
    stop = base.lines["stop line"][:, 0].mean() - base.lines["blade, kept side"][:, 0].mean()
    more = (2 * form.joint_sanding - form.spacer) / cos(files.mu)
    wanted = (files.apothem + form.core_opening / 2) * tan(files.mu) + more
    yield _near("segment-base", "stop", abs(float(stop)), wanted, PLACE)


def _edges(files: Set) -> Iterator[Found]:
    """Gauges for the tube: nothing nearer to it than their stage and the fit, and an arc all round at that."""
    fit = files.job.gauges.fit
    stages = {f"stage-{i + 1}": off for i, off in enumerate(files.stages)} | {"finished": files.stages[-1]}
    arcs = {"outer": (-33.0, 88.0), "hole": (92.0, 213.0)}
    for name, (plate, _) in files.plates("(outer|hole)-gauge-.*|standing-gauge-.*"):
        kind, _, stage = name.partition("-gauge-")
        wanted = stages.get(stage, files.stages[-1]) + fit
        yield _near(name, "nearest to the tube", float(files.off(plate)), wanted, SIZE)
        start, end = arcs.get(kind, (-180.0, 180.0))
        turns = np.radians(np.arange(start, end))
        off = hits(plate, turns, files.places(turns))
        share = float((np.abs(off - wanted) < SIZE).mean())
        yield Found(name, "arc", share, 0.85 if kind in arcs else 0.05, 1.0)


def _sizes(files: Set) -> Iterator[Found]:
    """Every stage's size is a step of a fork, of a stick through the hole, of a stick over the rim."""
    forks, sticks = list(files.plates(r"width-fork(-\d+)?")), list(files.plates(r"hole-stick(-\d+)?"))
    for tube in (files.tube + stage for stage in files.stages):
        hole = files.major - tube
        for kind, own, gap in (("width-fork", forks, True), ("hole-stick", sticks, False)):
            off = [
                abs(size - _step(files, tube, hole, plate[1], gap))
                for _, plate in own
                for size in steps(plate[0], gap)
            ]
            if own:
                yield Found(kind, f"a step for {tube:.2f}", min(off, default=FAR), 0.0, 2 * SIZE)
        for name, (plate, _) in files.plates(r"outer-stick"):
            edge = shapely.get_coordinates(shapely.segmentize(plate.exterior, 0.2))
            at = np.abs(np.hypot(*edge.T) - files.major - tube) < SIZE
            yield Found(
                name,
                f"ends on {tube:.2f}",
                float(min((at & (edge[:, 0] * s > 0)).sum() for s in (-1, 1))),
                10,
                FAR,
            )


def _step(files: Set, tube: float, hole: float, thick: float, gap: bool) -> float:
    """The width that a flat plate of that thickness has across the hole, or its gap over the tube."""
    across = sqrt(hole**2 - ((thick or files.job.workshop.boards.sheet) / 2) ** 2)
    return 2 * tube + hole - across if gap else 2 * across


def _boards(files: Set) -> Iterator[Found]:
    """Channel and retainer seat the tube at its lining's thickness; the retainer's neck keeps clear of it."""
    lining = files.job.form.lining
    contact = radians(files.job.workshop.holding.contact)
    for _, (board, _) in files.plates("channel-section"):
        yield _near(
            "channel-section", "nearest to the tube", float(files.off(board, files.major)), lining, SIZE
        )
        turns = np.array((-pi / 2 - contact + 0.05, -pi / 2 + contact - 0.05))
        for off in hits(affinity.translate(board, -files.major, 0), turns, files.places(turns)):
            yield _near("channel-section", "flank", float(off), lining, SIZE)
    for _, (plug, _) in files.plates("retainer-section"):
        places = shapely.points(shapely.get_coordinates(shapely.segmentize(plug.exterior, 0.1)))
        off = files.off(places, files.major)
        band = shapely.get_y(places)[np.abs(off - lining) < SIZE]
        neck = min(lining, files.job.workshop.holding.neck_clearance)
        yield Found("retainer-section", "clear of the tube", off.min() - neck, -SIZE, FAR)
        over = shapely.get_y(places) > files.high / 2
        yield _near("retainer-section", "hollow", off[over].min(), lining, SIZE)
        begins = files.places(np.arcsin([0.56]), lining)[0, 1]
        yield Found("retainer-section", "band begins", band.min(initial=FAR) - begins, -FAR, 0.0)


SAME: dict[str, str] = {  # checks of the dry fit: what of the above is about the same
    r"sled: (fence to blade|fence slot's turn|.*fence's face off its line)": "sled: fence to blade",
    r"sled: (faces of a ring|all rings together|ring's mid-plane off square)": "sled: (fence to blade|wedge|faces.*)",
    r"sled: stop cheeks in one plane|sled-base: stop's measuring line at the stop": "sled: stop.*",
    r"blank: wood beyond.*": "blank: .*|sled: .*",
    r"jaw: (lean of an edge|clear of the ring when bolted|screw reaches the ring)": "jaw: .*",
    r"tilt plate: .*": "tilt-plate: .*",
    r"joint plate: .*": "joint-plate: .*",
    r"check corner: .*": "check-corner: .*|sled: .*",
    r"segment-base: (stop's measuring line at the nose|segments close to .*)": "segment-base: .*",
    r"(outer|hole)-gauge-.*: (least gap|most gap|widest part|nearest place).*": "{where}: .*",
    r"standing-gauge-.*: (least gap|most gap|widest part|nearest place).*": "{where}: .*",
    r"(width-fork|hole-stick).*: (outer|inner|right|left) (leg|side) .*": "(width-fork|hole-stick): .*",
    r"(width forks|hole sticks): steps found": "(width-fork|hole-stick): .*",
    r"outer-stick: (least|most), .*": "outer-stick: .*",
    r"retainer: (stands in the torus by|rim, .* gap)": "retainer-section: .*",
    r"channel: (torus stands in the board by|.* flank, .*)": "channel-section: .*",
}  # fmt: skip
