"""Sizes that leave nothing to sand off: no step then sands it off."""

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.plans.vessel import VesselPlan
from jigs.work.supplies import JOINTS, of_all
from tests.examples import CONFIGS, plan_of_example
from tests.jigs.vessel.jobs import planned
from tests.jigs.wood.whole_jobs import torus
from tests.work.reading import operation, work_for

BARE = torus("joint_sanding = 0\nface_sanding = 0", rings=12)


@pytest.mark.parametrize("plan", [BARE, planned("cup", more="joint_sanding = 0")], ids=["torus", "vessel"])
def test_ends_that_have_nothing_to_sand_off_are_glued_as_sawn(plan):
    ids = [one.id for one in work_for(plan).operations]
    assert not [id for id in ids if id.startswith(("rings.sand", "flat_rings.sand"))]
    assert [id for id in ids if id.startswith(("rings.lay-out", "flat_rings.lay-out"))]
    assert all(line.sanded == 0 for line in plan.wood.lines)
    ends = {faces.name for faces in plan.wood.glue.faces if not faces.sanded}
    assert ends == {"mitres"} if isinstance(plan, VesselPlan) else {"mitres", "wedge faces"}


def test_no_abrasive_is_bought_for_a_torus_whose_joints_have_nothing_to_sand_off():
    sheets = f"abrasive.{JOINTS}"
    assert sheets in [goods.id for goods in of_all(torus("", rings=12))]
    assert sheets not in [goods.id for goods in of_all(BARE)]


def test_pieces_of_a_layup_that_have_nothing_to_sand_off_are_glued_as_sawn():
    text = (CONFIGS / "trellis.toml").read_text().replace("[gauges]", "sanding = 0\n[gauges]", 1)
    bare = solve(parse(text, str(CONFIGS / "trellis.toml")))
    usual, found = (
        [one.id for one in work_for(plan).operations] for plan in (plan_of_example("trellis"), bare)
    )
    assert "layup.sand" in usual
    assert "layup.sand" not in found
    assert "layup.blocks" in found


def test_wedge_faces_that_have_nothing_to_sand_off_are_measured_only():
    faces = operation(work_for(BARE), "glue_up.faces")
    assert not faces.settings
    assert "abrasive" not in " ".join(faces.how)
    assert {reading.id for reading in faces.readings} == {"thick", "flats"}


@pytest.mark.parametrize(
    ("plan", "ids"),
    [
        (torus("flattening = 0", rings=12), ["rings.flatten"]),
        (planned("cup", more="flattening = 0"), ["flattening.faces", "solids.flatten"]),
    ],
    ids=["torus", "vessel"],
)
def test_rings_that_have_nothing_to_flatten_off_are_not_rubbed_down_to_a_height(plan: Plan, ids: list[str]):
    told = work_for(plan)
    for one in (operation(told, id) for id in ids):
        assert "down to" not in one.does
        assert "leave nothing for more" in one.does
        assert not [quantity for quantity in one.settings if quantity.id == "flattening"]
