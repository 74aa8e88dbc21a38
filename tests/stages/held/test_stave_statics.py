"""Staves on their sled."""

from dataclasses import replace

from hypothesis import given

from jigs.stages.held.check.held import LEAST_GRIP
from jigs.stages.held.statics.staves import sled_pieces
from jigs.stages.staves.layout import StaveSledLayout
from tests.stages.sled_shop import a_shop
from tests.stages.staves.test_stave_sled import sleds


@given(sleds())
def test_a_stave_is_held_in_both_cuts_and_without_the_points_in_neither(sled: StaveSledLayout) -> None:
    for piece in sled_pieces(sled):
        assert piece.caged().held
        assert piece.grip > LEAST_GRIP
        bare = replace(piece, pins=())
        assert not bare.caged().held


def test_a_wide_short_stave_whose_taper_turns_its_ends_away_is_held() -> None:
    """A finger that started as near the fence as for a straight one would have pressed beside it, and held nothing."""
    sled = StaveSledLayout(
        0.5618, 0.2979, 173.9, (176.9, 52.0), True, height=23.0, kerf=3.0, **a_shop(12.0, 0.1, 100.0)
    )
    assert sled.pad[0] > 35.0
    assert min(piece.grip for piece in sled_pieces(sled)) > 2.0
