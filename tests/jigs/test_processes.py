import io
from pathlib import Path

import pytest

from jigs.asked.jobfile import load, parse
from jigs.files.dxf import read_dxf, write_dxf
from jigs.files.stl import read_stl, write_stl
from jigs.files.svg import read_svg, write_svg
from jigs.forms.solve import solve
from jigs.parts.coding import settled
from jigs.parts.families import FAMILIES
from jigs.parts.probes import Extent, Thickness
from jigs.parts.processes import as_chosen, as_made, plate_thickness, play_of
from jigs.parts.readback import measure
from jigs.parts.splitting import split_to_bed
from jigs.sets.rack import prove, rack
from jigs.stages.coupon.parts import coupon
from jigs.stages.gauging.parts.profile import gauges
from jigs.stages.sizes.parts.forks import sizes
from jigs.stages.wedge_rings.parts.wedges import wedges
from jigs.words.findings import Refused

GARLAND = Path(__file__).parents[2] / "configs" / "garland.toml"
WRITERS = {"print": (write_stl, read_stl), "cut": (write_dxf, read_dxf), "paper": (write_svg, read_svg)}


@pytest.fixture(scope="module")
def plan():
    return solve(load(GARLAND))


def written_and_read(part):
    write, read = WRITERS[part.process]
    stream = io.BytesIO()
    write(part, stream)
    stream.seek(0)
    return read(stream)


@pytest.mark.parametrize("process", ["print", "cut", "paper"])
@pytest.mark.parametrize("family", [gauges, sizes, wedges, coupon], ids=lambda family: family.__name__)
def test_every_hand_jig_can_be_made_each_way_and_measures_back(plan, family, process):
    for part in family(plan):
        made = as_made(part, process, plan.job.workshop)
        assert made.process == process
        found = measure(made, written_and_read(made))
        kept = {d.name for d in part.dimensions if not isinstance(d.probe, Thickness)}
        assert kept <= {item.name for item in found}


def test_a_process_asked_for_twice_changes_nothing_more(plan):
    for part in (*gauges(plan), *wedges(plan)):
        for process in ("print", "cut", "paper"):
            once = as_made(part, process, plan.job.workshop)
            assert as_made(once, process, plan.job.workshop) == once


def test_outline_holes_and_lettering_stay(plan):
    for part in gauges(plan):
        made = as_made(part, "cut", plan.job.workshop)
        assert (made.outline, made.holes, made.marks) == (part.outline, part.holes, part.marks)


def test_thickness_follows_the_machine(plan):
    shop = plan.job.workshop
    (gauge, *_), (_, plate, *_) = gauges(plan), wedges(plan)
    assert as_made(gauge, "cut", shop).thickness == shop.boards.sheet
    assert as_made(plate, "print", shop).thickness == 4
    assert plate_thickness("print", shop, 151, "mm") == 6
    assert as_made(gauge, "paper", shop).thickness == shop.boards.sheet  # what its drawing is glued on
    assert [play_of(process, shop) for process in ("print", "cut")] == [0.1, 0.15]


def test_a_printed_stack_is_one_block_as_thick(plan):
    stack = next(part for part in wedges(plan) if part.name == "sled-wedge")
    printed = as_made(stack, "print", plan.job.workshop)
    assert (printed.quantity, printed.thickness) == (1, stack.quantity * stack.thickness)


def test_lettering_is_as_wide_as_the_nozzle_prints_it(plan):
    for part in (settled(part, "") for part in wedges(plan)):
        made = as_made(part, "print", plan.job.workshop)
        least = min(mark.height for mark in part.marks)
        assert made.mark_width in (0.4, 0.8)
        assert made.mark_width <= 0.2 * least or made.mark_width == 0.4


def test_a_bevel_is_printed_only_and_filed_by_hand_else():
    plan = solve(job_with("gauges = 'cut'"))
    bevelled = [part for part in gauges(plan) if part.bevel is not None]
    assert bevelled
    for part in bevelled:
        for process in ("cut", "paper"):
            made = as_made(part, process, plan.job.workshop)
            assert made.bevel is None
            (note,) = (note for note in made.making if "file" in note)
            assert "hole" not in note or part.name != "channel-gauge"


def test_turned_parts_are_turned_whatever_is_chosen(plan):
    turned = [part for part in rack(plan)[0] if part.process == "turn"]
    assert turned
    for part in turned:
        assert as_made(part, "paper", plan.job.workshop) == part
        assert as_chosen(part, plan.job.workshop) == part


def job_with(made):
    return parse(GARLAND.read_text() + f"\n[made]\n{made}\n", GARLAND)


def test_the_choice_of_a_family_reaches_its_parts_and_no_others(plan):
    before = {part.name: part.process for part in rack(plan)[0]}
    after = {part.name: part for part in rack(solve(job_with("angles = 'paper'\ngauges = 'cut'")))[0]}
    for name, process in before.items():
        family = after[name].family
        wanted = {"angles": "paper", "gauges": "cut"}.get(family, process)
        assert after[name].process == wanted


@pytest.mark.parametrize("family", ["sled", "segments", "truing", "clamping", "mountings", "holding"])
def test_what_a_blade_or_the_lathe_carries_or_fits_the_sheet_is_not_printed(family):
    with pytest.raises(Refused) as refused:
        job_with(f"{family} = 'print'")
    (finding,) = refused.value.findings
    assert (finding.code, finding.key) == ("not-a-choice", f"made.{family}")


def test_every_family_of_either_form_has_its_choice(plan):
    made = plan.job.workshop.made.by_family()
    others = [solve(load(GARLAND.with_name(f"{name}.toml"))) for name in ("sorrel", "trellis")]
    families = {part.family for each in (plan, *others) for part in rack(each)[0]}
    assert families | {"pads"} == {*(family.id for family in FAMILIES), "pads"} == set(made)


def test_a_pad_planed_from_wood_keeps_the_height_that_it_makes_up(plan):
    pads = [
        part
        for p in (plan, solve(job_with("pads = 'cut'")))
        for part in rack(p)[0]
        if part.name == "brace-pad"
    ]
    assert [pad.process for pad in pads] == ["print", "cut"]
    assert pads[0].thickness == pads[1].thickness == plan.mountings.brace.pad
    assert "planed" in pads[1].material


def test_the_mountings_choice_leaves_their_pads_printed():
    parts = [part for part in rack(solve(job_with("mountings = 'paper'")))[0] if part.family == "mountings"]
    assert {part.name: part.process for part in parts} == {
        "first-board-section": "turn",
        "brace-strap": "paper",
        "brace-block-layer": "paper",
        "brace-pad": "print",
    }


def test_a_gauge_cut_from_thick_sheet_is_bevelled_for_that_sheet():
    plan = solve(job_with("standing = 'cut'"))
    sheet = plan.job.workshop.boards.sheet
    assert (plan.gauges.standing_plate, plan.gauges.plate) == (sheet, 4)
    inner = [
        part for part in rack(plan)[0] if part.name.startswith("standing-gauge") and "inner" in part.name
    ]
    assert len(inner) == 2
    for part in inner:
        assert (part.process, part.thickness) == ("cut", sheet)
        assert any("file" in note for note in part.making)
        measure(part, written_and_read(part))


@pytest.mark.parametrize("family", ["sled", "segments", "truing", "clamping"])
def test_a_carrier_on_paper_is_drawn_to_be_sawn_by_hand(family):
    parts = [part for part in rack(solve(job_with(f"{family} = 'paper'")))[0] if part.family == family]
    assert parts
    for part in parts:
        assert part.process == "paper"
        measure(part, written_and_read(part))


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_coupon_is_one_piece_on_a_small_bed_for_a_joint_would_be_measured_with_it(unit):
    small = (
        GARLAND.read_text().replace('unit = "mm"', 'unit = "UNIT"')
        + '\n[printer]\nbed = ["120 mm", "120 mm"]\n'
    )
    small = small.replace("= 250", '= "250 mm"').replace("= 54", '= "54 mm"').replace("= 20", '= "20 mm"')
    small = small.replace("[3, 1,", '["3 mm", "1 mm",').replace("UNIT", unit)
    parts = rack(solve(parse(small, GARLAND)))[0]
    (part,) = [part for part in parts if part.family == "coupon" and part.process == "print"]
    assert max(d.value for d in part.dimensions if isinstance(d.probe, Extent)) <= 120
    measure(part, written_and_read(part))
    with pytest.raises(Refused, match="coupon is"):
        prove(parse(small.replace("120 mm", "110 mm"), GARLAND))


def test_a_gauge_longer_than_the_bed_comes_in_pieces_that_lie_on_it():
    job = parse(GARLAND.read_text() + "\n[printer]\nbed = [75, 75]\n", GARLAND)
    play = job.workshop.printer.play
    pieces = [piece for part in gauges(solve(job)) for piece in split_to_bed(part, (75.0, 75.0), play)]
    assert any(part.name.endswith("-b") for part in pieces)
    for part in pieces:
        size = [d.value for d in part.dimensions if isinstance(d.probe, Extent)]
        assert max(size) <= 75
        measure(part, written_and_read(part))
