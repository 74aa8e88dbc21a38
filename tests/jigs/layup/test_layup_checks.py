"""What refuses a layup, and that its remedy works."""

from dataclasses import replace
from math import ceil

import pytest

from jigs.asked.job import TorusJob
from jigs.asked.job_wood import Board, Ply
from jigs.stages.layup.check.layup import layup_findings
from jigs.stages.layup.solve.whole import torus_layups, vessel_layups
from jigs.words.findings import Finding
from tests.jigs.layup.layup_jobs import hoop, vessel, with_layup


def findings(more: dict[str, float] | None = None, **changes: object) -> dict[str, Finding]:
    """Of the torus, by code; `more` are values of its saw."""
    plan = hoop()
    job = with_layup(plan.job, **changes)
    job = replace(job, workshop=replace(job.workshop, saw=replace(job.workshop.saw, **(more or {}))))
    assert isinstance(job, TorusJob)
    return {f.code: f for f in layup_findings(job, torus_layups(job, plan.blank, plan.cutting.carrier))}


def vessel_findings(name: str, **changes: object) -> dict[str, Finding]:
    plan = vessel(name)
    job = with_layup(plan.job, **changes)
    return {f.code: f for f in layup_findings(job, vessel_layups(job, plan.stack, plan.saws.strips_held))}


def test_a_plain_layup_and_a_job_without_one_have_nothing_to_say() -> None:
    assert findings() == {}
    assert list(layup_findings(hoop().job, ())) == []


@pytest.mark.parametrize(
    ("plane", "mirrored", "would_do"),
    [
        ("end", "both", "up and down"),
        ("end", "left and right", "up and down"),
        ("face", "both", "left and right"),
        ("face", "up and down", "left and right"),
    ],
)
def test_mirroring_about_the_way_the_pattern_runs_is_refused(
    plane: str, mirrored: str, would_do: str
) -> None:
    found = findings(plane=plane, mirrored=mirrored)
    assert list(found) == ["not-mirrored"]
    finding = found["not-mirrored"]
    assert (finding.severity, finding.key) == ("refused", "layup.mirrored")
    assert f'"{would_do}"' in finding.remedy
    assert findings(plane=plane, mirrored=would_do) == {}


def length_in(remedy: str) -> float:
    return float(remedy.split(" mm")[0].rsplit(" ", 1)[-1])


@pytest.mark.parametrize(
    ("key", "code", "short"),
    [("sheet_width", "sheet-too-narrow", 20.0), ("sheet_length", "sheet-too-short", 10.0)],
)
def test_a_sheet_that_gives_no_strip_is_refused_with_the_least_that_does(
    key: str, code: str, short: float
) -> None:
    found = findings(**{key: short})
    assert list(found) == [code]
    assert (found[code].severity, found[code].key) == ("refused", f"layup.{key}")
    least = length_in(found[code].remedy)
    assert findings(**{key: least}) == {}
    assert code in findings(**{key: least - 0.2})


def test_strips_too_wide_for_the_blade_are_refused_with_the_least_height() -> None:
    found = findings({"blade_height": 30.0})
    assert list(found) == ["stack-too-tall"]
    assert found["stack-too-tall"].severity == "refused"
    least = length_in(found["stack-too-tall"].remedy)
    assert findings({"blade_height": least}) == {}
    assert "stack-too-tall" in findings({"blade_height": least - 0.2})


def test_a_stack_of_many_strips_is_noted_with_its_goes() -> None:
    found = findings(plies=(Ply("maple", 0.5), Ply("walnut", 0.4)))
    assert list(found) == ["many-strips"]
    assert found["many-strips"].severity == "note"
    high = 12.85 * 0.5 + 26.92 * 0.8660254
    assert f"{ceil(high / 0.9)} strips" in found["many-strips"].message
    assert "3 goes" in found["many-strips"].message


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_plies_along_a_side_cannot_be_staggered(angle: float) -> None:
    found = findings(angle=angle, stacking="staggered")
    assert [finding.severity for finding in found.values()] == ["note"]
    assert list(found) == ["no-stagger"]


def test_an_odd_ring_that_alternates_is_warned_of_and_mirrored_pieces_would_do() -> None:
    found = vessel_findings("cup", mirrored="none")
    assert found["odd-count"].severity == "warning"
    assert '"left and right"' in found["odd-count"].remedy
    assert "odd-count" not in vessel_findings("cup", mirrored="left and right")
    assert '"both"' in vessel_findings("cup", mirrored="up and down")["odd-count"].remedy
    assert "odd-count" not in vessel_findings("cup", mirrored="both")


def test_a_ring_without_segments_has_no_layup() -> None:
    assert vessel("cup").stack.layers[0].cut is None
    found = vessel_findings("cup", rings=(1, 3))
    assert (found["no-segments"].severity, found["no-segments"].key) == ("refused", "layup.rings")
    assert "ring 1 " in found["no-segments"].message
    assert "no-segments" not in vessel_findings("cup", rings=(3,))
    assert "no-segments" not in vessel_findings("cup")


@pytest.mark.parametrize(
    ("size", "reason"),
    [
        ((6.0, 300.0, None), "have to be given"),
        ((5.0, 300.0, 600.0), "6.0 mm together"),
        ((6.0, 20.0, 600.0), "wide, from a trimmed edge"),
        ((6.0, 300.0, 60.0), "long, between trimmed ends"),
        ((6.05, 300.0, 600.0), None),
    ],
)
def test_a_sheet_at_hand_that_gives_no_strip_is_named_with_the_reason(
    size: tuple[float, float, float | None], reason: str | None
) -> None:
    plan = hoop()
    stock = replace(plan.job.workshop.stock, sheets=(Board("layup", *size, 2), Board("birch", *size, 2)))
    job = with_layup(replace(plan.job, workshop=replace(plan.job.workshop, stock=stock)))
    found = layup_findings(job, torus_layups(job, plan.blank, plan.cutting.carrier))
    told = [finding for finding in found if finding.code == "layup-sheet-left"]
    assert [finding.severity for finding in told] == ["note"] * bool(reason)
    if reason:
        assert reason in told[0].message


def test_of_several_sizes_one_finding_names_the_sheet_that_serves_them_all() -> None:
    plan = vessel("vase")
    job = with_layup(plan.job, sheet_width=20.0, sheet_length=30.0)
    layups = vessel_layups(job, plan.stack, plan.saws.strips_held)
    assert len(layups) > 1
    found = [f for f in layup_findings(job, layups) if f.severity == "refused"]
    assert sorted(f.code for f in found) == ["sheet-too-narrow", "sheet-too-short"]
    wide, long = (float(f.remedy.split(" at least ")[1].split()[0]) for f in found)
    assert wide >= max(layup.strip_width for layup in layups) + job.workshop.stock.edge_trim
    assert long >= max(layup.way.strip_length for layup in layups) + 2 * job.workshop.stock.end_trim
    served = with_layup(plan.job, sheet_width=wide, sheet_length=long)
    again = layup_findings(served, vessel_layups(served, plan.stack, plan.saws.strips_held))
    assert [f for f in again if f.severity == "refused"] == []
