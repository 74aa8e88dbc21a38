"""Strips on their boards, pieces on their strips, by laying them down one by one."""

from math import tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.boards.plan import Lot
from tests.jigs.wood.wood_jobs import ALL, plan_of, torus_text


@pytest.mark.parametrize("name", ALL)
def test_strips_with_their_kerfs_lie_on_their_board_and_give_enough(name):
    plan = plan_of(name)
    stock, kerf = plan.job.workshop.stock, plan.job.workshop.saw.kerf
    lots, given = {lot.number: lot for lot in plan.wood.lots}, {}
    for of in plan.wood.classes:
        for board in of.boards:
            strips = [strip for strip in board.strips for _ in range(strip.strips)]
            room = board.width if board.ready else board.width - stock.edge_trim
            assert sum(strip.width for strip in strips) + kerf * (len(strips) - 1) <= room + 1e-6
            for strip in board.strips:
                lot = lots[strip.lot]
                assert strip.pieces <= lot.pieces_in(board.length)
                given[strip.lot] = given.get(strip.lot, 0) + strip.pieces * strip.strips * board.count
    assert given.keys() == lots.keys()
    assert all(given[number] >= lot.wanted for number, lot in lots.items())


def test_without_a_stated_size_boards_are_bought_as_wide_as_a_strip_asks():
    text = (
        torus_text(rings=8)
        .replace('"250 mm"', '"540 mm"')
        .replace('"54 mm"', '"130 mm"')
        .replace('"20 mm"', '"50 mm"')
    )
    text += (
        "[saw]\nblade_height = 800\nblade_diameter = 1800\nthroat = 3000\n[lathe]\nswing_over_bed = 1400\n"
    )
    plan = solve(parse(text + "[printer]\nbed = [900, 900]\n[boards]\nsheet = 18\n", "loop.toml"))
    (of,) = plan.wood.classes
    assert of.taken[0].width > plan.job.workshop.stock.bought_width
    assert of.taken[0].width < plan.wood.lots[0].width + 20


def lot(**changes: object) -> Lot:
    given = {
        "number": 1, "name": "segments of ash", "piece": "segment", "rings": (1,), "species": "ash",
        "count": 40, "spares": 4,
        "thickness": 20.0, "width": 50.0, "longer": 30.0, "shorter": 30.0 - 2 * 20.0 * tan(0.3), "mitre": 0.3,
        "kerf": 3.0, "held": 82.0, "way": "turned over", "stop": None,
    }  # fmt: skip
    return Lot(**{**given, **changes})  # type: ignore[arg-type]


def cuts_along(each: Lot, length: float) -> int:
    """Pieces from a strip, cut by cut: every other one stands on its longer edge; what is held stays."""
    end, pieces = each.slant + (each.longer - each.shorter) / 2, 0  # the first cut squares nothing: it slants
    while end + each.mean + each.slant + each.held <= length + 1e-9:
        end += each.mean + each.slant
        pieces += 1
    return pieces


@given(st.floats(50, 3000), st.floats(0.0, 0.6), st.floats(0.5, 5), st.floats(0, 120))
def test_a_strip_gives_as_many_pieces_as_cutting_it_does(
    length: float, mitre: float, kerf: float, held: float
) -> None:
    each = lot(mitre=mitre, kerf=kerf, held=held, shorter=30.0 - 2 * 20.0 * tan(mitre), longer=34.0)
    pieces = each.pieces_in(length)
    if length - each.strip_length(pieces) > 1e-6:  # at the very end of a strip rounding decides
        assert pieces == cuts_along(each, length)
    assert pieces == 0 or each.strip_length(pieces) <= length + 1e-6
    assert each.strip_length(pieces + 1) > length - 1e-6
