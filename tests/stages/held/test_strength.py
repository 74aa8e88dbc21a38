"""What woods stand across and along their grain, and what of a job follows from it."""

from dataclasses import replace

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.held.strength import (
    ALLOWED,
    ALLOWED_ALONG,
    ALLOWED_MITRE,
    SAFETY,
    allowed_across,
    allowed_along,
)
from jigs.stages.holding_by_mouth.solve.statics import hoop_allowed, most_push
from jigs.stages.mountings.solve.mountings import with_statics
from jigs.stages.solids.slim import slimmest, waste_across
from jigs.words.findings import Refused
from tests.examples import CONFIGS, plan_of_example
from tests.jigs.remedies.pasted import pasted
from tests.jigs.remedies.test_remedies import offered
from tests.jigs.vessel.held import blank_of, held
from tests.jigs.vessel.jobs import planned
from tests.jigs.vessel.test_stems import goblet

CEDAR = 1.5 / 2.4  # of the usual woods
CEDAR_ALONG = 45 / 60


def of_cedar(layers, number=None):
    woods = ("maple", "western redcedar")
    return tuple(replace(one, species=woods) if number in (None, one.number) else one for one in layers)


@pytest.mark.parametrize(
    ("woods", "stands"),
    [(["white pine"], 2.0), (["Douglas-fir", "oak"], 2.3), (["maple", "redcedar"], 1.5), (["balsam fir"], 1.2),
     (["pineapple wood"], 2.4), (["larch", "wenge"], 2.4), (["balsa"], 0.8), (["Yellow-poplar"], 2.4), ([], 2.4)],
)  # fmt: skip
def test_the_weakest_wood_counts_with_the_same_safety(woods, stands):
    assert allowed_across(woods) == pytest.approx(stands / SAFETY)


@pytest.mark.parametrize(
    ("woods", "stands"),
    [
        (["maple", "redcedar"], 45.0),
        (["white pine"], 57.0),
        (["spruce"], 60.0),
        (["kiri"], 37.0),
        (["wenge"], 60.0),
    ],
)
def test_each_wood_has_its_own_strength_along_its_grain(woods, stands):
    assert allowed_along(woods) == pytest.approx(stands / SAFETY)


def test_walls_and_stems_of_cedar_take_less_across_the_grain_and_the_waste_block_is_wider():
    plan = planned("vase")
    usual, weak = (
        slimmest(plan.job, plan.section, all_) for all_ in (plan.stack.layers, of_cedar(plan.stack.layers))
    )
    assert usual.allowed == ALLOWED
    assert weak.allowed == pytest.approx(CEDAR * ALLOWED)
    lowest = plan.stack.layers[0]
    narrow, wide = (
        waste_across(plan.job, plan.section, one, plan.stack.layers)[0]
        for one in (lowest, *of_cedar([lowest]))
    )
    assert wide**3 == pytest.approx(narrow**3 / CEDAR)


def test_end_grain_glued_to_a_ring_of_cedar_takes_less():
    """The joint of rings 2 and 3, both upright, is the weak place of this stem."""
    asked = goblet(heights="[13, 57, 33, 16]", more="upright = [2, 3]")
    section, stack = blank_of(asked)
    for number in (2, 3):
        weak = slimmest(asked, section, of_cedar(stack.layers, number))
        assert {weak.ring, weak.joint} == {2, 3}
        assert weak.allowed == pytest.approx(CEDAR * ALLOWED)


def test_staves_and_upright_stems_of_cedar_take_less_along_the_grain():
    plan = planned("staved")
    usual, weak = (
        next(one.stands_along(plan.job) for one in layers if one.kind == "staves")
        for layers in (plan.stack.layers, of_cedar(plan.stack.layers))
    )
    assert usual == ALLOWED_ALONG
    assert weak == pytest.approx(CEDAR_ALONG * ALLOWED_ALONG)


def test_an_upright_piece_of_cedar_takes_less_along_the_grain():
    asked = goblet(heights="[13, 90, 16]", more="upright = [2]")
    section, stack = blank_of(asked)
    (stem,) = [one for one in stack.layers if one.number == 2]
    whole = replace(stem.ring, bottom=-1.0, height=section.height + 2.0)
    layers = [replace(stem, upright=True, ring=whole)]
    usual, weak = (slimmest(asked, section, all_) for all_ in (layers, of_cedar(layers)))
    assert usual.allowed == ALLOWED_ALONG
    assert weak.allowed == pytest.approx(CEDAR_ALONG * ALLOWED_ALONG)


def test_mitres_of_cedar_round_a_plug_take_less():
    plan = held("vase", "taper")
    plug, layers = plan.reversing.plug, plan.stack.layers
    usual, weak = (hoop_allowed(plan.job, all_, plug) for all_ in (layers, of_cedar(layers)))
    assert usual == ALLOWED_MITRE
    assert weak == pytest.approx(CEDAR_ALONG * ALLOWED_MITRE)


def test_a_plug_may_press_a_mouth_of_cedar_less():
    closed, plan = held("vase", "taper").reversing.plug, held("open", "taper")
    layers = plan.stack.layers
    usual, weak, under = (
        most_push(plan.job, plan.section, all_, closed)
        for all_ in (layers, of_cedar(layers), of_cedar(layers, layers[-2].number))
    )
    assert weak == under == pytest.approx(CEDAR * usual)
    solid = [replace(one, kind="disc") for one in layers]
    assert hoop_allowed(plan.job, of_cedar(solid), closed) == pytest.approx(CEDAR * ALLOWED)


def test_a_torus_with_strips_of_cedar_is_glued_and_pressed_less():
    plan = plan_of_example("quoit")
    form = replace(plan.job.form, ring_spacer=1.0, spacer_species="cedar")
    usual, weak = (
        with_statics(job, plan.blank, plan.holding, plan.mountings, 20.0, 20.0)
        for job in (plan.job, replace(plan.job, form=form))
    )
    glue = [found.held[0].strength for found in (usual, weak)]
    assert glue[1] == pytest.approx(CEDAR * glue[0], rel=0.01)
    for one, less in zip(usual.drawn, weak.drawn, strict=True):
        assert less.pull == one.pull
        assert less.most_pull == pytest.approx(
            one.most_pull * (1.0 if one.mounting == "C" else CEDAR), abs=10
        )


def test_a_torus_of_a_wood_too_weak_for_its_bolt_is_offered_a_stronger_one():
    text = (CONFIGS / "annulet.toml").read_text().replace('"walnut"', '"balsam fir"')
    text = text.replace('workshop_file = "shed"\n', "")
    with pytest.raises(Refused, match="the joints of the torus take 690 N"):
        solve(parse(text, "annulet.toml"))
    first = offered(text, most=1)[0]
    assert [line for line in first if "=" in line] == [
        'species = "maple"  # in place of line 13, "balsam fir"'
    ]
    solve(parse(pasted(text, first), "annulet.toml"))
