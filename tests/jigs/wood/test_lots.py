"""Which pieces are cut, how many, and from what strips."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise
from math import ceil, cos, tan

import pytest
import shapely

from jigs.asked.job_wood import Board
from jigs.asked.jobfile import parse
from jigs.stages.boards.solve.torus import torus_lots
from jigs.stages.boards.solve.vessel_lots import vessel_lots
from jigs.stages.flat_segments.solve import saw_plan
from jigs.stages.wedge_rings.woods import spare_rings
from tests.jigs.layup.layup_jobs import with_layup
from tests.jigs.vessel.jobs import text
from tests.jigs.wood.wood_jobs import NAMES, ODD, VESSELS, lots_of, plan_of, with_stock

TORI = ("garland", "quoit", "millwheel", "one wood by rings", "woods round the ring")
STACKS = ("sorrel", "tumbler", *VESSELS)


def counts(lots, start="segments"):
    found = Counter()
    for lot in lots:
        if lot.name.startswith(start):
            found[lot.species] += lot.count
    return found


@pytest.mark.parametrize("name", TORI)
def test_a_torus_has_as_many_segments_of_each_wood_as_its_rings(name):
    plan = plan_of(name)
    asked = Counter(wood for ring in plan.species for wood in ring)
    assert counts(lots_of(plan)) == asked


@pytest.mark.parametrize("name", TORI)
def test_spare_segments_are_a_share_or_the_least_and_the_whole_spare_rings_besides(name):
    plan = plan_of(name)
    wish = plan.job.workshop.spares
    for lot in lots_of(plan):
        share = max(wish.least, ceil(lot.count * wish.segments / 100))
        assert lot.spares == share + sum(
            plan.species[rings[0] - 1].count(lot.species) for rings in plan.spare_rings
        )


@pytest.mark.parametrize("name", STACKS)
def test_a_vessel_has_as_many_segments_of_each_wood_as_its_layers(name):
    plan = plan_of(name)
    asked = Counter(wood for layer in plan.stack.layers if layer.cut for wood in layer.species)
    assert counts(lots_of(plan)) == asked


@pytest.mark.parametrize("name", STACKS)
def test_a_vessels_segments_of_one_wood_take_the_strip_that_its_sled_was_laid_out_for(name):
    plan = plan_of(name)
    strips = {s.rings: s for sled in plan.saws.sleds for set_ in sled.settings for s in set_.strips}
    for lot in lots_of(plan):
        strip = strips.get(lot.rings)
        if lot.way == "slid across" and strip is not None and strip.pieces == lot.count:
            assert lot.strip_length(lot.count) == pytest.approx(strip.length)


@pytest.mark.parametrize("name", TORI[:3])
def test_the_least_strip_ends_where_the_hold_downs_foot_does_in_the_last_cut(name):
    plan = plan_of(name)
    (lot,) = lots_of(plan)
    carrier = plan.cutting.carrier
    blade = -carrier.lean - carrier.cut.kerf / cos(carrier.cut.tilt)  # its far side at the strip's top
    for pieces in (1, 7, 40):
        left = lot.left_of(lot.strip_length(pieces), pieces)
        assert blade - left == pytest.approx(carrier.strip_feet[0])
        assert lot.pieces_in(lot.strip_length(pieces)) == pieces
        assert lot.pieces_in(lot.strip_length(pieces) - 0.01) == pieces - 1


@pytest.mark.parametrize("name", [*NAMES, *VESSELS])
def test_edges_and_mitre_of_every_piece_agree(name):
    for lot in lots_of(plan_of(name)):
        across = lot.thickness if lot.way == "turned over" else lot.width
        assert lot.longer - lot.shorter == pytest.approx(2 * across * tan(lot.mitre), abs=1e-6)


def test_rings_of_a_layup_have_strips_between_their_segments_but_no_lots_of_segments():
    plan, plied = plan_of("bottle"), (3, 4)
    saws = saw_plan(with_layup(plan.job, rings=plied), plan.stack.layers, plan.stack.staves_cut)
    lots = vessel_lots(plan.job, plan.stack, saws)
    assert not [lot for lot in lots if lot.way == "slid across" and set(plied) & set(lot.rings)]
    cut = {ring for lot in lots for ring in lot.rings if lot.way == "slid across"}
    assert cut == {layer.number for layer in plan.stack.layers if layer.cut} - set(plied)
    spacers = [lot for lot in lots_of(plan) if lot.name.startswith("strips")]
    assert [replace(lot, number=0) for lot in spacers] == [
        replace(lot, number=0) for lot in lots if lot.name.startswith("strips")
    ]


@pytest.mark.parametrize("name", ["bottle", "tumbler"])
def test_there_is_a_strip_between_any_two_segments_as_thick_as_asked(name):
    plan = plan_of(name)
    spacers = [lot for lot in lots_of(plan) if lot.name.startswith("strips")]
    rings = [layer for layer in plan.stack.layers if layer.ring.spacer]
    assert sum(lot.count for lot in spacers) == sum(len(layer.species) for layer in rings)
    assert {lot.width for lot in spacers} == {plan.job.rings.spacer}
    for lot in spacers:
        ring = plan.stack.layers[lot.rings[0] - 1].ring
        assert lot.thickness == pytest.approx(ring.height + plan.job.rings.flattening)
        # it is trimmed at both ends: 2 mm and what makes a whole mm, or 1/16 in
        assert 2 - 0.02 <= lot.longer - (ring.radius - ring.core_radius) <= 2 + 25.4 / 16


@pytest.mark.parametrize(("width", "pieces"), [(400, 1), (160, 1), (100, 2), (50, 5)])
def test_a_solid_base_is_a_square_glued_from_as_many_pieces_as_boards_ask(width, pieces):
    more = f'[stock]\nbought_width = "{width} mm"'
    job = parse(text("platter", more=more), "platter.toml")
    plan = plan_of("platter")
    lots = vessel_lots(job, plan.stack, plan.saws)
    (base,) = [lot for lot in lots if lot.name == "base"]
    across = 2 * plan.stack.layers[0].ring.outer + 4.0  # it is sawn outside the circle
    assert base.count * base.width == pytest.approx(across)
    assert base.longer == base.shorter == pytest.approx(across)
    assert base.width + job.workshop.stock.strip_clean_up + job.workshop.stock.edge_trim <= width
    assert base.count == ceil(across / (width - 6)) or pieces == base.count


def test_staves_of_a_vessel_take_boards_wider_than_their_wider_face_and_as_much_longer_as_is_flattened():
    plan = plan_of("staved")
    band, finished = plan.stack.staves_cut, plan.stack.staves
    (lot,) = [lot for lot in lots_of(plan) if lot.name.startswith("staves")]
    assert (lot.width, lot.longer, lot.thickness) == (band.stock_width + 3, band.stock_length, band.thickness)
    assert band.height == pytest.approx(finished.height + plan.job.rings.flattening)
    assert lot.count * lot.volume == pytest.approx(band.volume)
    assert lot.bevel == band.blade_tilt


def test_lots_are_numbered_from_one():
    for name in (*NAMES, *ODD, *VESSELS):
        lots = lots_of(plan_of(name))
        assert [lot.number for lot in lots] == list(range(1, len(lots) + 1))


def trapezoids(lot, count):
    """Pieces laid along a strip, every other one turned over, each as near the one before as a kerf lets it."""
    height = lot.thickness if lot.way == "turned over" else lot.width
    found, at = [], 0.0
    for number in range(count):
        low, high = (lot.longer, lot.shorter) if number % 2 == 0 else (lot.shorter, lot.longer)
        inset, outset = (0.0, lot.end) if number % 2 == 0 else (lot.end, 0.0)
        corners = [(inset, 0.0), (inset + low, 0.0), (outset + high, height), (outset, height)]
        found.append(shapely.Polygon([(at + x, y) for x, y in corners]))
        at += lot.mean + lot.slant
    return found


@pytest.mark.parametrize("name", [*NAMES, *VESSELS])
def test_pieces_turned_over_lie_a_kerf_apart_in_the_strip_that_is_asked_for(name):
    for lot in lots_of(plan_of(name)):
        pieces = trapezoids(lot, 9)
        gaps = [a.distance(b) for a, b in pairwise(pieces)]
        assert gaps == pytest.approx([lot.kerf] * 8)
        whole = shapely.union_all(pieces).bounds
        ends = 2 * lot.slant  # a cut before the first and after the last, as slanted as the others
        room = whole[2] - whole[0] + ends + lot.held
        assert lot.strip_length(9) == pytest.approx(room)


@pytest.mark.parametrize(("per_cent", "least", "rings"), [(0, 0, 0), (0, 7, 0), (50, 4, 2), (100, 99, 1)])
def test_spares_are_as_many_as_asked(per_cent, least, rings):
    plan = plan_of("garland")
    wish = replace(plan.job.workshop.spares, segments=per_cent, least=least, rings=rings)
    job = replace(plan.job, workshop=replace(plan.job.workshop, spares=wish))
    (lot,) = torus_lots(job, plan.blank, plan.cutting, plan.species, spare_rings(job, plan.species))
    ring = plan.blank.segments
    assert lot.count == plan.blank.wedge_rings * ring
    assert lot.wanted == lot.count + max(least, ceil(lot.count * per_cent / 100)) + rings * ring


def test_a_vessels_spares_are_a_share_or_the_least_and_the_base_has_none():
    for name in STACKS:
        plan = plan_of(name)
        wish = plan.job.workshop.spares
        for lot in lots_of(plan):
            share = max(wish.least, ceil(lot.count * wish.segments / 100))
            assert lot.spares == (0 if lot.piece in ("base", "plug", "rest") else share)


@pytest.mark.parametrize(("length", "pieces"), [(400, 1), (386, 1), (383, 2), (250, 2)])
def test_a_base_is_of_one_piece_only_where_a_wide_board_at_hand_is_long_enough_to_hold(length, pieces):
    plan = plan_of("platter")
    lot = lots_of(plan)[0]
    job = with_stock(plan.job, boards=(Board("cherry", lot.thickness, 300.0, float(length), 1),))
    base = vessel_lots(job, plan.stack, plan.saws)[0]
    assert (base.name, base.count) == ("base", pieces)
