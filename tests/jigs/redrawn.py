"""A drawing with some of its lines changed by ezdxf; its lettering, most of the file, stays as it is, unread."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import ezdxf
from ezdxf.layouts import Modelspace
from ezdxf.lldxf.tagwriter import TagWriter

BEGIN, END = "  2\nENTITIES\n  0\n", "\n  0\nENDSEC\n"
ALONE = f"  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1024\n  0\nENDSEC\n  0\nSECTION\n{BEGIN}%s{END}  0\nEOF\n"


def redraw(file: Path, change: Callable[[Modelspace], object]) -> None:
    """Give `change` the outlines, holes and named lines of a drawing, and write what it makes of them."""
    before, _, content = file.read_text("utf-8").partition(BEGIN)
    lines, _, after = content.partition(END)
    kept, lettering = [], []
    for one in lines.split("\n  0\n"):
        unnamed = "\n  8\nengrave\n" in one and "\n1001\nJIGS\n" not in one
        (lettering if unnamed else kept).append(one)
    space = ezdxf.read(io.StringIO(ALONE % "\n  0\n".join(kept))).modelspace()
    change(space)
    stream = io.StringIO()
    writer = TagWriter(stream, dxfversion="AC1024")
    for entity in space:
        entity.export_dxf(writer)
    written = stream.getvalue().removeprefix("  0\n").removesuffix("\n")
    file.write_text(f"{before}{BEGIN}" + "\n  0\n".join([written, *lettering]) + f"{END}{after}", "utf-8")
