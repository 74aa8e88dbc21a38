"""Where the grain meets the joints, by vectors; what is refused and what is not."""

from math import acos, asin, cos, pi, radians, sin

import numpy as np
import pytest

from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.grain.plan import GrainJoint
from tests.jigs.wood.whole_jobs import ALL, LAYUP, plan_of, torus, vessel

Vector = tuple[float, float, float]


def between(a: Vector, b: Vector) -> float:
    """Angle of two lines, 0 to a right angle."""
    u, v = np.array(a), np.array(b)
    return acos(min(1.0, abs(float(u @ v)) / float(np.linalg.norm(u) * np.linalg.norm(v))))


def joint(plan: TorusPlan | VesselPlan, sort: str) -> GrainJoint:
    (found,) = [joint for joint in plan.wood.grain.joints if joint.sort == sort]
    return found


@pytest.mark.parametrize(("rings", "segments"), [(18, 8), (16, 6), (12, 12)])
def test_the_grain_of_mitred_segments_meets_their_joints_as_vectors_say(rings: int, segments: int):
    plan = torus(rings=rings, segments=segments)
    mu, w = pi / segments, pi / rings
    mitre = between((1.0, 0.0, 0.0), (cos(mu), sin(mu), 0.0))
    assert joint(plan, "mitres").angles == pytest.approx((mitre, mitre))
    assert joint(plan, "mitres").count == rings * segments
    # In the ring's frame x, y, z: a wedge face's normal, and the grain of each segment across its own direction.
    face = (-sin(w), cos(w), 0.0)
    turns = [-pi / 2 + k * 2 * mu for k in range(segments)]
    met = min(between((-sin(a), 0.0, cos(a)), face) for a in turns)
    assert joint(plan, "wedge faces").angles == pytest.approx((met, met))
    assert joint(plan, "mitres").backing == "in line"
    assert not joint(plan, "wedge faces").end_to_end


def test_a_layup_is_not_solid_wood_and_is_not_refused():
    plan = torus(more=LAYUP)
    assert not any(joint.solid or joint.weak for joint in plan.wood.grain.joints)
    assert [piece.runs for piece in plan.wood.grain.pieces] == ["as the plies lie"]


@pytest.mark.parametrize(
    ("plane", "grain"), [("flat", (1.0, 0.0, 1.0)), ("face", (1.0, 1.0, 0.0)), ("end", (0.0, 1.0, 1.0))]
)
def test_the_plies_of_a_layup_meet_the_joints_as_their_strips_run(plane: str, grain: Vector):
    mirrored = "left and right" if plane == "face" else "up and down"
    more = f'{LAYUP}angle = 45\nplane = "{plane}"\nmirrored = "{mirrored}"\n'
    plan = torus(more=more)
    u, v, y = grain
    signs = [(u * a, v * b, y) for a in (1, -1) for b in (1, -1)]
    mitre = min(between(g, (cos(pi / 8), sin(pi / 8), 0.0)) for g in signs)
    assert joint(plan, "mitres").angles == pytest.approx((mitre, mitre))


@pytest.mark.parametrize("name", ALL)
def test_every_ring_has_grain_and_every_joint_two_angles_up_to_a_right_angle(name):
    plan = plan_of(name)
    rings = {ring for piece in plan.wood.grain.pieces for ring in piece.rings}
    if isinstance(plan, TorusPlan):
        assert rings == set(range(1, plan.blank.wedge_rings + 1))
    else:
        assert rings == {layer.number for layer in plan.stack.layers}
    for joint in plan.wood.grain.joints:
        assert all(0.0 <= angle <= pi / 2 + 1e-9 for angle in joint.angles)
        assert joint.count > 0


@pytest.mark.parametrize("name", ["sorrel", "bowl", "bottle", "open", "staved", "plied vase"])
def test_every_joint_of_a_vessel_is_counted(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    joints = plan.wood.grain.joints
    between_rings = sum(j.count for j in joints if j.sort in ("ring faces", "stave ends"))
    assert between_rings == len(plan.stack.joints)
    within = sum(j.count for j in joints if j.sort in ("mitres", "strips", "stave edges"))
    closed = [layer.ring for layer in plan.stack.layers if layer.kind in ("segments", "staves")]
    assert within == sum(ring.segments * (2 if ring.spacer else 1) for ring in closed)


def test_rings_turned_by_half_a_segment_cross_each_others_mitres_and_others_stand_in_line():
    assert {j.backing for j in vessel("cup").wood.grain.joints if j.sort == "mitres"} == {"crossed"}
    inline = [j for j in vessel("vase", "turn = 0").wood.grain.joints if j.sort == "mitres"]
    assert "in line" in {j.backing for j in inline}
    assert not any(j.weak for j in inline)


def test_strips_between_segments_have_long_grain_on_their_faces():
    strips = [j for j in plan_of("bottle").wood.grain.joints if j.sort == "strips"]
    for found in strips:
        assert min(found.angles) < radians(23)
        assert max(found.angles) == pytest.approx(pi / 2)
        assert not found.end_to_end


def test_staves_stand_with_their_ends_on_the_long_grain_of_rings():
    plan = plan_of("staved")
    assert isinstance(plan, VesselPlan)
    band = plan.stack.staves
    assert band is not None
    for found in [j for j in plan.wood.grain.joints if j.sort == "stave ends"]:
        assert sorted(found.angles) == pytest.approx([abs(band.lean), pi / 2])
    mu, lean = pi / band.count, band.lean
    grain, normal = (sin(lean), 0.0, cos(lean)), (-sin(mu), cos(mu), 0.0)
    assert joint(plan, "stave edges").angles[0] == pytest.approx(between(grain, normal))
    assert pi / 2 - joint(plan, "stave edges").angles[0] == pytest.approx(abs(asin(sin(mu) * sin(lean))))
