"""What an inch job gets where it says nothing is a size of its own shops, no converted millimetre."""

from itertools import chain

import pytest

from jigs.asked.defaults import ALLOWANCES, CLEAN_UPS, PRINTED_PLATES, STAGES, WIDE_DISC
from jigs.asked.keys import KEYS
from jigs.asked.vessel_job import GAPS
from jigs.stages.mountings.solve.holding import RIM_TO_A_BRACE, SMALL_WORK

METRIC_THERE_TOO = {"printer.nozzle", "printer.layer"}  # sold and set in mm everywhere
RULED, DIALLED = 25.4 / 64, 25.4 / 1000
DEFAULTS = {
    key.path: [size for size in (value if isinstance(value, tuple) else (value,)) if isinstance(size, float)]
    for key in KEYS
    if key.kind in ("length", "bed") and (value := key.default_in("in")) is not None
}


def _sold(mm: float) -> bool:
    return any(abs(mm / step - round(mm / step)) < 1e-6 for step in (RULED, DIALLED))


@pytest.mark.parametrize("path", sorted(DEFAULTS.keys() - METRIC_THERE_TOO))
def test_a_default_is_sixty_fourths_or_thousandths_of_an_inch(path: str) -> None:
    assert all(_sold(mm) for mm in DEFAULTS[path])


def test_no_default_of_an_inch_job_is_far_from_that_of_others() -> None:
    metric = {key.path: key.default for key in KEYS if key.path in DEFAULTS}
    for path, sizes in DEFAULTS.items():
        usual = metric[path]
        theirs = usual if isinstance(usual, tuple) else (usual,)
        for inches, mm in zip(sizes, theirs, strict=True):
            assert inches == pytest.approx(mm, rel=0.25), path


def test_what_follows_from_sizes_is_in_sizes_of_that_shop_too() -> None:
    pairs = (ALLOWANCES, CLEAN_UPS, PRINTED_PLATES, STAGES)
    single = [table["in"] for table in (WIDE_DISC, RIM_TO_A_BRACE, SMALL_WORK)]
    assert all(map(_sold, chain(single, GAPS["in"].values(), *(table["in"] for table in pairs))))
