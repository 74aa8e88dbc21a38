"""Blocks of a layup are held on the saw: sleds take them with their rails, the plan counts rails and their gluing."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.plans.plan import Plan
from jigs.stages.layup.check.jigs import layup_jig_findings
from jigs.stages.layup.layout.rail import WIDTH
from jigs.words.findings import Finding
from jigs.work.model import Work
from tests.examples import parts_of_example, plan_of_example
from tests.jigs.vessel.jobs import text as vessel_text
from tests.work.reading import rows, table, work_for

PLIED = """
[layup]
plies = [["maple", "4 mm"], ["walnut", "2 mm"]]
angle = 45
mirrored = "both"
"""


@cache
def solved(name: str) -> Plan:
    if name == "torus":
        return plan_of_example("trellis")
    return solve(parse(vessel_text("vase", more=PLIED + "rings = [3, 4]\n"), "vase.toml"))


@cache
def told_of(name: str) -> Work:
    return work_for(solved(name))


@pytest.mark.parametrize("name", ["torus", "vase"])
def test_every_block_has_a_place_on_a_rail_and_the_rails_are_a_step_of_the_work(name: str) -> None:
    plan = solved(name)
    for layup in plan.layups:
        (told,) = [
            one
            for one in told_of(name).operations
            if one.id.startswith("layup.rails") and one.rings == layup.rings
        ]
        assert told.setting("rails").value == layup.rail.rails
        assert layup.rail.blocks == layup.segments + layup.spare_segments
        (stage,) = [s for s in plan.wood.glue.stages if s.assembly == "rails" and s.rings == layup.rings]
        assert stage.count == layup.rail.blocks
        (faces,) = [f for f in plan.wood.glue.faces if "rails" in f.name and f.rings == layup.rings]
        assert faces.area == pytest.approx(layup.rail.blocks * layup.rail.block * layup.rail.thickness)


def test_the_torus_carrier_takes_a_block_with_its_rail_and_holds_all_of_the_strip() -> None:
    plan = solved("torus")
    carrier = plan.cutting.carrier
    assert carrier.width == plan.segment.length + WIDTH
    hold, end = carrier.strip_feet
    assert end - hold <= plan.layups[0].rail.held
    solid = replace(carrier, rail=0.0)
    assert carrier.pivot[1] == solid.pivot[1] + WIDTH
    assert (carrier.stop, carrier.blade_height) == (solid.stop, solid.blade_height)


def test_a_vessels_sled_takes_the_widest_of_blocks_with_rails_and_strips_without() -> None:
    plan = solved("vase")
    for sled in plan.saws.sleds:
        layers = [layer for layer in plan.stack.layers if layer.cut and layer.ring.segments == sled.segments]
        widths = [layer.cut.depth + (WIDTH if layer.number in (3, 4) else 0.0) for layer in layers]
        assert sled.layout.depth == max(widths)


def test_blocks_and_strips_are_sawn_in_operations_of_their_own() -> None:
    plan = solved("vase")
    cuts = [one for one in told_of("vase").operations if one.id.startswith("flat-segments.cut")]
    for cut in cuts:
        assert ("layup's rails" in cut.does) == bool(set(cut.rings) & {3, 4})
        assert set(cut.rings) <= {3, 4} or not set(cut.rings) & {3, 4}
    assert {ring for cut in cuts for ring in cut.rings} == {
        layer.number for layer in plan.stack.layers if layer.cut
    }


@pytest.mark.parametrize(("name", "base"), [("torus", "segment-base"), ("vase", "plan-angle-base-n12")])
def test_the_jig_says_that_blocks_lie_on_it_with_their_rail(name: str, base: str) -> None:
    (part,) = [part for part in parts_of(solved(name)) if part.name == base]
    assert any("with their rail" in note for note in part.notes)
    bare = parts_of_example("garland" if name == "torus" else "sorrel")
    (part,) = [part for part in bare if part.name == base]
    assert not any("rail" in note and "Blocks" in note for note in part.notes)


def test_a_block_with_too_little_glue_on_its_rail_is_refused_with_the_least_that_holds() -> None:
    plan = solved("torus")
    (layup,) = plan.layups

    def found(block: float) -> list[Finding]:
        small = replace(layup, rail=replace(layup.rail, block=block, thickness=12.0))
        told = layup_jig_findings(plan.job, [small], plan.layup_jigs)
        return [finding for finding in told if finding.code == "layup-block-small"]

    (finding,) = found(11.0)
    assert "11.0 mm × 12.0 mm" in finding.message
    least = float(finding.remedy.split("at least ")[1].split()[0])
    assert least == 12.5
    assert found(least) == []


def test_a_ring_of_layups_weighs_and_is_called_what_its_plies_are() -> None:
    plan = solved("vase")
    before = {weight.species: weight for weight in plan.wood.finish.weights}
    for name, volume, _ in plan.stack.weights:
        assert volume == pytest.approx(before[name].finished, rel=0.02)
    woods = {row["ring"]: row["woods"] for row in rows(table(told_of("vase"), "rings"))}
    assert (woods[3], woods[5]) == ("the layup", "maple")
