"""What is sold and worn where a turner measures in inches."""

import re

import pytest

from geometry.hardware.fittings import IN_INCHES, METRIC, screw_number
from jigs.asked.jobfile.read import ALL
from jigs.work.cautions import CAUTIONS, caution_text

# NIST product standard PS 1, thickness at least and at most by performance category, in (APA's table of it).
PS_1 = {"15/32": (0.438, 0.500), "23/32": (0.688, 0.750)}
# Per cent of the finest particles kept back: EN 149; 42 CFR 84 (NIOSH publication 96-101, of 1996).
KEPT_BACK = {"FFP1": 80.0, "FFP2": 94.0, "FFP3": 99.0, "N95": 95.0, "N99": 99.0, "P100": 99.97}


@pytest.mark.parametrize(("key", "category"), [("boards.sheet", "15/32"), ("boards.thickness", "23/32")])
def test_sheets_of_inch_jobs_are_as_thick_as_plywood_is_sold(key: str, category: str) -> None:
    low, high = PS_1[category]
    default = ALL[key].default_in("in")
    assert isinstance(default, float)
    assert low <= default / 25.4 <= high


def test_masks_of_inch_jobs_carry_the_marks_sold_there_and_keep_back_no_less() -> None:
    masked = [id for id in CAUTIONS if "EN 149" in caution_text(id, "mm")]
    assert len(masked) >= 3
    for id in masked:
        inches = re.search(r"\(NIOSH (\w+)\)", caution_text(id, "in"))
        metric = re.search(r"\(EN 149 (\w+)\)", caution_text(id, "mm"))
        assert inches
        assert metric
        assert KEPT_BACK[inches[1]] >= KEPT_BACK[metric[1]]
    assert not [id for id in CAUTIONS if "EN 149" in caution_text(id, "in")]


def test_a_faceplates_screws_are_called_by_the_number_that_they_are_sold_by() -> None:
    # ASME B18.6.1, from memory: wood screws number 8 are 0.164 in across, number 10 are 0.190 in.
    assert (screw_number(0.164 * 25.4), screw_number(0.190 * 25.4)) == ("#8", "#10")
    assert screw_number(IN_INCHES.wood_screw[0]) == "#10"
    assert screw_number(METRIC.wood_screw[0]) == ""
