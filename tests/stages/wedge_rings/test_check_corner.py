"""What the check corner says of the rings that fill it."""

import pytest

from jigs.stages.wedge_rings.parts.wedges import wedges
from tests.jigs.wood.whole_jobs import torus


@pytest.mark.parametrize(("rings", "says"), [(6, "1 wedge ring must"), (8, "2 wedge rings")])
def test_one_ring_is_not_called_rings(rings: int, says: str) -> None:
    plan = torus(rings=rings, form="least_wall = 1", more="[saw]\nblade_height = 120\n")
    (corner,) = (part for part in wedges(plan) if part.name == "check-corner")
    assert corner.purpose.startswith(says)
