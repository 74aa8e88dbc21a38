"""Rings turned on one another by rule, and woods by rule."""

from collections import Counter
from math import pi, tan

import pytest

from jigs.asked.jobfile import parse
from jigs.asked.vessel_job import VesselJob
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.plans.vessel import VesselPlan
from jigs.stages.stack.check import stack_findings
from jigs.stages.stack.turned import turned_on
from jigs.words.findings import Refused
from tests.jigs.vessel.jobs import text
from tests.jigs.vessel.test_stack import stacked

PITCH = 2 * pi / 12


def asked(*rings: str, name: str = "vase") -> VesselJob:
    read = parse(text(name).replace('species = "maple"', "\n".join(rings)), "v.toml")
    assert isinstance(read, VesselJob)
    return read


def planned(*rings: str, name: str = "vase") -> VesselPlan:
    plan = solve(asked(*rings, name=name))
    assert isinstance(plan, VesselPlan)
    return plan


SPIRAL = ('species = [["maple", "walnut", "walnut"]]', "turn = 0.25")


@pytest.fixture(scope="module")
def spiral() -> VesselPlan:
    return planned(*SPIRAL)


def test_a_spiral_turns_each_ring_on_the_last(spiral):
    layers = [layer for layer in spiral.stack.layers if layer.ring.segments]
    first = layers[0]
    for step, layer in enumerate(layers):
        assert (layer.turned - first.turned - step * PITCH / 4) % (2 * pi) == pytest.approx(0, abs=1e-9) or (
            layer.turned - first.turned - step * PITCH / 4
        ) % (2 * pi) == pytest.approx(2 * pi)


def test_a_list_of_turns_repeats_and_whole_segments_move_the_woods():
    plan = planned('species = [["maple", "walnut"]]', "turn = [0.5, 1, -0.5]")
    shares = [joint.turn / PITCH for joint in plan.stack.joints if joint.over]
    assert shares[:6] == pytest.approx([0.5, 1, -0.5, 0.5, 1, -0.5])
    whole = next(joint for joint in plan.stack.joints if joint.over == 2)
    assert (whole.past, whole.turn) == (pytest.approx(0, abs=1e-9), pytest.approx(PITCH))


def test_the_mark_for_the_tick_lies_on_the_flat_where_the_ray_meets_it(spiral):
    for joint in spiral.stack.joints:
        if joint.over:
            lower = spiral.stack.layers[joint.lower - 1].ring
            assert joint.past == pytest.approx(lower.outer * tan(PITCH / 4))
            assert abs(joint.past) <= lower.outer_edge / 2 + 1e-9


def test_the_step_tells_the_mark_and_the_turn_of_every_ring(spiral):
    told = {
        setting.id: setting
        for op in work(spiral, parts_of(spiral)).operations
        if op.id.startswith("stack.")
        for setting in op.settings
    }
    for joint in spiral.stack.joints:
        if joint.over:
            tick = told[f"tick.{joint.upper}"]
            assert tick.value == pytest.approx(joint.past)
            assert f"right of the middle of segment {joint.over} of ring {joint.lower}" in tick.label
            assert told[f"turn.{joint.upper}"].value == pytest.approx(PITCH / 4)
            assert "counter-clockwise" in told[f"turn.{joint.upper}"].label


def test_a_ring_turned_by_a_whole_segment_stands_over_its_middle_and_not_beside_it():
    plan = planned('species = ["maple", "walnut"]', "turn = [1]")
    tick, _ = turned_on(plan.stack.joints[1])
    assert tick.label == "Ring 3: its tick over the middle of ring 2's segment"
    assert (tick.value, tick.kind) == (2, "count")


def test_bricks_are_the_same_as_half_a_segment_there_and_back():
    bricks, stated = planned('species = "maple"'), planned('species = "maple"', "turn = [-0.5, 0.5]")
    rough = [[joint.rough for joint in plan.stack.joints] for plan in (bricks, stated)]
    assert rough[0] == pytest.approx(rough[1])


def test_the_cut_list_counts_every_piece_by_its_wood():
    plan = planned('species = ["maple", ["walnut", "maple", "maple"]]', "repeat = true", "feature = [4, 6]",
                   'feature_species = ["cherry", ["ash", "beech"]]')  # fmt: skip
    found: Counter[str] = Counter()
    for layer in plan.stack.layers:
        found.update(layer.species)
    expected: Counter[str] = Counter()
    for layer in plan.stack.layers:
        n = layer.ring.segments or 1
        woods = {4: ["cherry"], 6: ["ash", "beech"]}.get(
            layer.number, ["maple"] if layer.number % 2 else ["walnut", "maple", "maple"]
        )
        expected.update(woods[k % len(woods)] for k in range(n))
    assert found == expected
    listed: Counter[str] = Counter()
    for lot in plan.wood.lots:
        if lot.piece == "segment":
            listed[lot.species] += lot.count
    segments: Counter[str] = Counter()
    for layer in plan.stack.layers:
        if layer.cut:
            segments.update(layer.species)
    assert listed == segments


def test_feature_rings_beyond_the_rim_are_told():
    plan = planned('species = "maple"', "feature = [40]", 'feature_species = "cherry"')
    assert [note.key for note in plan.notes if note.code == "no-such-ring"] == ["rings.feature"]


@pytest.mark.parametrize(
    ("lines", "key"), [(("feature = [4]",), "rings.feature_species"), (('feature_species = "ash"',), "rings.feature"),
                       (("turn = true",), "rings.turn"), (("turn = []",), "rings.turn"), (("turn = 90",), "rings.turn")]
)  # fmt: skip
def test_rules_that_cannot_be_read_are_refused(lines, key):
    with pytest.raises(Refused) as refused:
        asked('species = "maple"', *lines)
    assert key in {finding.key for finding in refused.value.findings}


def test_open_rings_turned_too_little_are_refused_and_bricks_pass():
    for turn, keys in (("0.1", {"rings.turn"}), ("0.45", set()), ("[0.5, -0.5]", set())):
        job = asked('species = "maple"', f"turn = {turn}", name="open")
        found = [f for f in stack_findings(job, *stacked(job)) if f.severity == "refused"]
        assert {f.key for f in found} == keys


def test_shorter_glue_faces_pass_where_the_job_says_so_and_are_warned_of():
    """Half a pitch near the foot is 13 mm; less a gap of 8 that is under the usual 8 mm."""
    for least, codes in ((8, ["no-glue-face"]), (3, ["short-glue-face"])):
        wide = text("open").replace('gap = "5 mm"', f'gap = "8 mm"\nleast_face = {least}')
        job = parse(wide, "open.toml")
        found = [f for f in stack_findings(job, *stacked(job)) if f.code.endswith("glue-face")]
        assert [f.code for f in found] == codes
        assert (found[0].severity == "warning") is (least == 3)
