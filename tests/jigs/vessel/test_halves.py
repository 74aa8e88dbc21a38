"""Vessels built in halves: what is offered, what refuses them, the order of work, and gauges from the joint down."""

import re
import shutil
from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import pytest

from jigs.asked import toml_source
from jigs.asked.jobfile import load, parse
from jigs.dryfit.files import Files
from jigs.dryfit.vessel.glued import halves_checks
from jigs.dryfit.vessel.rings import rings_of
from jigs.dryfit.vessel.work import work_of
from jigs.files.dxf import write_dxf
from jigs.files.stl import write_stl
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.remedies.offered import remedies
from jigs.remedies.words import remedy_lines
from jigs.stages.halves.check import halves_findings
from jigs.stages.halves.steps import mouth
from jigs.stages.held.strength import ALLOWED
from jigs.words.findings import Finding, Refused
from jigs.work.model import Rack
from tests.conftest import CONFIGS
from tests.examples import plan_of_example
from tests.jigs.inspection import text_of
from tests.jigs.remedies.pasted import pasted

TEXT = (CONFIGS / "gourd.toml").read_text("utf-8")
HALVES = "[halves]\nring = 3 # the last of the lower half\n"


@cache
def plan_of(*changes):
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return solve(parse(text, CONFIGS / "gourd.toml"))


def example():
    return plan_of_example("gourd")


@cache
def made():
    """Its parts, whose names the steps of other halves use too, and its steps."""
    parts = parts_of(example())
    return parts, work(example(), parts).operations


def ids():
    return [one.id for one in made()[1]]


def test_the_joints_gauge_says_too_wide_and_no_jig_a_name_of_the_program():
    told = {part.name: f"{text_of(part)} {' '.join((*part.making, *part.notes))}" for part in made()[0]}
    assert told["joint-gauge"].count("TOO WIDE") == 2  # lettered, and how it is used
    assert not [name for name, text in told.items() if re.search("[A-Z]_[A-Z]", text)]


def test_a_neck_that_no_gauge_passes_is_offered_the_ring_that_does():
    (note,) = [one for one in plan_of((HALVES, "")).notes if one.code == "inside-unguided"]
    ring = re.search(r"ring = (\d+) in \[halves\]", note.remedy)
    plan = plan_of(("ring = 3", f"ring = {ring[1]}"))
    assert [tier.gauges.unguided for tier in plan.halves.tiers] == [None, None]
    assert not {"inside-unguided", "halves-unguided"} & {one.code for one in plan.notes}


def test_a_wide_mouth_is_offered_no_halves():
    wide = plan_of(
        (HALVES, ""), ("[95, 84]", "[95, 124]"), ("[120, 54]", "[120, 130]"), ("[150, 56]", "[150, 140]")
    )
    assert "inside-unguided" not in {one.code for one in wide.notes}


def test_the_halves_meet_at_the_rings_upper_face():
    """Rings 20 mm high, from the allowance of 3 mm under the foot up: ring 3 ends at 57 mm."""
    halves = example().halves
    assert halves.joints[0].height == pytest.approx(3 * 20 - 3)
    lower, upper = halves.tiers
    assert lower.section.mouth_radius == pytest.approx(upper.section.mouth_radius, abs=1e-9)
    assert [layer.number for layer in lower.stack.layers] == [1, 2, 3]
    assert [layer.number for layer in upper.stack.layers] == [8, 7, 6, 5, 4]
    assert upper.stack.layers[0].ring.bottom == pytest.approx(0)
    assert upper.stack.top == pytest.approx(5 * 20)


def test_the_gauges_of_either_half_reach_its_floor_from_the_joint():
    for tier in example().halves.tiers:
        offset = example().job.gauges.stages[0] + example().job.gauges.fit
        assert tier.gauges.reach.low <= tier.section.inner.bottom + offset + 1.0


def test_the_ring_leaves_the_glue_face_and_lies_behind_the_inside():
    plan = example()
    ring, section, joint = plan.halves.joints[0].centring, plan.section, plan.halves.joints[0].height
    heights = [joint + ring.depth * k / 20 for k in range(-20, 21)]
    assert min(section.outer.radius_at(z) for z in heights) - ring.rebate >= plan.job.rings.least_glue - 1e-6
    assert ring.inner > max(section.inner.radius_at(z) for z in heights)
    assert ring.thickness < 2 * ring.depth
    assert ring.outer < ring.rebate


def test_a_push_at_the_open_end_of_either_half_is_stood_with_a_safety():
    """The upper half's ring at the waste block: a tube of its apothem and the finished neck, 30 N at the far end, and
    the rings as glued, of known woods at 900 kg/m3, that hang beyond it."""
    upper = example().halves.tier("upper")
    first, arm = upper.stack.layers[0].ring, upper.load.under
    outer, inner = first.outer, upper.section.wall_at(upper.section.height - arm)[0]
    z, hangs = upper.section.height - arm, 0.0
    for layer in upper.stack.layers:
        beyond = min(1.0, max(0.0, layer.ring.top - z) / layer.ring.height)
        middle = layer.ring.top - beyond * layer.ring.height / 2
        hangs += layer.wood * 900e-9 * 9.81 * beyond * (middle - z)
    assert 0.05 < hangs / (30 * arm) < 0.15
    bent = (30 * arm + hangs) * outer / (pi / 4 * (outer**4 - inner**4))
    assert upper.load.share * ALLOWED == pytest.approx(bent)


def test_a_joint_that_just_fails_is_not_called_whole():
    plan = example()
    joint = replace(plan.halves.joints[0], closed=1.002)
    (found,) = halves_findings(plan.job, plan.stack, replace(plan.halves, joints=(joint,)))
    assert "takes only 99 % of the push" in found.message


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ([("ring = 3", "ring = 9")], "halves-ring"),
        ([("thickness = 8", "thickness = 5.5")], "halves-wall"),
        ([("species = [", "gap = 4\nspecies = [")], "halves-open"),
    ],
)
def test_what_cannot_be_built_in_halves_is_refused_there(changes, code):
    with pytest.raises(Refused) as caught:
        plan_of(*changes)
    assert code in {found.code for found in caught.value.findings}


def test_the_first_offer_for_another_ring_passes(tmp_path):
    file = tmp_path / "gourd.toml"
    shutil.copy(CONFIGS / "shed.toml", tmp_path)
    file.write_text(TEXT.replace("ring = 3", "ring = 9"), "utf-8")
    source = toml_source.read(file)
    lines = remedy_lines(next(iter(remedies(source, file, most=1) or ())), source)
    file.write_text(pasted(file.read_text("utf-8"), lines), "utf-8")
    assert solve(load(file)).halves.joints[0].ring < 9


def test_each_half_is_hollowed_and_finished_inside_before_they_are_joined_and_the_outside_is_turned_after():
    order = [
        "waste_block.ring-1",
        "lower_stack.rings",
        "lower_inside.face",
        "lower_inside.finished",
        "lower_inside.rebate",
        "lower_inside.finish",
        "upper_waste_block.ring-1",
        "upper_stack.rings",
        "upper_inside.finished",
        "upper_inside.finish",
        "halves.ring",
        "halves.glue",
        "outside.round",
        "outside.part",
        "outside.rim",
        "inside.mouth",
        "inside.sand",
        "reversing.held",
    ]
    assert [id for id in ids() if id in order] == order
    assert "stack.rings" not in ids()
    assert "inside.finished" not in ids()


@pytest.fixture(scope="module")
def made_set(set_of):
    return set_of("gourd")[1]


def checks_of(folder):
    job = load(CONFIGS / "gourd.toml")
    return halves_checks(work_of(job), Files.of(job, folder), rings_of(work_of(job)))


def test_the_written_gauges_fit_their_halves(made_set):
    found = checks_of(made_set)
    assert len(found) > 50
    assert [check for check in found if not check.fits] == []


@pytest.mark.parametrize(
    ("part", "x"), [("joint-gauge", 1.01), ("upper-inside-gauge-finished", 1.01), ("joint-stick-2", 0.995)]
)
def test_a_gauge_that_is_out_is_found(made_set, tmp_path, part, x):
    shutil.copytree(made_set, tmp_path / "gourd")
    (one,) = [one for one in made()[0] if one.name == part]
    rows = one.outline.vertices.copy()
    rows[:, 0] *= x
    wrong = replace(one, outline=type(one.outline)(rows), marks=(), words=(), holes=(), bevel=None)
    (file,) = [
        *(tmp_path / "gourd").glob(f"cut/*{part}.dxf"),
        *(tmp_path / "gourd").glob(f"print/*{part}.stl"),
    ]
    (write_dxf if file.suffix == ".dxf" else write_stl)(wrong, file)
    assert [check for check in checks_of(tmp_path / "gourd") if not check.fits]


@pytest.mark.parametrize("turn", ["0.25", "[1, -0.5]", "-0.75"])
def test_the_ticks_of_rings_glued_upside_down_are_those_of_the_vessel_turned_about(turn):
    """By points in space: the middles of segments of both rings, turned half round about a level axis."""
    plan = plan_of(("species = [", f"turn = {turn}\nspecies = ["))
    told = {
        setting.id: (one.id, setting)
        for one in work(plan, made()[0]).operations
        for setting in one.settings
        if setting.id.startswith(("tick.", "turn.")) and not one.id.startswith("halves.")
    }
    layers = {layer.number: layer for layer in plan.stack.layers}
    above = [number for number in layers if number > plan.halves.joints[0].ring]
    assert len(above) >= 3
    for number in above[:-1]:
        own, base = layers[number], layers[number + 1]
        pitch = 2 * np.pi / base.ring.segments
        tick = np.array([np.cos(own.turned), -np.sin(own.turned)])  # y and z change their signs
        middles = base.turned + pitch * np.arange(base.ring.segments)
        places = np.column_stack((np.cos(middles), -np.sin(middles)))
        _, setting = told[f"tick.{number}"]
        beside = re.search(r"segment (\d+) of ring", setting.label)
        nearest, off = (int(beside[1]), setting.value) if beside else (setting.value, 0.0)
        nearest -= 1
        assert (places @ tick).max() == pytest.approx(places[nearest] @ tick)
        across = (
            places[nearest][0] * tick[1] - places[nearest][1] * tick[0]
        )  # sine, + is to the right from outside
        sine = across if "right of" in setting.label else -across
        assert off == pytest.approx(base.ring.outer * sine / (places[nearest] @ tick), abs=1e-6)
        turned = np.arctan2(
            *(np.array([[places[0][0], places[0][1]], [-places[0][1], places[0][0]]]) @ tick)[::-1]
        )
        _, angle = told[f"turn.{number}"]
        way = -1 if " clockwise" in angle.label else 1
        assert np.cos(way * angle.value - turned) == pytest.approx(1)


def test_where_the_halves_meet_the_upper_ones_tick_stands_over_the_lower_one():
    plan = plan_of(("species = [", "turn = 0.25\nspecies = ["))
    glue = next(one for one in work(plan, made()[0]).operations if one.id == "halves.glue")
    k = plan.halves.joints[0].ring
    assert {f"tick.{k + 1}", f"turn.{k + 1}"} <= {setting.id for setting in glue.settings}
    assert any(f"the tick of ring {k + 1} stands over its mark on ring {k}" in line for line in glue.how)


def test_rings_of_the_upper_half_are_glued_with_their_arrows_down_and_its_block_is_held_as_it_comes_off():
    done = {one.id: one for one in made()[1]}
    for half, way, other in (("lower", "arrow up", "arrow down"), ("upper", "arrow down", "arrow up")):
        told = [" ".join(one.how) for id, one in done.items() if id.startswith(f"{half}_stack.rings")]
        assert told
        assert all(way in how and other not in how for how in told)
    assert "lathe.saw-off" in done["outside.part"].cautions


def staved(ring):
    """Staves from ring 3 on, 40 mm high, in a gourd of 20 mm rings."""
    return plan_of(
        ("[rings]", '[staves]\nlow = 57\nhigh = 97\ncount = 8\nspecies = ["cherry"]\n[rings]'),
        ("ring = 3", f"ring = {ring}"),
        ('species = ["cherry", "maple"]', 'species = "cherry"'),
    )


def test_staves_stand_upside_down_in_the_upper_part_as_they_lean_in_the_whole():
    plan = staved(2)
    whole, (lower, upper) = plan.stack.staves, plan.halves.tiers
    assert lower.stack.staves is None
    own, foot = upper.stack.staves, upper.section.height + plan.halves.joints[0].height
    for share in (0.0, 0.3, 1.0):
        z = whole.low + share * whole.height
        assert own.outer_at(foot - z) == pytest.approx(whole.outer_at(z))
        assert own.inner_at(foot - z) == pytest.approx(whole.inner_at(z))
    (layer,) = [layer for layer in upper.stack.layers if layer.kind == "staves"]
    assert (layer.ring.bottom, layer.ring.top) == pytest.approx((own.low, own.high))
    told = next(one for one in work(plan, parts_of(plan)).operations if one.id == "upper_stack.rings")
    assert 4 in told.rings


@pytest.mark.parametrize("ring", [3, 4])
def test_no_part_ends_where_staves_do(ring):
    with pytest.raises(Refused) as caught:
        staved(ring)
    assert "halves-staves" in {found.code for found in caught.value.findings}


def test_warnings_stand_above_notes():
    plan = plan_of(('"cherry"', '"ebony"'))
    warned = Finding("odd", "something is odd", severity="warning")
    told = [note.severity for note in work(plan, made()[0], [warned]).notes]
    assert told == sorted(told, key=["warning", "note"].index)
    assert {"warning", "note"} == {*told}


def test_no_gauge_goes_through_the_mouth_where_those_of_the_parts_leave_nothing():
    parts, done = made()
    assert example().halves.tiers[-1].bore is None
    assert any(one.name.startswith("upper-inside-gauge") for one in parts)
    assert not any(one.name.startswith("inside-gauge") for one in parts)
    step = next(one for one in done if one.id == "inside.mouth")
    assert not any("Gauges that pass" in line for line in step.how)
    assert any(use.part.startswith("mouth-stick") for use in step.jigs)


def test_a_rebate_in_a_vessel_of_parts_is_told_with_its_depth():
    plan = plan_of(("[rings]", "[rebate]\nwidth = 2.5\ndepth = 5\n\n[rings]"))
    step = mouth(plan, Rack([]))
    assert step.setting("rebate.deep").value == pytest.approx(5 - plan.gauges.stages[-1].offset)
    assert any("rebate's depth" in line for line in step.how)
    assert not any(one.id == "rebate.deep" for one in mouth(example(), Rack([])).settings)


def test_a_part_with_a_neck_that_lets_in_no_tool_is_refused_and_a_thinner_wall_passes():
    """The upper half is hollowed from its joint, through a second waist 8 mm across inside."""
    text = (
        'title = "Beads"\n[profile]\nedges = [[0, 70], [30, 100], [60, 40], [90, 90], [120, 24], [150, 70], '
        "[170, 80]]\n[wall]\nthickness = {}\n[halves]\nring = 4\n"
        '[rings]\nheights = 15\nsegments = 12\nspecies = "cherry"\n'
    )
    with pytest.raises(Refused) as caught:
        solve(parse(text.format(8), "beads.toml"))
    (found,) = caught.value.findings
    assert found.code == "halves-neck"
    assert "the upper part is 8.0 mm across inside" in found.message
    assert "halves-unguided" in {one.code for one in solve(parse(text.format(7), "beads.toml")).notes}
