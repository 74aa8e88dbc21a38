"""The shop is measured for what the job's jigs are cut to, and for what the job is judged by."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.sets.rack import Proof, draw
from jigs.stages.shop.steps import operations
from jigs.work.model import Rack
from tests.jigs.vessel.jobs import text as vessel
from tests.work.test_building import BANDSAW, CUT, done

ALWAYS = {"saw.kerf", "saw.blade_diameter", "saw.blade_height"}
SLED = {"saw.slot_width", "saw.slot_depth", "saw.slot_distance", "saw.throat"}
SOLID = """title = "Solid"
[profile]
stations = [[0, 60], [20, 40], [60, 30], [90, 50]]
[wall]
thickness = 7
floor = 12
[rings]
heights = [20, 40, 34]
segments = 12
upright = [1, 2, 3]
species = "maple"
[reversing]
hold = "none"
"""


@pytest.mark.parametrize(
    ("cutter", "told"), [("", "offsets its path by half of the kerf"), ("kerf = 0.2", "offsets no path")]
)
def test_the_kerf_is_taken_off_once(cutter: str, told: str) -> None:
    """In the files, or by the program of the laser or router: by both, each part would be a kerf too large."""
    proof = proof_of(f"{SOLID}[cutter]\n{cutter}\n")
    (step,) = (
        one for one in operations(proof.plan, Rack(proof.parts)) if one.id == "shop.printer-and-cutter"
    )
    assert told in step.checks[0].how


def proof_of(text: str) -> Proof:
    return draw(solve(parse(text, "job.toml")))


@pytest.mark.parametrize(
    ("job", "keys"),
    [
        (SOLID, set()),  # boards are ripped, and that is all
        (vessel("vase"), SLED),
        (vessel("staved"), SLED | {"saw.tilts"}),
        (CUT, SLED | {"saw.tilts", "saw.table_front"}),
        (BANDSAW.replace("plan_angle_sled = true\n", ""), set()),
        (BANDSAW, SLED - {"saw.throat"}),
    ],
)
def test_the_table_saw_is_measured_for_what_is_read(job: str, keys: set[str]) -> None:
    proof = proof_of(job)
    (saw,) = (one for one in operations(proof.plan, Rack(tuple(proof.parts))) if one.id == "shop.table-saw")
    assert {reading.id for reading in saw.readings} == ALWAYS | keys


@pytest.mark.parametrize("key", ["slot_distance", "table_front"])
@pytest.mark.parametrize("job", [vessel("staved"), CUT])
def test_what_is_said_to_be_cut_to_a_size_changes_with_it(job: str, key: str) -> None:
    first, other = (
        {part.name: part for part in proof_of(f"{job}\n[saw]\n{key} = {mm}\n").parts} for mm in (110, 117)
    )
    told = {name for name, part in first.items() if f"saw.{key}" in part.jig.cut_to}
    drawn = [
        {name: (of[name].outline, of[name].holes, of[name].marks) for name in told} for of in (first, other)
    ]
    assert not [name for name in told if drawn[0][name] == drawn[1][name]]


def test_what_is_measured_is_measured_twice_and_what_is_looked_up_is_the_same_everywhere() -> None:
    checks = {one.id: [check.id for check in one.checks] for one in done("garland", "shop")}
    assert all(checks[f"shop.{measured}"] == ["twice"] for measured in ("table-saw", "sheets", "lathe"))
    assert checks["shop.printer-and-cutter"] == ["same"]
