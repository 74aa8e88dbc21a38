"""Rings that close over the middle, and the plug in theirs."""

from functools import cache
from math import pi

import pytest

from jigs.asked.jobfile import load, parse
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.words.findings import Refused
from jigs.words.lengths import parse_length
from tests.unset import jigs_made
from tests.work.reading import work_for

BOWL = """title = "Bowl"
[profile]
stations = [[0, 160], [20, 230], [60, 310], [95, 350]]
[wall]
thickness = 8
floor = {floor}
[rings]
heights = [{first}, 20]
segments = 24
species = "ash"
{more}
[lathe]
swing_over_bed = 600
"""


SOLID = 'base = "solid"\n'


def bowl(floor=14.8, first=20, more=""):
    return parse(BOWL.format(floor=floor, first=first, more=more), "bowl.toml")


@cache
def plan_of(**asked):
    return solve(bowl(**asked))


def notes(plan, code):
    return [note for note in plan.notes if note.code == code]


def length_after(words, text):
    return parse_length(text.split(words)[1].split(" mm")[0] + " mm", "mm")


def test_a_ring_closed_by_a_hair_is_told_and_both_ways_out_open_it():
    plan = plan_of(more=SOLID)
    (told,) = notes(plan, "closed-by-allowance")
    assert "ring 2 is a solid disc" in told.message
    assert plan.stack.layers[1].kind == "disc"
    over = 14.8 + plan.stack.allowance - plan.stack.layers[1].ring.bottom
    assert f"{over:.1f} mm" in told.message
    higher = plan_of(first=length_after("at least ", told.remedy), more=SOLID)
    thinner = plan_of(floor=length_after("at most ", told.remedy), more=SOLID)
    for mended in (higher, thinner):
        assert not notes(mended, "closed-by-allowance")
        assert mended.stack.layers[1].kind == "segments"
        assert mended.stack.layers[1].ring.core > 0


def test_a_thick_floor_that_was_meant_is_not_told():
    assert not notes(plan_of(floor=28), "closed-by-allowance")


def test_points_in_the_middle_are_told_with_a_plug_that_spares_them():
    (told,) = notes(plan_of(more='base = "segmented"\ncore_plug = 0'), "points")
    plug = length_after("core_plug of at least ", told.remedy)
    mended = plan_of(more=f'base = "segmented"\ncore_plug = {plug}')
    assert not notes(mended, "points")
    for layer in mended.stack.layers[:2]:
        assert layer.cut.inner_edge >= 3.0
        # The hole is bored past every corner of the opening, so that it is round all round.
        corner = layer.ring.core_radius
        assert 0.5 <= layer.plug / 2 - corner <= 1.5


def test_the_plug_stands_in_the_cut_list_the_steps_and_the_glue():
    plan = plan_of(more='base = "segmented"\ncore_plug = 30')
    (lot,) = (lot for lot in plan.wood.lots if lot.piece == "plug")
    assert (lot.count, lot.rings) == (2, (1, 2))
    assert lot.width > 30
    order = [one.stage for one in work_for(plan).operations]
    assert order.index("flat_rings") < order.index("plugs") < order.index("flattening") < order.index("stack")
    faces = [face for face in plan.wood.glue.faces if face.name == "core plugs"]
    assert sum(face.area for face in faces) == pytest.approx(2 * pi * 30 * 20)


def test_wood_is_the_same_with_a_plug_and_without():
    plain, plugged = (plan_of(more=f'base = "segmented"\ncore_plug = {d}') for d in (0, 30))
    assert plugged.stack.wood == pytest.approx(plain.stack.wood)
    weights = plugged.wood.finish.weights
    assert sum(one.blank for one in weights) == pytest.approx(plain.stack.wood)
    assert [j.rough for j in plugged.stack.joints] == pytest.approx([j.rough for j in plain.stack.joints])


@pytest.mark.parametrize(("plug", "words"), [(20, "end in points"), (75, "only")])
def test_a_plug_that_leaves_no_end_or_no_depth_is_refused(plug, words):
    small = bowl(more=f'base = "segmented"\ncore_plug = {plug}')
    if plug == 75:
        narrow = BOWL.replace("[[0, 160], [20, 230], [60, 310], [95, 350]]", "[[0, 60], [60, 70], [90, 90]]")
        small = parse(
            narrow.format(floor=10, first=20, more=f'base = "segmented"\ncore_plug = {plug}'), "bowl.toml"
        )
    with pytest.raises(Refused, match=words) as caught:
        solve(small)
    (found,) = caught.value.findings
    assert found.code == "core-plug"


def test_a_plug_without_segments_in_the_middle_is_told_to_have_no_effect():
    assert notes(plan_of(more=SOLID + "core_plug = 30"), "no-core")


def test_a_set_with_a_plug_passes_its_dry_fit(tmp_path):
    file = tmp_path / "bowl.toml"
    file.write_text(BOWL.format(floor=14.8, first=20, more='base = "segmented"\ncore_plug = 30'))
    job = load(file)
    found = dry_fit(job, jigs_made(job, tmp_path), sheets=False)
    assert found.checks
    assert not found.misfits + found.faults


def test_a_small_plugs_block_asks_for_jaws_that_close_to_it_or_is_turned_down():
    plan = plan_of(more='base = "segmented"\ncore_plug = 30')
    turn = next(one for one in work_for(plan).operations if one.id == "plugs.turn")
    assert turn.setting("jaws").value == plan.stack.layers[0].plug
    assert "do not close so far" in " ".join(turn.how)
