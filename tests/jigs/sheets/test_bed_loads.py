from collections import Counter

import pytest
from shapely.geometry import Polygon, box

from geometry.plane.contour import polygon
from geometry.plane.sample import sample
from jigs.asked.job_shop import Printer
from jigs.files.sheets.bed_loads import SPACING, bed_loads
from jigs.parts.proof import lies_on
from tests.jigs.sheets.shop import plate, racked

BED = Printer(bed=(220.0, 200.0), nozzle=0.4, layer=0.2, play=0.1)


def printed(name, width=100.0, height=50.0, **fields):
    return plate(name, width, height, process="print", **fields)


def lying(load):
    return [Polygon(sample(item.contour(item.part.outline), 1e-3)) for item in load.placed]


@pytest.mark.parametrize("name", ["garland", "millwheel", "tumbler"])
def test_every_copy_lies_on_the_bed_once_and_clear_of_its_neighbours(name):
    parts, workshop = racked(name)
    loads = bed_loads(parts, workshop.printer)
    copies = Counter((item.part.name, item.copy) for load in loads for item in load.placed)
    assert copies == Counter(
        (part.name, k) for part in parts if part.process == "print" for k in range(1, part.quantity + 1)
    )
    for load in loads:
        shapes = lying(load)
        bed = box(0, 0, *workshop.printer.bed)
        assert all(bed.buffer(1e-6).contains(shape) for shape in shapes)
        assert all(a.distance(b) > SPACING - 0.01 for k, a in enumerate(shapes) for b in shapes[:k])


def test_loads_are_few():
    loads = bed_loads([printed("a", 100, 90, quantity=4), printed("b", 60, 30)], BED)
    assert [len(load.placed) for load in loads] == [4, 1]


def test_the_coupon_comes_first_and_alone():
    loads = bed_loads([printed("gauge", 20, 20), printed("coupon", 20, 20)], BED)
    assert [load.contents for load in loads] == ["CO coupon", "GA gauge"]
    assert [load.file for load in loads] == ["print/plate-1.3mf", "print/plate-2.3mf"]


@pytest.mark.parametrize("size", [(219, 198), (198, 219), (220 + 1e-9, 200 + 1e-9)])
def test_a_part_as_large_as_the_bed_lies_alone_in_its_middle(size):
    corner = polygon([(300, 40), (300 + size[0], 40), (300 + size[0], 41), (300, 40 + size[1])])
    loads = bed_loads([printed("whole", outline=corner, quantity=2)], BED)
    assert len(loads) == 2
    for load in loads:
        x0, y0, x1, y1 = lying(load)[0].bounds
        assert (x0 + x1, y0 + y1) == pytest.approx((220, 200))
        assert min(x0, y0) >= -1e-8
        assert lies_on((x1 - x0, y1 - y0), BED.bed)


def test_nothing_printed_is_no_load():
    assert bed_loads([plate("cut")], BED) == ()
