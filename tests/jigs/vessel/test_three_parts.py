"""A vessel with a waist and a neck, built in three parts: its gauges, rings, order of work and dry fit."""

import shutil
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from jigs.asked.jobfile import parse
from jigs.dryfit.files import Files
from jigs.dryfit.vessel.glued import halves_checks
from jigs.dryfit.vessel.rings import rings_of
from jigs.dryfit.vessel.work import work_of
from jigs.files.dxf import write_dxf
from jigs.files.stl import write_stl
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from jigs.words.lengths import show_length
from tests.conftest import CONFIGS
from tests.examples import plan_of_example
from tests.jigs.test_codes import assert_told_apart

HALVES = "\n[halves]\nring = [3, 8]\n"
STATIONS = ((0, 70), (45, 120), (90, 56), (130, 100), (165, 58), (195, 61))
OPENINGS = (45.0, 125.0)  # rings 16 mm high from 3 mm under the foot: 3 · 16 - 3 and 8 · 16 - 3


def text_of(halves=HALVES):
    stations = ", ".join(f"[{z}, {d}]" for z, d in STATIONS)
    return (
        'title = "Double gourd"\nworkshop_file = "shed"\n'
        f"[profile]\nstations = [{stations}]\n[wall]\nthickness = 8\nfloor = 9\n"
        '[rings]\nheights = 16\nsegments = 12\nspecies = ["cherry", "maple"]\n' + halves
    )


@cache
def plan_of(halves=HALVES):
    return solve(parse(text_of(halves), CONFIGS / "three.toml"))


def example():
    return plan_of()


@cache
def made():
    parts = parts_of(example())
    return parts, work(example(), parts)


def inner_points():
    """On the finished inside, close together, from over the floor's corner up: (m, 2)."""
    inner = example().section.inner
    heights = np.arange(inner.bottom + 8.0, example().section.height, 0.02)
    return np.column_stack((np.array([inner.radius_at(z) for z in heights.tolist()]), heights))


def test_two_bellies_over_one_another_are_offered_a_joint_at_each():
    (note,) = [one for one in plan_of("").notes if one.code == "inside-unguided"]
    assert "ring = [3, 8] in [halves]" in note.remedy
    (one,) = [one for one in plan_of("\n[halves]\nring = 3\n").notes if one.code == "halves-unguided"]
    assert "ring = [3, 8] in [halves]" in one.remedy
    assert not {"inside-unguided", "halves-unguided"} & {one.code for one in example().notes}


def test_each_part_stands_on_its_block_with_the_joint_up():
    halves, top = example().halves, 13 * 16 - 3
    assert [joint.height for joint in halves.joints] == pytest.approx(OPENINGS)
    assert [[layer.number for layer in tier.stack.layers] for tier in halves.tiers] == [
        [1, 2, 3],
        [8, 7, 6, 5, 4],
        [13, 12, 11, 10, 9],
    ]
    # The faceplate lies a block under the ring; over the second part's there is nothing, so it is glued at its joint.
    for tier, wide in zip(halves.tiers, (45 + 3, 125 - 45, top - 125), strict=True):
        assert tier.section.height - tier.gauges.faceplate == pytest.approx(wide + 18)


@pytest.mark.parametrize("k", [0, 1, 2])
def test_each_part_s_finished_gauge_keeps_its_distance_from_the_whole_inside(k):
    """Brute force on the whole vessel's inside; upside down, heights are counted down from the waste block's waste."""
    own, job = example().halves.tiers[k], example().job
    rows, ends = (
        own.gauges.stages[-1].inside.vertices[:, :2],
        (own.section.inner.bottom + 10, own.section.height - 3),
    )
    kept = rows[(rows[:, 1] > ends[0]) & (rows[:, 1] < ends[1])]
    if k:
        kept = np.column_stack((kept[:, 0], (125 + 1.0, 13 * 16 - 3.0)[k - 1] - kept[:, 1]))
    away = np.min(np.hypot(*(kept[:, None, :] - inner_points()[None, :, :]).transpose(2, 0, 1)), axis=1)
    assert len(kept) > 2
    assert away == pytest.approx(np.full(len(kept), job.gauges.stages[-1] + job.gauges.fit), abs=0.02)


def test_each_ring_lies_behind_the_inside_and_leaves_the_glue_face():
    section, least = example().section, example().job.rings.least_glue
    for joint in example().halves.joints:
        ring, heights = joint.centring, np.linspace(-1, 1, 41) * joint.centring.depth + joint.height
        radii = [(section.inner.radius_at(z), section.outer.radius_at(z)) for z in heights.tolist()]
        assert min(outer for _, outer in radii) - ring.rebate >= least - 1e-6
        assert ring.inner > max(inner for inner, _ in radii)
        assert ring.thickness < 2 * ring.depth
        assert 0 < ring.rebate - ring.outer < 0.3


@pytest.mark.parametrize("rings", ["[8, 3]", "[3, 3]", "[2, 3, 4, 5, 6]"])
def test_rings_that_cannot_all_end_a_part_are_refused_as_they_are_read(rings):
    with pytest.raises(Refused) as caught:
        parse(text_of(f"\n[halves]\nring = {rings}\n"), CONFIGS / "three.toml")
    assert {found.key for found in caught.value.findings} == {"halves.ring"}


def test_each_part_is_hollowed_before_it_is_glued_on_and_the_joint_over_it_opened_before_the_next():
    order = [
        "lower_inside.rebate",
        "lower_inside.finish",
        "second_waste_block.ring-1",
        "second_stack.rings",
        "second_inside.face",
        "second_inside.finished",
        "second_inside.rebate",
        "second_inside.finish",
        "second_halves.ring",
        "second_halves.glue",
        "second_halves.part",
        "second_halves.face",
        "second_halves.rebate",
        "upper_waste_block.ring-1",
        "upper_inside.finished",
        "upper_inside.rebate",
        "halves.ring",
        "halves.glue",
        "outside.round",
        "outside.part",
        "inside.mouth",
        "reversing.held",
    ]
    ids = [one.id for one in made()[1].operations]
    assert [id for id in ids if id in order] == order


def test_no_tailstock_is_at_the_rim_whose_waste_block_was_sawn_off():
    told = {one.id: " ".join(one.how) for one in made()[1].operations}
    assert "draw the tailstock back" in told["outside.part"]
    assert "The tailstock is away" in told["outside.rim"]


def test_a_centring_ring_is_turned_while_two_faceplates_are_under_the_parts():
    told = {one.id: " ".join(one.how) for one in made()[1].operations}
    for of, name in (("second_halves", "second"), ("halves", "upper")):
        assert f"take a third, or that of the {name} part" in told[f"{of}.ring"]
        assert f"the {name} part's without its faceplate" in told[f"{of}.glue"]


def test_no_two_of_its_jigs_are_lettered_alike():
    assert_told_apart(rack(example())[0])


def test_a_rebate_s_gauge_is_its_joint_s():
    done = {one.id: one for one in made()[1].operations}
    for id, gauge in (
        ("lower_inside.rebate", "joint-gauge-1"),
        ("second_inside.rebate", "joint-gauge-1"),
        ("second_halves.rebate", "joint-gauge-2"),
        ("upper_inside.rebate", "joint-gauge-2"),
    ):
        assert [use.part for use in done[id].jigs] == [gauge]
        across = 2 * example().halves.joints[int(gauge[-1]) - 1].centring.rebate
        assert done[id].setting("across").value == pytest.approx(across)
    assert done["second_halves.part"].cautions[0] == "lathe.saw-off"
    assert done["second_halves.face"].setting("over").value == pytest.approx(125 + 3 + 18)


def test_both_parts_of_a_joint_are_hollowed_to_the_opening_that_its_stick_has():
    done = {one.id: one for one in made()[1].operations}
    for stage in ("stage-1", "stage-2", "finished"):
        lower, second = (done[f"{tier}_inside.{stage}"] for tier in ("lower", "second"))
        assert lower.setting("mouth").value == second.setting("mouth").value
        assert [use.part for use in lower.jigs if "stick" in use.part] == [
            use.part for use in second.jigs if "stick" in use.part
        ]


def checks_in(folder):
    job = example().asked
    return halves_checks(work_of(job), Files.of(job, folder), rings_of(work_of(job)))


def write(folder, part):
    kind, writer = ("print", write_stl) if part.process == "print" else ("cut", write_dxf)
    (folder / kind).mkdir(exist_ok=True)
    writer(part, folder / kind / f"three_{part.name}.{'stl' if kind == 'print' else 'dxf'}")


def own_parts():
    heads = ("joint-stick", "joint-gauge")
    return [part for part in made()[0] if part.name.startswith(heads) or "-inside-" in part.name]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    base = tmp_path_factory.mktemp("three")
    for part in own_parts():
        write(base, part)
    return base


def test_the_written_gauges_fit_their_parts(folder):
    found = checks_in(folder)
    assert len(found) > 90
    assert [check for check in found if not check.fits] == []


@pytest.mark.parametrize(
    ("name", "x"),
    [("joint-gauge-2", 1.01), ("middle-inside-gauge-2-finished", 1.01), ("joint-stick-2-2", 0.995)],
)
def test_a_gauge_of_the_second_part_or_joint_that_is_out_is_found(folder, tmp_path, name, x):
    shutil.copytree(folder, tmp_path, dirs_exist_ok=True)
    (one,) = [part for part in own_parts() if part.name == name]
    rows = one.outline.vertices.copy()
    rows[:, 0] *= x
    write(tmp_path, replace(one, outline=type(one.outline)(rows), marks=(), words=(), holes=(), bevel=None))
    assert {check.where for check in checks_in(tmp_path) if not check.fits} == {name}


def test_a_block_under_an_open_end_is_no_slimmer_than_the_neck_that_is_sawn_there():
    done = {one.id: one for one in made()[1].operations}
    for tier, step, hole in zip(
        example().halves.tiers[1:],
        ("second_halves.part", "outside.part"),
        (2 * example().section.inner.radius_at(OPENINGS[1]), 2 * example().section.mouth_radius),
        strict=True,
    ):
        neck = next(one.value for one in done[step].settings if one.id == "leave")
        assert neck == pytest.approx(hole + 2 * 3.0)
        assert tier.waste.least >= neck - 0.01
        assert tier.waste.least <= 2 * tier.stack.layers[0].ring.outer


def test_what_an_upper_part_leaves_to_the_mouths_gauges_is_bored_narrower_than_its_wall():
    slim = text_of().replace("[165, 58], [195, 61]]", "[165, 58], [190, 76], [215, 46], [240, 50]]")
    plan = solve(parse(slim + '[reversing]\nhold = "none"\n', CONFIGS / "slim.toml"))
    (deep, wide), joint = plan.halves.tiers[-1].bore, plan.halves.joints[-1].height
    rest = [plan.section.inner.radius_at(z) for z in np.arange(joint + deep, plan.section.height, 0.1)]
    assert plan.section.height - joint - deep > 0
    assert wide / 2 <= min(rest) - plan.gauges.stages[0].offset + 0.01
    own = [one for one in work(plan, parts_of(plan)).operations if one.id.startswith("upper_inside.stage")]
    assert own
    assert all(any(f"{show_length(deep, 'mm')} under the joint" in line for line in one.how) for one in own)


def test_gauges_through_the_mouth_go_no_deeper_than_what_the_upper_part_leaves_and_a_little():
    slim = text_of().replace("[165, 58], [195, 61]]", "[165, 58], [190, 76], [215, 46], [240, 50]]")
    plan = solve(parse(slim + '[reversing]\nhold = "none"\n', CONFIGS / "slim.toml"))
    left = plan.halves.joints[-1].height + plan.halves.tiers[-1].bore[0]
    gauges = [one for one in parts_of(plan) if one.name.startswith("inside-gauge-")]
    assert [one.name.removeprefix("inside-gauge-") for one in gauges] == [
        one.name for one in plan.gauges.stages if one.inside
    ]
    assert gauges
    for one in gauges:
        assert one.outline.bounds[1] == pytest.approx(left - 10.0, abs=0.01)
    step = next(one for one in work(plan, parts_of(plan)).operations if one.id == "inside.mouth")
    assert {one.name for one in gauges} <= {use.part for use in step.jigs}


def test_where_no_gauge_reaches_a_part_its_widths_are_listed_by_depth():
    """Its outside is not turned yet, so that a wall calliper would measure flats."""
    plan = plan_of("\n[halves]\nring = 3\n")
    (tier,) = [one for one in plan.halves.tiers if one.gauges.unguided]
    done = [one for one in work(plan, made()[0]).operations if one.id.startswith(f"{tier.name}_inside.")]
    last = next(one for one in done if one.id.endswith(".finished"))
    assert any("inside callipers" in line for line in last.how)
    assert not any("wall calliper from" in line for one in done for line in one.how)
    deep = [last.setting(f"blind.{end}").value for end in ("from", "to")]
    assert 0.0 < deep[0] < deep[1] < tier.section.height
    widths = [one for one in last.settings if one.id.startswith("blind.across")]
    assert len(widths) == 5
    for one in widths:
        under = float(one.label.split(", ")[-1].split()[0])
        assert deep[0] - 0.5 <= under <= deep[1]
        over_foot = tier.joint.height + under  # it hangs upside down from its joint
        finished = plan.section.inner.radius_at(over_foot)
        assert finished - 0.75 < one.value / 2 < finished - 0.2  # 0.25 left, square to the side


def test_the_speeds_of_the_table_are_of_the_parts_once_joined():
    """A part turned apart may spin faster: its step says so."""
    _, done = made()
    table = next(table for table in done.tables if table.id == "lathe")
    rows = {cell.id: cell for _, cell in table.rows}
    joined_last = example().halves.joints[-1].speed
    assert (rows["slow"].value, rows["fast"].value) == joined_last
    assert all("once joined" in rows[id].label for id in ("slow", "fast"))


def test_the_lathe_is_as_long_as_the_parts_between_their_waste_blocks():
    """13 rings of 16 mm between two blocks of 18; a vessel on its plug stands out as far as its flange's back."""
    plan = example()
    assert plan.least_length == 18 + 13 * 16 + 18 + 17.6  # and a board over the rim
    pot = plan_of_example("acorn")
    assert pot.least_length == max(pot.reversing.plug.back, 18 + pot.stack.top - pot.stack.bottom + 17.6)
    assert pot.reversing.plug.back > pot.section.height
