"""What every DXF has around its entities. Run `python -m jigs.files.dxf_frame` to write frame.dxf anew."""

from __future__ import annotations

import io

from jigs.files.dxf import APPLICATION, FRAME, PROPERTIES, SIZES, property_tags

VERSION = "R2010"
COLOURS = {"cut": 1, "engrave": 5, "drill": 3, "section": 7, "note": 8}  # DXF colour index
MILLIMETRES = 4  # $INSUNITS
METRIC = 1  # $MEASUREMENT; some programs look at this one, others at $INSUNITS
LAST_HANDLE = "FFFFFF"  # leaves the entities' handles free
STAND_INS = (
    -9001.0,
    -9002.0,
    9003.0,
    9004.0,
    9005.0,
    9006.0,
    9007.0,
    9008.0,
    9009.0,
)  # for the SIZES, in their order


def frame_text() -> str:
    """An empty drawing in millimetres with the layers, as ezdxf writes it, the same in every run.

    Where its extents, its limits, its view and its properties go there are places to be filled in.
    """
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new(VERSION, units=MILLIMETRES)
        document.header["$MEASUREMENT"] = METRIC
        left, low, right, high, across, up, tall, wide, deep = STAND_INS
        document.modelspace().reset_extents((left, low, 0.0), (right, high, 0.0))
        document.modelspace().reset_limits((left, low), (right, high))
        document.layout("Layout1").reset_limits((0.0, 0.0), (wide, deep))
        document.set_modelspace_vport(tall, center=(across, up))
        document.header.custom_vars.append("-", "-")
        for name, colour in COLOURS.items():
            document.layers.add(name, color=colour)
        document.appids.add(APPLICATION)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in an order that changes by the run
            document.classes.add_class(kind)
        document.entitydb.handles.reset(LAST_HANDLE)
        text = io.StringIO()
        document.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return _with_places(text.getvalue())


def _with_places(text: str) -> str:
    """The frame with its stand-ins as places."""
    text = text.replace(property_tags("-", "-"), PROPERTIES)
    for number, place in zip(STAND_INS, SIZES, strict=True):
        text = text.replace(f"\n{number}\n", f"\n{place}\n")
    return text


if __name__ == "__main__":
    FRAME.write_text(frame_text(), "utf-8")
