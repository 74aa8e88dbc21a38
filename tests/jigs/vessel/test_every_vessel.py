"""Every vessel family against every vessel in configs/: what a user is to hold says what it is."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from jigs.asked.jobfile import load
from jigs.forms.vessel.form import VESSEL
from jigs.parts.part import Lettering, Part
from jigs.parts.places import LATHE_CAUTION, SAW_CAUTION, rewrapped
from jigs.parts.probes import EdgeAngle
from jigs.words.lengths import show_length
from jigs.words.quantity import ring_numbers
from tests.jigs.inspection import text_of
from tests.jigs.shops import CONFIGS, VESSELS, each_vessel, shop

FAMILIES = tuple(family for stage in VESSEL.stages for family in stage.jigs)


def test_one_is_metric_from_stations_and_one_in_inches_from_a_drawing():
    given = {job.unit: job.outside.way for job in map(load, VESSELS)}
    assert given == {"mm": "stations", "in": "drawing"}


@each_vessel
@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.__name__)
def test_every_family_gives_parts_and_says_nothing(path, family, capsys):
    assert family(shop(path).plan) or family.__name__ in (
        "floating",
        "joint_gauges",
        "knob_gauge",
        "layup",
        "lid_gauges",
        "tier_gauges",
        "slip_box",
        "stave_sled",
    )  # no vessel in configs/ has one
    assert capsys.readouterr() == ("", "")


@each_vessel
def test_whatever_is_held_to_the_work_says_job_kind_and_that_the_lathe_stands_still(path):
    title = shop(path).plan.job.title.upper()
    held = [part for part in shop(path).parts if part.family in ("gauges", "sizes")]
    kinds = {" ".join(part.name.split("-")[:2]) for part in held}
    assert {"outside gauge", "inside gauge", "wall gauge", "gap gauge", "mouth stick", "mouth plug"} <= kinds
    for name, pieces in together(held).items():
        text = " ".join(text_of(piece) for piece in pieces)
        assert title in text, name
        assert " ".join(name.split("-")[:2]).upper() in text, name
        assert all(word in text for word in LATHE_CAUTION), name


def together(parts: list[Part]) -> dict[str, list[Part]]:
    """Parts by name, the lettered pieces of one among each other."""
    found: dict[str, list[Part]] = {}
    for part in parts:
        head, _, tail = part.name.rpartition("-")
        found.setdefault(head if len(tail) == 1 and tail.isalpha() else part.name, []).append(part)
    return found


TICK = r"([a-z]+(?: [\d-]+)?) Ø ([\d.]+)( \(([\d.]+)\))?"
FRACTION = re.compile(r"\d+/\d+|[+-] \.\d")
LENGTH_TORN = re.compile(r"(\d|[+-]|Ø)$"), re.compile(r"^(IN\b|MM\b|\d+/\d|[+-]? ?\.\d)")


def test_sizes_lettered_in_inches_are_decimals():
    """But for the stages' names, which are those of the job."""
    one = shop(CONFIGS / "tumbler.toml")
    stages = [stage.label for stage in one.plan.gauges.stages]
    for part in one.named(
        "glue-up-board", "gap-gauge", "calliper-stick", "mouth-", "stop-stick", "wall-gauge"
    ):
        text = text_of(part)
        for label in stages:
            text = text.replace(label, "")
        assert not FRACTION.search(text), part.name


@each_vessel
def test_no_length_is_torn_between_two_rows(path):
    for part in shop(path).parts:
        if part.name in ("coupon", "sheet-coupon"):  # rows of numbers
            continue
        rows = [mark.text for mark in part.marks if isinstance(mark, Lettering)]
        for above, below in pairwise(rows):
            torn = LENGTH_TORN[0].search(above) and LENGTH_TORN[1].search(below)
            assert not torn, (part.name, above, below)


@pytest.mark.parametrize("length", ["4 33/64 IN", "4.519 IN (4 33/64)", "1.250 IN", "Ø 12.50 MM"])
def test_rows_that_are_broken_anew_keep_each_length_whole(length):
    text = ("LONG NAME", f"RING 1, {length} ACROSS", f"OVER FOOT {length}")
    ways = list(rewrapped(text))
    assert max(map(len, ways)) > 3
    for rows in ways:
        assert " ".join(rows).count(length) == 2
        assert sum(row.count(length) for row in rows) == 2


@each_vessel
def test_the_profile_gauges_say_their_stage_and_where_they_stand_or_hang(path):
    plan = shop(path).plan
    for kind, ways in (("outside", ("← AXIS", "ON FACEPLATE ↓")), ("inside", ("← AXIS", "HOOK ON RIM →"))):
        for stage in plan.gauges.stages:
            pieces = shop(path).named(f"{kind}-gauge-{stage.name}")
            text = " ".join(text_of(piece) for piece in pieces)
            assert stage.label in text
            assert all(way in text for way in ways), text
    others = shop(path).named("outside-gauge-finished")[1:]
    assert [f"ON PIECE {k} ↓" in text_of(part) for k, part in enumerate(others, 1)] == [True] * len(others)


@each_vessel
def test_the_diameters_along_the_outside_gauges_are_the_sections(path):
    plan, checked = shop(path).plan, 0
    heights = {f"joint {joint.lower}-{joint.upper}": joint.height for joint in plan.stack.joints}
    heights |= {station.name: station.height for station in plan.gauges.stations}
    stages = {stage.name: stage for stage in plan.gauges.stages}
    for part in shop(path).named("outside-gauge"):
        stage = next(stage for name, stage in stages.items() if f"-{name}" in part.name)
        for name, told, _, finished in re.findall(TICK, text_of(part)):
            z = max(0.0, heights[name])
            sizes = [(told, stage.work_outside.radius_at(z)), (finished, plan.section.outer.radius_at(z))]
            for lettered, radius in sizes if finished else sizes[:1]:
                shown = plan.job.show(2 * radius, exact=True).split()[0]
                assert float(lettered) == pytest.approx(float(shown), abs=0.06), (part.name, name)
                checked += 1
    assert checked >= 12


@each_vessel
def test_sizes_are_lettered_with_their_diameter_and_the_height_they_are_for(path):
    plan, unit = shop(path).plan, shop(path).plan.job.unit
    for gap in plan.sizes.gaps:
        name = gap.station.name.upper()
        text = next(text_of(p) for p in shop(path).named("gap-gauge") if f"GAP GAUGE: {name} " in text_of(p))
        assert f"Ø{show_length(gap.go.diameter, unit, exact=True)}".upper() in text
        assert f"{show_length(gap.over_faceplate, unit, exact=True)} over faceplate".upper() in text
        assert "GO" in text
        assert "NOT YET" in text


@each_vessel
def test_what_is_for_some_rings_only_names_them(path):
    plan = shop(path).plan
    for part in shop(path).named("stop-stick", "centring-plate"):
        numbers = part.name.partition("-ring-")[2].split("-")
        assert ring_numbers(tuple(map(int, numbers))).upper() in text_of(part), part.name
    for sled in plan.saws.sleds:
        for setting in sled.settings:
            stick = next(p for p in shop(path).named("stop-stick") if ring_list(setting.rings) in text_of(p))
            assert plan.job.show(setting.stop, exact=True).upper() in text_of(stick)
    boards = " ".join(text_of(part) for part in shop(path).named("glue-up-board"))
    for layer in plan.stack.layers:
        assert layer.cut is None or f"{layer.number}" in boards


def ring_list(numbers: tuple[int, ...]) -> str:
    return f"RING{'S' * (len(numbers) > 1)} {', '.join(map(str, numbers))},"


@each_vessel
def test_the_joint_plates_are_lettered_with_their_angle_and_which_edges_bear(path):
    for part in shop(path).named("joint-plate"):
        angle = next(d.value for d in part.dimensions if isinstance(d.probe, EdgeAngle))
        assert f"{angle:.3f}".rstrip("0").rstrip(".") + "°" in text_of(part)
        assert "EDGES AT THE SHORT END TOUCH" in text_of(part)


@each_vessel
def test_parts_at_the_saw_carry_their_cautions(path):
    for part in shop(path).named(
        "plan-angle-base", "plan-angle-fence", "plan-angle-carriage", "stop-stick", "joint-"
    ):
        assert " ".join(SAW_CAUTION) in text_of(part).replace(",", ""), part.name
    for part in shop(path).named("plan-angle-base"):
        assert "↓ OPERATOR" in text_of(part)


@each_vessel
def test_a_plug_is_turned_from_discs_that_are_cut(path):
    for part in shop(path).named("mouth-plug-section", "mouth-plug-layer", "mouth-plug-flange-layer"):
        assert part.process in ("cut", "turn")
