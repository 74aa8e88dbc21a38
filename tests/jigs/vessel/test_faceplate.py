"""A faceplate's screws hold the vessel while the tailstock is away."""

from __future__ import annotations

from geometry.hardware.fittings import FACEPLATE
from jigs.asked.jobfile import parse
from jigs.asked.vessel_job import VesselJob
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.stack.solve.whole import solve_stack
from jigs.stages.waste_block.check import waste_findings
from jigs.stages.waste_block.plan import EDGE, WasteBlock
from jigs.stages.waste_block.solve import waste_block
from jigs.words.findings import Finding
from tests.jigs.vessel.held import number
from tests.work.vessels import each, job

HEAVY = """title = "Floor vase"
[profile]
edges = [[0, 120], [50, 124], [90, 240], [260, 560], [400, 500], [560, 300]]
[wall]
thickness = 16
floor = 22
[lathe]
swing_over_bed = 800
[rings]
heights = 44
segments = 24
species = "ash"
"""


def blocked(text: str) -> tuple[WasteBlock, list[Finding]]:
    asked = parse(text, "vase.toml")
    assert isinstance(asked, VesselJob)
    section = solve_section(asked)
    block = waste_block(asked, section, solve_stack(asked, section))
    return block, list(waste_findings(asked, block))


def test_a_heavy_vessel_on_short_screws_needs_a_thicker_block_and_a_wide_faceplate() -> None:
    block, (few,) = blocked(HEAVY)
    assert block.screws.on > block.most - 2 * EDGE
    block, found = blocked(f"{HEAVY}waste_block = {number(few.remedy, 'at least')}\n")
    assert [(one.code, one.severity) for one in found] == [("wide-faceplate", "note")]
    assert FACEPLATE < block.screws.on <= block.least - 2 * EDGE


@each
def test_of_a_usual_vessel_any_faceplate_will_do(name: str) -> None:
    plan, _ = job(name)
    assert not plan.waste.screws.on
    assert not list(waste_findings(plan.job, plan.waste))
    assert plan.waste.least == plan.stack.waste_across[0]
