"""What the joints of a vessel in three parts stand, and how fast the parts joined so far turn."""

from dataclasses import replace
from math import pi, tan

import numpy as np
import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.gauging.solve.vessel import gauge_plan
from jigs.stages.halves.solve import halves_plan
from jigs.stages.halves.steps import joined
from jigs.stages.held.strength import ALLOWED, SIDE
from jigs.words.findings import Refused
from jigs.work.model import Rack
from tests.conftest import CONFIGS
from tests.jigs.vessel.held import blank_of, hangs
from tests.jigs.vessel.test_three_parts import example, text_of
from tests.work.test_vessel_speeds import rocked


def bent(moment, outer, inner):
    """N/mm² at the outside of a tube: M y / I."""
    return moment * outer / (pi / 4 * (outer**4 - inner**4))


def test_the_glued_parts_stand_a_push_where_the_next_joint_is_faced():
    """Round tubes of the rings' flats: the weakest place is in the waist's rings, or at the first joint's glue."""
    first, second = example().halves.joints
    layers = {layer.number: layer.ring for layer in example().stack.layers}

    def moment(z):
        """Of the push 125 over the foot, and of the rings as glued, of known woods at 900 kg/m3."""
        own = [layer for layer in example().stack.layers if layer.number <= 8 and layer.ring.top > z]
        lows = [max(z, layer.ring.bottom) for layer in own]
        return SIDE * (125 - z) + 900e-9 * 9.81 * sum(
            layer.wood * (layer.ring.top - low) / layer.ring.height * ((layer.ring.top + low) / 2 - z)
            for layer, low in zip(own, lows, strict=True)
        )

    glued = bent(moment(45.0), min(layers[3].outer, layers[4].outer), first.centring.rebate)
    waist = [
        bent(moment(z), layers[k].outer, max(layers[k].core, example().section.inner.radius_at(z)))
        for k in (4, 5, 6)
        for z in np.arange(layers[k].bottom, layers[k].top, 0.1).tolist()
    ]
    assert second.opened.share * ALLOWED == pytest.approx(max(glued, *waist), rel=0.02)
    assert second.opened.share < 1.0
    pushed = SIDE * (195 - 45) + hangs(example().section, 45.0)
    at_rim = bent(pushed, example().section.outer.radius_at(45.0), first.centring.rebate)
    assert first.closed * ALLOWED == pytest.approx(at_rim, rel=1e-3)


def test_heavy_sides_bend_the_joints_of_parts_with_the_push():
    halves = ", ".join(['"walnut"'] * 6 + ['"basswood"'] * 6)
    woods = f"turn = 0\nrepeat = true\nspecies = [[{halves}]]"
    text = text_of().replace('species = ["cherry", "maple"]', woods)
    plan = solve(parse(text, CONFIGS / "three.toml"))
    for uneven, even in zip(plan.halves.joints, example().halves.joints, strict=True):
        more = rocked(plan, even.height) / (SIDE * (195 - even.height) + hangs(plan.section, even.height))
        assert more > 0.05
        assert uneven.closed == pytest.approx((1 + more) * even.closed, rel=1e-3)
        assert uneven.opened.share > 1.05 * even.opened.share


def test_two_parts_turn_no_faster_than_their_own_heavy_side_lets_them():
    """The third part, its heavy side across from theirs, is not on them yet."""
    oak, light = ['"white oak"'] * 6, ['"basswood"'] * 6
    one, other = ", ".join(oak + light), ", ".join(light + oak)
    rows = ", ".join(f"[{one if k < 5 else other}]" for k in range(13))
    text = text_of().replace("species = [", f"turn = 0\nspecies = [{rows}] #")
    plan = solve(parse(text, CONFIGS / "three.toml"))
    second, upper = (_started(plan, tier) for tier in plan.halves.tiers[1:])
    assert upper == plan.rim_speed
    below = replace(plan, rim_speed=second, stack=replace(plan.stack, layers=plan.stack.layers[:8]))
    far = 1e6  # mm: from there what rocks it is what pulls at it
    assert rocked(below, -far) / far == pytest.approx(SIDE, rel=0.01)
    assert rocked(replace(below, rim_speed=upper), -far) / far > 1.8 * SIDE


def _started(plan, tier):
    (start,) = [one for one in joined(plan, Rack([]), tier) if one.id.endswith(".start")]
    return tuple(one.value for one in start.settings)


WIDE = """title = "Parasol"
[profile]
stations = [[0, 140], [50, 160], [130, 160], [190, 480], [270, 520], [420, 520]]
[wall]
thickness = 14
[halves]
ring = 3
[rings]
heights = 30
segments = 16
species = ["cherry"]
[reversing]
hold = "none"
[lathe]
swing_over_bed = 800
"""


def test_the_joint_under_a_wide_blank_stands_it_as_glued_heavier_than_turned():
    """Of known woods at 900 kg/m3: it weighs 2.6 times as much then, on a wall 4 mm thicker."""
    job = parse(WIDE, CONFIGS / "wide.toml")
    section, stack = blank_of(job)
    (joint,) = halves_plan(job, section, stack, gauge_plan(job, section, stack)).joints
    above = [layer.ring for layer in stack.layers if layer.number > 3]
    weights = [
        900e-9 * 9.81 * 16 * tan(pi / 16) * (ring.outer**2 - ring.core**2) * ring.height for ring in above
    ]
    arms = [(ring.bottom + ring.top) / 2 - joint.height for ring in above]
    pushed = SIDE * (420 - joint.height)
    outer = min(layer.ring.outer for layer in stack.layers if layer.number in (3, 4))
    glued = bent(pushed + np.dot(weights, arms), outer, joint.centring.rebate)
    hung = pushed + hangs(section, joint.height)
    turned = bent(hung, section.outer.radius_at(joint.height), joint.centring.rebate)
    assert glued > 1.2 * turned
    assert joint.closed * ALLOWED == pytest.approx(glued, rel=0.005)


def test_glue_at_a_waist_that_a_push_at_the_rim_breaks_is_refused():
    """40 mm across at ring 6, 93 mm up: 30 N at the rim, 102 mm over it, on glue 20 to 17 mm from the axis."""
    assert bent(SIDE * 102.0, 20.0, 17.0) > ALLOWED
    text = text_of("\n[halves]\nring = [3, 6]\n").replace("[90, 56]", "[93, 40]")
    with pytest.raises(Refused) as caught:
        solve(parse(text, CONFIGS / "three.toml"))
    assert "the glue round the centring ring over ring 6" in "".join(
        one.message for one in caught.value.findings
    )
