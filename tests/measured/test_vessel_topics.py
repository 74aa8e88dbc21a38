"""A vessel's readings: the stack as it grew, the outside at its stations, the wall round the rim."""

import re
from pathlib import Path

import numpy as np
import pytest

from jigs.asked import toml_source
from jigs.asked.change import changed
from jigs.asked.jobfile import job_of, load
from jigs.asked.toml_source import readings_file
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.measured.advice import Advice
from jigs.measured.blank import blank_text
from jigs.measured.vessel import vessel_advice
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.remedies.glued import are_others, rings_made
from jigs.remedies.offered import remedies
from jigs.sets.measured import measured
from jigs.sets.rack import Proof, draw
from jigs.words.findings import Refused
from tests.measured.garland import with_readings
from tests.unset import jigs_made
from tests.work.works import work_of

STACK = "[stack.rings]\nup-to.2 = {}\nup-to.5 = {}"
EVEN = [7.05] * 8
THIN = "[outside.finished-stations]\nacross.station-4 = 147.5\nacross.wide-place = 150.1\nacross.rim = 100.6"


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Proof:
    return draw(solve(load(with_readings(tmp_path_factory.mktemp("job"), "", "sorrel"))))


def plan(folder: Path, readings: str) -> VesselPlan:
    found = solve(load(with_readings(folder, readings, "sorrel")))
    assert isinstance(found, VesselPlan)
    return found


def advice(folder: Path, planned: Proof, readings: str) -> list[Advice]:
    """Which prints are drawn for the printer does not depend on these readings: parts are those without any."""
    return list(measured(plan(folder, readings), planned.parts, folder / "out").advice)


@pytest.mark.parametrize(
    ("readings", "id", "verdict"),
    [
        ("[flat-segments.trial]\nring.light-at-rim = 0.4", "segment-angle.fences-n12", "correct"),
        ("[flat-segments.trial]\nring.light-at-core = 0.06", "segment-angle.fences-n12", "right"),
        ("[flat-segments.trial]\nring.light-at-core = 0.02", "segment-angle.fences-n12", "right"),
        (STACK.format(42.1, 105.3), "vessel.stack", "right"),
        (STACK.format(42, 107), "vessel.stack", "correct"),
        ("[stack.cure]\nup-to.9 = 189.1", "vessel.stack", "right"),
        ("[outside.finished-stations]\nacross.rim = 100.6", "vessel.stations", "right"),
        ("[outside.finished-stations]\nacross.rim = 100.9\nacross.foot = 71.5", "vessel.stations", "correct"),
        ("[outside.finished-stations]\nacross.rim = 60", "vessel.stations", "unclear"),
        (f"[inside.sand]\nwall = {EVEN}", "vessel.wall", "right"),
        ("[inside.sand]\nwall = [7, 7.14, 7.2, 7.14, 7, 6.86, 6.8, 6.86]", "vessel.wall", "correct"),
        (f"[inside.sand]\nwall = {EVEN[:5]}", "vessel.wall", "unclear"),
        (f"[inside.sand]\nwall = {[6.4] * 8}", "vessel.wall", "correct"),
        ("[inside.sand]\nwall = [2.3, 2.2, 2.1, 2, 1.9, 2, 2.1, 2.2]", "vessel.wall", "short"),
        ("[reversing.start]\nrunout = 0.5", "wobble.reversing.runout", "unclear"),
    ],
)
def test_a_vessels_topics(tmp_path: Path, planned: Proof, readings: str, id: str, verdict: str):
    found = advice(tmp_path, planned, readings)
    assert [(one.id, one.verdict) for one in found] == [(id, verdict)]


def test_the_next_ring_takes_up_what_the_stack_is_too_high(tmp_path: Path, planned: Proof):
    (found,) = advice(tmp_path, planned, STACK.format(42, 107))
    assert "Flatten ring 6 to 19.0 mm instead of 21.0 mm" in " ".join(found.says)


def test_glued_rings_stand_as_measured_and_the_joints_above_lie_as_planned(tmp_path: Path, planned: Proof):
    """Two mm too high at ring 5: rings 3 to 5 stand on the joint of ring 2, ring 6 is thinner, 7 to 9 as before."""
    stack, before = plan(tmp_path, STACK.format(42, 107)).stack, planned.plan.stack
    assert stack.glued == 5
    assert [ring.ring.top for ring in stack.layers[:5]] == pytest.approx([18, 39, 60, 81, 104])
    assert stack.layers[5].ring.height == pytest.approx(19)
    assert [one.ring.bottom for one in stack.layers[6:]] == pytest.approx([123, 144, 165])
    assert [one.ring.outer for one in stack.layers] == pytest.approx(
        [one.ring.outer for one in before.layers]
    )
    assert stack.joints[4].height == pytest.approx(104)


@pytest.mark.parametrize("heights", ["21", "[21, 21, 21, 21, 21, 21, 21, 21, 21]"])
def test_the_last_ring_takes_up_what_all_others_are_too_high(tmp_path: Path, planned: Proof, heights: str):
    """No other heights are asked for: eight of the rings are glued. No joint lies above the ninth."""
    job = with_readings(tmp_path, "[stack.rings]\nup-to.8 = 170", "sorrel")
    job.write_text(job.read_text("utf-8").replace("heights = 21", f"heights = {heights}"), "utf-8")
    found = solve(load(job))
    assert isinstance(found, VesselPlan)
    assert found.stack.layers[-1].ring.height == pytest.approx(19)
    assert found.stack.top == pytest.approx(planned.plan.stack.top)
    (told,) = vessel_advice(found)
    assert "Flatten ring 9 to 19.0 mm instead of 21.0 mm." in told.says


def test_rings_that_are_not_needed_are_told_in_the_plural(tmp_path: Path):
    job = with_readings(tmp_path, "[stack.rings]\nup-to.5 = 122", "sorrel")
    low = "heights = [21, 21, 21, 21, 21, 10.5]"
    job.write_text(job.read_text("utf-8").replace("heights = 21", low), "utf-8")
    found = solve(load(job))
    assert isinstance(found, VesselPlan)
    assert "Rings 12, 13 are not needed." in [line for one in vessel_advice(found) for line in one.says]


def test_a_stack_too_low_is_gone_on_with(tmp_path: Path):
    """1.5 mm too low: no board is thicker, so every joint above lies lower by as much."""
    found = plan(tmp_path, STACK.format(42, 103.5)).stack
    assert [one.ring.bottom for one in found.layers[5:]] == pytest.approx([100.5, 121.5, 142.5, 163.5])
    assert found.top == pytest.approx(184.5)


def test_a_cured_stack_that_is_lower_than_the_vessel_is_refused(tmp_path: Path):
    """180 mm of vessel do not come out of 170 mm of rings."""
    with pytest.raises(Refused):
        plan(tmp_path, "[stack.cure]\nup-to.9 = 170")


@pytest.mark.parametrize("read", ["up-to.9 = 500", "up-to.9 = 18.9", "up-to.2 = 480"])
def test_a_height_two_rings_off_is_asked_about_and_nothing_is_planned_on_it(tmp_path: Path, read: str):
    with pytest.raises(Refused, match="over two rings off"):
        plan(tmp_path, f"[stack.rings]\n{read}")


def test_a_stack_that_lacks_wood_carries_the_vessel_higher_and_its_gauges_follow(
    tmp_path: Path, planned: Proof
):
    """6 mm too high at ring 2, the flank comes through unless the whole vessel is turned higher."""
    readings = "[stack.rings]\nup-to.2 = 48"
    found, before = plan(tmp_path, readings), planned.plan
    assert found.stack.raised > 0
    assert found.stack.bottom == pytest.approx(before.stack.bottom - found.stack.raised)
    assert found.gauges.faceplate == pytest.approx(before.gauges.faceplate - found.stack.raised)
    for new, old in zip(found.sizes.finished, before.sizes.finished, strict=True):
        assert new[1] == pytest.approx(old[1])  # the form stays; it stands farther from the faceplate
    gaps = zip(found.sizes.gaps, before.sizes.gaps, strict=True)
    assert all(
        new.over_faceplate == pytest.approx(old.over_faceplate + found.stack.raised) for new, old in gaps
    )
    (told,) = advice(tmp_path, planned, readings)
    assert {one.id: one.value for one in told.found}["raise"] == pytest.approx(found.stack.raised)


@pytest.mark.parametrize(
    ("example", "read", "offered"),
    [
        ("acorn", "up-to.2 = 29.75", [16, 16, 16.5]),
        ("sorrel", "up-to.5 = 99.2", [21, 21, 21, 21, 21, 21.5]),
        ("acorn", "up-to.5 = 72.6", None),
    ],
)
def test_no_other_heights_are_offered_for_rings_that_are_glued(
    tmp_path: Path, example: str, read: str, offered: list[float] | None
):
    """Of the last all five are glued, and too low: heights of which four were enough passed."""
    file = with_readings(tmp_path, f"[stack.rings]\n{read}", example)
    found = remedies(toml_source.read(file), file)
    if offered is None:
        assert found is None
        return
    assert found is not None
    assert found[0].changes[0].value == offered
    count = int(read[6])
    assert all(change.value[:count] == offered[:count] for one in found for change in one.changes)


@pytest.mark.parametrize(
    ("key", "value", "others"),
    [
        ("wall.thickness", 5, False),
        ("wall.thickness", 9, True),
        ("rings.segments", 16, True),
        ("rings.species", "cherry", True),
        ("rings.species", ["walnut", "maple", "maple", "cherry"], False),  # of those above
        ("rings.heights", 20, True),
        ("rings.heights", [21, 21, 21, 22], False),
    ],
)
def test_a_change_may_ask_less_of_glued_rings_and_not_more(
    tmp_path: Path, key: str, value: object, others: bool
):
    """A thicker wall needs the wood that their openings were cut out of."""
    file = with_readings(tmp_path, "[stack.rings]\nup-to.2 = 42\nup-to.3 = 63", "sorrel")
    source, job = toml_source.read(file), load(file)
    plan = solve(job_of(changed(source, {key: value}), file))
    assert are_others(rings_made(job), plan) == others


def test_a_stack_that_holds_the_vessel_nowhere_is_refused(tmp_path: Path):
    with pytest.raises(Refused, match=r"ring 5, glued from 81\.0 mm to 127\.0 mm, lacks 2\.18 mm"):
        plan(tmp_path, STACK.format(42, 130))


def test_the_inside_follows_an_outside_turned_too_far(tmp_path: Path, planned: Proof):
    """1 mm less in diameter at station 4: the wall there keeps its 7 mm; the rim stays."""
    found, before = plan(tmp_path, THIN), planned.plan
    assert found.section.outer.radius_at(110) == pytest.approx(74 - (148.51 - 147.5) / 2, abs=0.02)
    assert found.section.outer.radius_at(180) == pytest.approx(48, abs=0.01)
    assert found.wall[0] == pytest.approx(before.wall[0], abs=0.02)
    old, new = (one.gauges.stages[-1].inside for one in (before, found))
    assert old
    assert new
    assert new.radius_at(110) == pytest.approx(old.radius_at(110) - 0.5, abs=0.05)
    sizes = [[(one.ring.outer, one.ring.core) for one in which.stack.layers] for which in (found, before)]
    assert sizes[0] == sizes[1]  # the blank stands


def test_make_after_measured_makes_other_jigs_inside(tmp_path: Path, planned: Proof):
    """The gauges inside are other plates, the blank's own jigs are the same."""
    now = {part.name: part for part in draw(plan(tmp_path, THIN)).parts}
    changed = {part.name for part in planned.parts if _drawn(part) != _drawn(now.get(part.name))}
    assert {"inside-gauge-stage-1", "inside-gauge-finished"} <= changed
    of_the_turning = ("inside-", "outside-", "gap-", "calliper-", "mouth-", "wall-", "gauge-rail")
    assert [name for name in changed if not name.startswith(of_the_turning)] == []


def _drawn(part: Part | None) -> object:
    return part and (part.outline.vertices.tolist(), {d.name: d.value for d in part.dimensions})


def test_an_inside_off_the_axis_is_found_with_its_place(tmp_path: Path, planned: Proof):
    (found,) = advice(tmp_path, planned, "[inside.sand]\nwall = [7, 7.14, 7.2, 7.14, 7, 6.86, 6.8, 6.86]")
    assert {q.id: q.value for q in found.found}["off"] == pytest.approx(0.2, abs=0.01)


@pytest.mark.parametrize(
    ("walls", "told"),
    [
        ([7, 7.14, 7.2, 7.14, 7, 6.86, 6.8, 6.86], "Sand the outside there by up to 0.20 mm"),
        ([7.4, 7.68, 7.8, 7.68, 7.4, 7.12, 7, 7.12], "Sand the outside there by up to 0.80 mm"),
        ([6.96, 7, 6.96, 6.9, 6.96, 7, 6.96, 5], "not too thick there: leave it"),
        ([9, 9, 9, 9, 9, 9, 9, 7.5], "not too thick there: leave it"),  # where 9 mm are wanted
    ],
)
def test_no_wall_is_sanded_thinner_than_it_was_to_be(
    tmp_path: Path, planned: Proof, walls: list[float], told: str
):
    """7 mm at least; of one thin place the thickest opposite is no reason to sand there."""
    (found,) = advice(tmp_path, planned, f"[inside.sand]\nwall = {walls}")
    assert told in " ".join(found.says)


def test_the_set_made_after_the_readings_fits(tmp_path: Path):
    """Rings that stand too high, one flattened to less, the vessel turned higher, its outside too far in: made, then
    fitted by the dry fit, which works out where the glued rings stand from readings and files alone."""
    readings = "[stack.rings]\nup-to.2 = 48\n[stack.rings-2]\nup-to.6 = 132.4\n"
    job = load(with_readings(tmp_path, readings + THIN, "sorrel"))
    found = dry_fit(
        job, jigs_made(job, tmp_path / "out"), sheets=False, turned=plan(tmp_path, readings + THIN).job
    )
    assert [check for check in found.checks if not check.fits] == []
    assert sum(check.what.startswith("glued: wood") for check in found.checks) >= 10


def test_a_station_on_a_slope_that_was_read_late_moves_nothing(tmp_path: Path):
    """The rim is parted down to 100.6; once the profile is turned it has 96.5 there."""
    late = plan(tmp_path, "[outside.finished-stations]\nacross.rim = 96.5")
    assert late.section.outer.radius_at(180) == pytest.approx(48, abs=1e-6)
    (told,) = vessel_advice(late)
    assert "read after the profile was turned" in told.says[0]
    assert "Rim, before the profile is turned, planned 100.59" in blank_text(work_of("sorrel"), "vessel")


@pytest.mark.parametrize("beside", ["", "across.foot = 71.9"])
def test_a_station_that_refuses_the_job_is_named_and_measured_again(tmp_path: Path, beside: str):
    """139 mm for 150.88, within a tenth: the outside would curve too tightly for its wall. The foot is hardly out."""
    readings = f"[outside.finished-stations]\nacross.wide-place = 139\n{beside}"
    with pytest.raises(Refused) as refused:
        plan(tmp_path, readings)
    told = [one for one in refused.value.findings if one.code == "misread"]
    assert [(one.key, one.line) for one in told] == [("outside.finished-stations.across.wide-place", 2)]
    assert "Wide place was read as 139.00 mm, planned 150.88 mm" in told[0].said
    assert refused.value.findings[0].code != "misread"


def test_a_job_that_its_stations_do_not_refuse_blames_none(tmp_path: Path):
    job = with_readings(tmp_path, "[outside.finished-stations]\nacross.foot = 71", "sorrel")
    job.write_text(job.read_text("utf-8").replace("thickness = 7", "thickness = 70"), "utf-8")
    with pytest.raises(Refused) as refused:
        solve(load(job))
    assert "misread" not in {one.code for one in refused.value.findings}


def test_the_inside_of_halves_is_turned_before_their_outside(tmp_path: Path):
    """Nothing follows an outside that is turned too far; the wall that is lost is told."""
    job = with_readings(tmp_path, "[outside.finished-stations]\nacross.foot = 60", "gourd")
    text = readings_file(job)
    asked = solve(load(job))
    assert isinstance(asked, VesselPlan)
    foot = next(size for station, size in asked.asked_sizes.finished if station.slug == "foot")
    text.write_text(f"[outside.finished-stations]\nacross.foot = {foot - 1:.2f}\n", "utf-8")
    turned = solve(load(job))
    assert isinstance(turned, VesselPlan)
    assert turned.section.outer.radius_at(0) == asked.section.outer.radius_at(0)
    told = " ".join(sentence for one in vessel_advice(turned) for sentence in one.says)
    assert "The inside is turned already" in told
    # Half a millimetre at the foot, nothing from the next station on, smoothly between.
    section, z = asked.section, np.linspace(0, 60, 1201)
    t = np.minimum(z / 30, 1)
    outer = [section.outer.radius_at(one) for one in z] - 0.5 * (1 - 3 * t**2 + 2 * t**3)
    up = z[z > section.inner.bottom]
    inner = np.column_stack([[section.inner.radius_at(one) for one in up], up])
    apart = np.hypot(*(inner[:, None, :] - np.column_stack([outer, z])).transpose(2, 0, 1))
    left = float(re.search(r"then has ([\d.]+) mm\.", told)[1])
    assert left == pytest.approx(apart.min(), abs=0.01)
    assert 7.5 < left < 7.75
    text.write_text("[outside.finished-stations]\nacross.station-3 = 114.1\n", "utf-8")
    thin = solve(load(job))
    assert isinstance(thin, VesselPlan)
    (short,) = vessel_advice(thin)
    assert short.verdict == "short"
    assert "under your least wall of 2.00 mm. Stop turning." in short.says[0]


def test_a_thick_wall_that_loses_a_little_is_not_taken_for_the_thinnest(tmp_path: Path):
    """12 mm at the foot, 8 at the neck: 1.5 mm off the foot leave the thinnest place as it is."""
    job = with_readings(tmp_path, "", "gourd")
    walls = "by_height = [[0, 12], [60, 12], [100, 8], [150, 8]]\nleast = 7"
    job.write_text(job.read_text("utf-8").replace("thickness = 8", walls), "utf-8")
    asked = solve(load(job))
    assert isinstance(asked, VesselPlan)
    foot = next(size for station, size in asked.asked_sizes.finished if station.slug == "foot")
    readings_file(job).write_text(f"[outside.finished-stations]\nacross.foot = {foot - 3:.2f}\n", "utf-8")
    turned = solve(load(job))
    assert isinstance(turned, VesselPlan)
    (told,) = vessel_advice(turned)
    assert told.verdict == "correct"
    assert "then has 8.00 mm." in told.says[0]


def test_each_reading_of_a_file_is_answered(tmp_path: Path, planned: Proof):
    """Those that no jig follows are named, whatever another reading comes to; those that are answered are not."""
    unfollowed = {
        "inside.finished": "depth",
        "flat-segments.cut": "outer-edge.1",
        "reversing.foot": "floor",
        "outside.rim": "rim",
    }
    followed = STACK.format(42.1, 105.3) + "\n[outside.finished-stations]\nacross.rim = 100.9"
    ignored = "\n".join(f"[{section}]\n{key} = 20" for section, key in unfollowed.items())
    found = {one.id: one for one in advice(tmp_path, planned, f"{followed}\n{ignored}")}
    assert found.keys() == {"vessel.stack", "vessel.stations", "other-readings"}
    named = found["other-readings"].says[0]
    assert all(f"{key} in [{section}]" in named for section, key in unfollowed.items())
    assert "across" not in named
    assert "up-to" not in named
    assert "other-readings" not in {one.id for one in advice(tmp_path, planned, followed)}
