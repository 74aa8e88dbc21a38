import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from geometry.lathe.size_gauges import step_lengths
from geometry.plane.sample import sample
from geometry.strokes.lettering import text_width
from jigs.asked.jobfile import parse
from jigs.files.stl import read_stl, write_stl
from jigs.forms.solve import solve
from jigs.parts.coding import settled
from jigs.parts.part import Lettering
from jigs.parts.probes import ArcRadius, EdgeGap, HoleDiameter
from jigs.parts.processes import as_made
from jigs.parts.readback import measure
from jigs.parts.splitting import split_to_bed
from jigs.stages.coupon.parts import SIZES, coupon, sheet_coupon
from jigs.stages.sizes.parts.forks import sizes
from jigs.words.findings import Refused
from tests.examples import plan_of_example
from tests.geometry.validity import problems

shapely = pytest.importorskip("shapely")
affinity = pytest.importorskip("shapely.affinity")

CONFIGS = Path(__file__).parents[2] / "configs"
PRINTED = "\n[made]\nsizes = 'print'\n"
GARLAND = (CONFIGS / "garland.toml").read_text()


def job(text):
    return solve(parse(text, CONFIGS / "job.toml"))


@pytest.fixture(scope="module", params=["garland", "millwheel", "quoit"])
def plan(request):
    return plan_of_example(request.param)


def named(plan, start):
    return [part for part in sizes(plan) if part.name.startswith(start)]


def torus_at(plan, offset, plate):
    """What a plate of this thickness held along the axis must clear: the two tubes, dense, x from the axis.

    At y across the plate the torus is cut by the plane y: its section is convex in the hole, so the arrises
    at ± plate / 2 come nearest there; at the rim the middle of the plate does.
    """
    form = plan.job.form
    angle = np.linspace(0, 2 * np.pi, 20_001)
    tube = form.tube_radius + offset
    radius, height = form.major_radius + tube * np.cos(angle), tube * np.sin(angle)
    across = np.where(np.cos(angle) < 0, plate / 2, 0.0)
    return shapely.Polygon(np.column_stack((np.sqrt(radius**2 - across**2), height)))


def solid(part):
    return shapely.Polygon(sample(part.outline, 0.001))


def pushed_on(solid, torus, down=0.0):
    """Whether the plate, lowered by `down`, is clear of the torus."""
    return affinity.translate(solid, 0, -down).intersection(torus).area < 1e-3


def test_every_outline_is_sound(plan):
    for part in (*sizes(plan), *coupon(plan)):
        assert problems(part.outline) == ()


def test_a_fork_goes_on_to_the_step_of_the_stage_the_tube_has_come_to(plan):
    major, size = plan.job.form.major_radius, plan.sizes
    for part, group in zip(named(plan, "width-fork"), size.groups, strict=True):
        fork = affinity.translate(solid(part), major, 0)
        for stage in group:
            offset = stage.tube.wide - plan.job.form.tube_radius
            # every step of its own and larger sizes goes past the middle
            lift = 0.0 if stage is group[-1] else _lift(group, stage)
            assert pushed_on(fork, torus_at(plan, offset - 0.01, part.thickness), -lift)
            assert not pushed_on(fork, torus_at(plan, offset + 0.05, part.thickness), -lift)


def test_a_hole_stick_enters_to_the_step_of_the_stage_the_hole_has_come_to(plan):
    for part, group in zip(named(plan, "hole-stick"), plan.sizes.groups, strict=True):
        stick = solid(part)
        for stage in group:
            offset = stage.tube.wide - plan.job.form.tube_radius
            lift = 0.0 if stage is group[-1] else _lift(group, stage)
            assert pushed_on(stick, torus_at(plan, offset - 0.01, part.thickness), -lift)
            assert not pushed_on(stick, torus_at(plan, offset + 0.05, part.thickness), -lift)


def _lift(group, stage):
    """How much higher the plate stands than at its last step: that of the steps not yet on."""
    lengths = step_lengths([s.tube for s in group])
    return sum(lengths[list(group).index(stage) :])


def test_the_tips_stay_off_the_first_board(plan):
    for start in ("width-fork", "hole-stick"):
        for part in named(plan, start):
            assert part.outline.bounds[1] >= -plan.blank.apothem + 2


def test_the_inner_leg_goes_into_the_hole_as_it_is_at_first(plan):
    rough = plan.sizes.stages[0]
    form = plan.job.form
    for part in named(plan, "width-fork"):
        assert form.major_radius + part.outline.bounds[0] > -rough.hole + 1


def test_the_outer_sticks_ends_are_arcs_of_every_stage(plan):
    (stick,) = named(plan, "outer-stick")
    arcs = [d for d in stick.dimensions if isinstance(d.probe, ArcRadius)]
    expected = [plan.job.form.major_radius + stage.tube.wide for stage in plan.sizes.stages]
    assert sorted(d.value for d in arcs) == pytest.approx(sorted(expected * 2))


def test_every_plate_numbers_its_steps_and_says_lathe_stopped(plan):
    for part in sizes(plan):
        text = [mark.text for mark in settled(part, "").marks if isinstance(mark, Lettering)]
        steps = [d for d in part.dimensions if isinstance(d.probe, EdgeGap)]
        assert {d.name.split()[1].strip(",") for d in steps} <= set(text)
        assert any("STOPPED" in line for line in text)


def test_more_stages_than_the_board_leaves_room_for_share_out_over_several_forks():
    text = GARLAND.replace("stages = [3, 1,", "stages = [3, 2.4, 1.8, 1.2, 0.6,")
    plan = job(text)
    forks = named(plan, "width-fork")
    assert len(forks) > 1
    assert [part.name for part in forks] == [f"width-fork-{k}" for k in range(1, len(forks) + 1)]
    assert sum(isinstance(d.probe, EdgeGap) for part in forks for d in part.dimensions) == 6


def test_a_sheet_that_fills_the_hole_is_refused_with_the_way_out():
    text = GARLAND.replace("outer_diameter = 250", "outer_diameter = 190") + "\n[boards]\nsheet = 60\n"
    with pytest.raises(Refused) as refused:
        job(text)
    found = {finding.code: finding for finding in refused.value.findings}
    assert "76.0 mm" in found["plate-fills-hole"].message
    assert "print" in found["plate-fills-hole"].remedy


def test_printed_sizes_are_as_thin_as_gauges_and_allow_for_that():
    cut, printed = (sizes(job(text)) for text in (GARLAND, GARLAND + PRINTED))
    assert cut[0].thickness > printed[0].thickness
    gaps = [
        next(d.value for d in parts[0].dimensions if isinstance(d.probe, EdgeGap)) for parts in (cut, printed)
    ]
    assert gaps[0] > gaps[1] > 60.0


def test_a_coupon_that_is_cut_has_no_fit_since_the_sheet_has_its_own(plan):
    made = replace(plan.job.workshop.made, coupon="cut")
    cut = replace(plan, job=replace(plan.job, workshop=replace(plan.job.workshop, made=made)))
    (part,), (strip,) = coupon(cut), sheet_coupon(cut)
    assert part.quantity == 1
    assert not [d.name for d in part.dimensions if d.name == "tab" or d.name.startswith("notch")]
    notches = sorted(d.value for d in strip.dimensions if d.name.startswith("notch"))
    sheet, inch = plan.job.workshop.boards.sheet, plan.job.unit == "in"
    plays = (0, 0.0508, 0.1016, 0.1524, 0.2032, 0.3048) if inch else (0, 0.05, 0.1, 0.15, 0.2, 0.3)
    assert [value - sheet for value in notches] == pytest.approx(plays, abs=1e-9)
    assert strip.thickness == sheet


@pytest.mark.parametrize(("unit", "names", "lettered"), [
    ("mm", ("10", "20", "40", "80"), {"10", "20", "40", "80", "Ø15", "R25", ".05"}),
    ("in", ("500thou", "750thou", "1500thou", "3000thou"), {"1/2", "3/4", "1 1/2", "3", "Ø5/8", "R1", ".002"}),
])  # fmt: skip
def test_the_coupon_has_outsides_insides_and_holes_of_four_sizes_each_in_its_jobs_unit(unit, names, lettered):
    (part,) = coupon(solve(replace(job(GARLAND).job, unit=unit)))
    lengths, found = SIZES[unit].lengths, {d.name: d for d in part.dimensions}
    assert [found[f"outside {name}"].value for name in names] == list(lengths)
    assert [found[f"inside {name}"].value for name in names] == list(lengths)
    assert sum(isinstance(d.probe, HoleDiameter) for d in part.dimensions) == len(SIZES[unit].holes) == 4
    assert {"tab", "arc radius", "thickness"} <= set(found)
    assert lettered <= {mark.text for mark in part.marks}
    holes = sorted((mark for mark in part.marks if mark.text.startswith("Ø")), key=lambda mark: mark.origin)
    ends = [mark.origin[0] + text_width(mark.text, mark.height) for mark in holes]
    assert all(after.origin[0] - end > 2.0 for end, after in zip(ends, holes[1:], strict=False))


def test_a_printed_stick_longer_than_the_bed_is_joined_in_the_middle_and_measures_back():
    stick = next(part for part in sizes(job(GARLAND + PRINTED)) if part.name == "outer-stick")
    pieces = split_to_bed(as_made(stick, "print", job(GARLAND).job.workshop), (220, 220), 0.1)
    assert [piece.name for piece in pieces] == ["outer-stick-a", "outer-stick-b"]
    for piece in pieces:
        stream = io.BytesIO()
        write_stl(piece, stream)
        stream.seek(0)
        measure(piece, read_stl(stream))
        assert sum(isinstance(d.probe, ArcRadius) for d in piece.dimensions) == 3
