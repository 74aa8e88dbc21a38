"""Changes of a vessel's drawings: each takes the model space, the job and a random generator."""

from math import cos, radians, sin

import numpy as np

from tests.jigs.redrawn import redraw


def rewritten(change):
    def mutate(file, job, rng):
        redraw(file, lambda space: change(space, job, rng))

    mutate.__name__ = change.__name__
    return mutate


def outline(space):
    closed = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer in ("cut", "section")]
    return max(closed, key=lambda e: np.prod(np.ptp(np.array(list(e.get_points("xy"))), axis=0)))


def holes(space, corners=None):
    outer = outline(space).dxf.handle
    found = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"]
    return [e for e in found if e.dxf.handle != outer and (corners is None or len(e) == corners)]


def named(space, name):
    lines = [e for e in space.query("LWPOLYLINE") if e.has_xdata("JIGS")]
    return [e for e in lines if e.get_xdata("JIGS")[0].value.startswith(name)]


def edited(entity, edit):
    points = np.array(list(entity.get_points("xyb")))
    edit(points)
    entity.set_points(points.tolist(), format="xyb")


def either(rng, size):
    return rng.choice([-1, 1]) * size


def turned(points, turn, about=(0.0, 0.0)):
    matrix = np.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])
    points[:, :2] = (points[:, :2] - about) @ matrix + about


@rewritten
def stick_too_long(space, job, rng):
    def edit(points):
        points[points[:, 1] == points[:, 1].max(), 1] += either(rng, 0.3)

    edited(outline(space), edit)


@rewritten
def fence_turned(space, job, rng):
    """Both slots of one fence, 0.2 degrees round the middle of the blade's line."""
    side, turn = either(rng, 1), radians(either(rng, 0.2))
    for hole in holes(space, 4):
        points = np.array(list(hole.get_points("xy")))
        steps = np.abs(np.diff(points, axis=0))
        if points[:, 1].mean() * side > 0 and steps.min() > 0.1:
            edited(hole, lambda points: turned(points, turn))


@rewritten
def slot_moved(space, job, rng):
    def edit(points):
        points[:, :2] += (0.0, either(rng, 1.0))

    edited(rng.choice(holes(space)), edit)


@rewritten
def hole_moved(space, job, rng):
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    turn, (x, y, _) = radians(rng.uniform(0, 360)), circle.dxf.center
    circle.dxf.center = (x + cos(turn), y + sin(turn))


@rewritten
def hole_widened(space, job, rng):
    circle = rng.choice([e for e in space.query("CIRCLE") if e.dxf.layer == "drill"])
    circle.dxf.radius += either(rng, 0.5)


@rewritten
def leaning_edge_turned(space, job, rng):
    def edit(points):
        steps = np.roll(points[:, :2], -1, axis=0) - points[:, :2]
        leans = np.where(np.abs(steps).min(axis=1) > 0.01, np.hypot(*steps.T), 0.0)
        k = int(leans.argmax())
        end = points[(k + 1) % len(points)][None].copy()
        turned(end, radians(either(rng, 0.1)), points[k, :2])
        points[(k + 1) % len(points)] = end[0]

    edited(outline(space), edit)


@rewritten
def leg_moved(space, job, rng):
    """One of the four inner sides of a gap gauge's legs."""

    def edit(points):
        x = np.abs(points[:, 0])
        inner = np.unique(np.round(x, 4))
        pairs = [i for i in range(len(points)) if abs(points[i, 0] - points[i - 1, 0]) < 1e-6]
        legs = [i for i in pairs if 20 < x[i] < inner[-1] - 8 and abs(points[i, 1] - points[i - 1, 1]) > 15]
        i = rng.choice(legs)
        points[[i, i - 1], 0] += either(rng, 0.3)

    edited(outline(space), edit)


@rewritten
def end_moved(space, job, rng):
    """One side of a stick's lower end."""

    def edit(points):
        low = points[:, 1] == points[:, 1].min()
        x = rng.choice(points[low, 0].tolist())
        points[np.abs(points[:, 0] - x) < 1e-6, 0] += either(rng, 0.1)

    edited(outline(space), edit)


@rewritten
def plate_too_large(space, job, rng):
    edited(outline(space), lambda points: np.multiply(points[:, :2], 1.02, out=points[:, :2]))


@rewritten
def ring_outline_too_large(space, job, rng):
    edited(
        rng.choice(named(space, "outside of")),
        lambda points: np.multiply(points[:, :2], 1.003, out=points[:, :2]),
    )


@rewritten
def joint_mark_moved(space, job, rng):
    def edit(points):
        points[:, :2] += (0.2, 0.2)

    edited(rng.choice(named(space, "joint")), edit)


@rewritten
def tick_moved(space, job, rng):
    def edit(points):
        points[:, 0] += 2.5

    edited(rng.choice(named(space, "tip of")), edit)


@rewritten
def land_tilted(space, job, rng):
    def edit(points):
        k = rng.choice(np.flatnonzero(np.abs(points[:, 1]) < 1e-6).tolist())
        points[k, 1] += either(rng, 0.05)

    edited(outline(space), edit)


@rewritten
def mirrored(space, job, rng):
    edited(outline(space), lambda points: np.multiply(points, (-1.0, 1.0, -1.0), out=points))


@rewritten
def plug_side_moved(space, job, rng):
    """The side of the plug that goes into the mouth."""

    def edit(points):
        flange, bore = points[:, 0].max(), points[:, 0].min()
        points[(points[:, 0] < flange - 1) & (points[:, 0] > bore + 1), 0] += either(rng, 0.1)

    edited(outline(space), edit)


@rewritten
def flange_moved(space, job, rng):
    def edit(points):
        face = points[(points[:, 0] == points[:, 0].max()), 1].min()
        points[np.abs(points[:, 1] - face) < 1e-6, 1] += 3.0

    edited(outline(space), edit)


CUT = {
    stick_too_long: ("stop-stick-ring-2",),
    fence_turned: ("plan-angle-base-n8",),
    slot_moved: ("plan-angle-base-n8", "plan-angle-carriage-n8"),
    hole_moved: ("gauge-rail", "plan-angle-carriage-n8", "mouth-plug-layer"),
    hole_widened: ("gauge-rail",),
    leaning_edge_turned: ("joint-plate-n8",),
    leg_moved: ("gap-gauge-wide-place",),
    end_moved: ("mouth-stick-2",),
    plate_too_large: ("centring-plate-ring-2",),
    ring_outline_too_large: ("glue-up-board-1",),
    joint_mark_moved: ("glue-up-board-2",),
    tick_moved: ("ring-truing-board",),
    land_tilted: ("half-ring-check",),
    mirrored: ("plan-angle-base-n8",),
}  # fmt: skip
TURNED = {plug_side_moved: ("mouth-plug-section",), flange_moved: ("mouth-plug-section",)}
