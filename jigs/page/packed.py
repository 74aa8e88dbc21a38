"""Jigs as files to take away: one as it is, several in a ZIP. Each is measured back, as a make does."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from jigs.asked.job import Job
from jigs.files.formats import FORMATS
from jigs.files.written import written_back
from jigs.parts.part import Part
from jigs.sets.rack import Proof
from jigs.words.file_names import of_job

MADE_AT = (1980, 1, 1, 0, 0, 0)  # the same bytes each time


def packed(proof: Proof, codes: Collection[str]) -> tuple[str, bytes]:
    """A file's name and content, of the jigs with these codes. Raises Refused where one cannot be written."""
    job = proof.plan.job
    chosen = [part for part in proof.parts if part.code in codes]
    if len(chosen) == 1:
        return _name(chosen[0], job).rpartition("/")[2], _content(chosen[0], job)
    kinds = {part.process for part in chosen}
    name = f"jigs-{kinds.pop()}.zip" if len(kinds) == 1 else "jigs.zip"
    return of_job(job.name, name), _zipped(chosen, job)


def _zipped(parts: Sequence[Part], job: Job) -> bytes:
    stream = BytesIO()
    with ZipFile(stream, "w") as pack:
        for part in parts:
            info = ZipInfo(_name(part, job), MADE_AT)
            info.compress_type = ZIP_DEFLATED
            pack.writestr(info, _content(part, job))
    return stream.getvalue()


def _name(part: Part, job: Job) -> str:
    return FORMATS[part.process].file_name(part, job.name)


def _content(part: Part, job: Job) -> bytes:
    stream = BytesIO()
    written_back(part, stream, job)
    return stream.getvalue()
