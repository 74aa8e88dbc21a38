"""The outside of a tumbler, as a drawing program would save it. Run as a script to write configs/tumbler.dxf anew."""

import io
from pathlib import Path

from ezdxf._options import options
from ezdxf.filemanagement import new
from ezdxf.math import BSpline

FILE = Path(__file__).parents[2] / "configs" / "tumbler.dxf"
LAYER = "outside"
INCHES = 1  # $INSUNITS
# Radius and height, inches: foot 2 3/4 across, belly near 4 1/2, mouth 3 1/2, 6 high.
CONTROL = ((1.375, 0.0), (1.72, 0.85), (2.28, 2.0), (2.27, 3.6), (1.73, 4.65), (1.6, 5.3), (1.75, 6.0))


def tumbler():
    """Its curve, inches."""
    return BSpline(CONTROL, order=4)


def tumbler_text():
    """The drawing, R2010, the same bytes in every run."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new("R2010", units=INCHES)
        document.header["$MEASUREMENT"] = 0
        document.layers.add(LAYER, color=7)
        document.modelspace().add_spline(dxfattribs={"layer": LAYER}).apply_construction_tool(tumbler())
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in an order that changes by the run
            document.classes.add_class(kind)
        text = io.StringIO()
        document.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return text.getvalue()


if __name__ == "__main__":
    FILE.write_text(tumbler_text(), "utf-8")
