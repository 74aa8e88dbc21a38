"""The stop for arrises, whose arms reach past it: the wedge stack begins at their tips, and the dry fit sees both."""

from __future__ import annotations

from math import tan
from pathlib import Path

import ezdxf
import pytest

from geometry.plane.contour import Contour
from jigs.asked.jobfile import load, parse
from jigs.dryfit.model import Check
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.forms.torus.form import TORUS
from jigs.parts.part import Part
from jigs.parts.sleds.uprights import stop_cheek
from jigs.plans.torus import TorusPlan
from tests.jigs.set_files import in_set
from tests.unset import jigs_made

FAMILIES = tuple(family for stage in TORUS.stages for family in stage.jigs)

CONFIGS = Path(__file__).parents[2] / "configs"
FORM = (
    "[form]\nouter_diameter = 250\ntube_diameter = 52\nwedge_rings = 14\ncore_opening = 14\nleast_wall = 3\n"
)
WEDGES = ("sled-wedge", "end-wedge")


def plan_of(segments: int) -> TorusPlan:
    return solve(parse(f"{FORM}segments = {segments}\nhalf_sanding = 0.5\n", "hoop.toml"))


def parts_of(plan: TorusPlan) -> dict[str, Part]:
    return {part.name: part for family in FAMILIES for part in family(plan)}


@pytest.mark.parametrize("segments", [6, 8, 10, 14])
def test_each_wedge_begins_where_the_drawn_cheek_ends_and_is_as_thick_there_as_its_taper_says(segments):
    plan = plan_of(segments)
    parts = parts_of(plan)
    cheek = parts["sled-stop-cheek"].outline
    reach = -min(float(x) for x, y in cheek.points if y > 0)
    assert (reach > 1) == (segments % 4 != 0)
    for name in WEDGES:
        outline = parts[name].outline
        left, low, _, _ = outline.bounds
        assert left == pytest.approx(reach, abs=1e-9)
        thin = max(float(y) for x, y in outline.points if x == left) - low
        spare = {"sled-wedge": 0.0, "end-wedge": 0.5 - 0.1}[name] / cos_of(plan)  # no glue sanding of an end
        assert thin == pytest.approx(
            plan.ring_cut.wedge_at_stop - spare + reach * tan(plan.ring_cut.half_wedge)
        )
        told = next(d for d in parts[name].dimensions if d.name == "thickness at the stop")
        assert told.value == pytest.approx(thin)
        assert not any(note.startswith("Saw") for note in parts[name].notes), (
            "nothing is left to saw off by hand"
        )


def cos_of(plan: TorusPlan) -> float:
    return float(1 / (1 + tan(plan.ring_cut.half_wedge) ** 2) ** 0.5)


@pytest.mark.parametrize("segments", [6, 10, 14])
def test_arms_of_the_last_cheek_keep_clear_of_the_blade(segments):
    plan = plan_of(segments)
    sled, cut = plan.sled, plan.ring_cut
    tip = min(float(x) for x, y in stop_cheek(plan).outline.points if y > 0)
    gap = (cut.gap(cut.stop + tip) - sled.cheeks[-1] - sled.sheet) * cos_of(plan)
    assert gap >= sled.clear_of_blade - 1e-6 or len(sled.cheeks) == 1


@pytest.mark.parametrize("segments", [6, 10])
def test_both_cuts_and_the_end_wedge_hold_a_ring_on_its_arris(segments):
    plan = plan_of(segments)
    assert len(plan.rings_held) == 3
    assert all(holding.margin > 1.5 for holding in plan.rings_held)


@pytest.fixture(scope="module")
def garland(tmp_path_factory):
    job = load(CONFIGS / "garland.toml")
    return job, jigs_made(job, tmp_path_factory.mktemp("arris"))


def misfits(garland, name: str, changed) -> list[Check]:
    """The dry fit's misfits with one drawing's outline changed, and the drawing put back."""
    job, folder = garland
    file = in_set(folder, f"cut/{name}.dxf")
    kept = file.read_bytes()
    document = ezdxf.readfile(file)
    outline = max(
        (e for e in document.modelspace().query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"),
        key=lambda e: abs(Contour([*map(list, e.get_points("xyb"))]).area),
    )
    outline.set_points([(*changed(x, y), b) for x, y, b in outline.get_points("xyb")], format="xyb")
    document.saveas(file)
    try:
        return list(dry_fit(job, folder, sheets=False).misfits)
    finally:
        file.write_bytes(kept)


@pytest.mark.parametrize("name", WEDGES)
def test_a_wedge_that_runs_into_the_arms_is_told_as_a_misfit(garland, name):
    plan = solve(garland[0])
    reach = plan.sled.arm[0]
    spare = plan.job.form.end_spare / cos_of(plan) if name == "end-wedge" else 0.0

    def to_the_stop(x: float, y: float) -> tuple[float, float]:
        on_end = abs(x - reach) < 1e-6
        thick = y and plan.ring_cut.wedge_at_stop - spare
        return (0.0, thick) if on_end else (x, y)

    told = {(check.where, check.what) for check in misfits(garland, name, to_the_stop)}
    assert (name, "thin end at the stop or its arms") in told


def test_a_cheek_with_longer_arms_runs_into_both_wedges(garland):
    reach = solve(garland[0]).sled.arm[0]

    def longer(x: float, y: float) -> tuple[float, float]:
        return (x - 1.0, y) if abs(x + reach) < 1e-6 else (x, y)

    found = misfits(garland, "sled-stop-cheek", longer)
    assert {c.where for c in found if c.what == "thin end at the stop or its arms"} == set(WEDGES)


def test_a_printed_wedge_begins_there_too(tmp_path):
    file = tmp_path / "hoop.toml"
    file.write_text(f'{FORM}segments = 10\n[made]\nangles = "print"\n', encoding="utf-8")
    job = load(file)
    assert not dry_fit(job, jigs_made(job, tmp_path), sheets=False).misfits
