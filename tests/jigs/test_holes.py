"""A plate whose hole leaves it, or whose holes meet, is not made."""

import pytest

from geometry.plane.contour import circle, rectangle
from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.parts.proof import faults
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from tests.jigs.sheets.shop import plate
from tests.jigs.shops import CONFIGS


def with_holes(*holes: tuple[float, float, float]) -> Part:
    """A plate of 40 x 20 mm with round holes: middle and radius."""
    round_holes = tuple(circle((x, y), radius).cw() for x, y, radius in holes)
    return plate("sled-base", outline=rectangle(0, 0, 40, 20), holes=round_holes)


@pytest.mark.parametrize(
    ("holes", "wrong"),
    [
        ([(10, 10, 3), (20, 10, 3)], []),
        ([(10, 10, 3), (38, 10, 3)], ["hole 2 leaves the outline"]),
        ([(10, 10, 3), (50, 10, 3)], ["hole 2 leaves the outline"]),
        ([(20, 10, 11)], ["hole 1 leaves the outline"]),
        ([(10, 10, 3), (14, 10, 3)], ["holes 1 and 2 meet"]),
        ([(10, 10, 6), (11, 10, 2)], ["holes 1 and 2 meet"]),
    ],
)
def test_holes_lie_in_their_plate_clear_of_each_other(holes, wrong):
    assert list(faults(with_holes(*holes))) == wrong


def test_a_job_with_such_a_plate_is_refused(monkeypatch):
    monkeypatch.setattr("jigs.sets.rack.parts_of", lambda plan: [with_holes((38, 10, 3))])
    with pytest.raises(Refused) as refused:
        rack(solve(load(CONFIGS / "garland.toml")))
    assert {(one.code, one.key) for one in refused.value.findings} == {("hole", "boards.sheet")}
