"""What every DXF has around its entities. Run `python -m jigs.files.dxf_frame` to write frame.dxf anew."""

from __future__ import annotations

import io

from jigs.files.dxf import APPLICATION, FRAME

VERSION = "R2010"
COLOURS = {"cut": 1, "engrave": 5, "drill": 3, "section": 7, "note": 8}  # DXF colour index
MILLIMETRES = 4  # $INSUNITS
METRIC = 1  # $MEASUREMENT; some programs look at this one, others at $INSUNITS
LAST_HANDLE = "FFFFFF"  # leaves the entities' handles free


def frame_text() -> str:
    """An empty drawing in millimetres with the layers, as ezdxf writes it, the same in every run."""
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new(VERSION, units=MILLIMETRES)
        document.header["$MEASUREMENT"] = METRIC
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
    return text.getvalue()


if __name__ == "__main__":
    FRAME.write_text(frame_text(), "utf-8")
