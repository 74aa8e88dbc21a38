"""Which file each process gets: one line for each format."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from geometry.records import Record
from jigs.asked.job_shop import Process
from jigs.files.dxf import read_dxf, unwritten_dxf, write_dxf
from jigs.files.stl import read_stl, unwritten_stl, write_stl
from jigs.files.target import Target
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack
from jigs.words.file_names import of_job


class Format(Record):
    """Where a part's file lands, how it is written and read back. `kerf` is the cutter's, in mm.

    `unwritten` is what reading finds, without a file.
    """

    folder: str
    suffix: str
    write: Callable[[Part, Target, float], None]
    read: Callable[[Target, float], ReadBack]
    unwritten: Callable[[Part, float], ReadBack] = unwritten_dxf
    cut: bool = False  # whether the cutter's kerf concerns it

    def file_name(self, part: Part, job: str) -> str:
        """Within the set of a job of this name."""
        return of_job(job, f"{self.folder}/{part.name}.{self.suffix}")


def _write_svg(part: Part, to: Target, kerf: float) -> None:
    from jigs.files.svg import write_svg  # loads a reader of XML

    write_svg(part, to)


def _read_svg(of: Target, kerf: float) -> ReadBack:
    from jigs.files.svg import read_svg

    return read_svg(of)


FORMATS: Mapping[Process, Format] = {
    "print": Format(
        "print",
        "stl",
        lambda part, to, kerf: write_stl(part, to),
        lambda of, kerf: read_stl(of),
        lambda part, kerf: unwritten_stl(part),
    ),
    "cut": Format("cut", "dxf", write_dxf, read_dxf, cut=True),
    "turn": Format("turn", "dxf", write_dxf, read_dxf),
    "paper": Format("paper", "svg", _write_svg, _read_svg),
}
