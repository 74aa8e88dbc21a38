"""A candidate as a job file: the turner's own file, its lines changed, read again before it is written."""

from __future__ import annotations

import re
from pathlib import Path

from jigs.asked import toml_source
from jigs.asked.change import Change, Changes, changed, toml_value
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import Source
from jigs.asked.values import name_like
from jigs.compare.tried import Compared
from jigs.words.findings import Finding, Refused

STACK = (("n", "rings.segments"), ("h", "rings.heights"))
_LINE = re.compile(r"^(\s*[\w.\"']+\s*=\s*)(.*?)(\s*(?:#.*)?)$")


def file_name(job: Path, one: Compared) -> str:
    """hoop-18x10.toml; hoop-18x10-22_5.toml with another core; vase-n16-h21_7.toml with 16 segments in rings of that
    height; the way of the layup behind it where that is another."""
    known = {key: str(value).removesuffix(" in").replace(".", "_") for key, value in one.changes.items()}
    parts = [
        f"{known['form.wedge_rings']}x{known['form.segments']}" if "form.wedge_rings" in known else "",
        known.get("form.core_opening", ""),
        *(f"{letter}{known[key]}" for letter, key in STACK if key in known),
        known.get("layup.mirrored", "").replace(" ", "-"),
    ]
    return "-".join([job.stem, *(part for part in parts if part)]) + ".toml"


def write_all(source: Source, job: Path, found: list[Compared]) -> list[Path]:
    """Beside the job, so that it names the same workshop file. Raises Refused where a file is there or cannot be."""
    files = [job.with_name(file_name(job, one)) for one in found]
    if there := [file for file in files if file.exists()]:
        raise Refused([Finding("exists", f"{file} is there already", "Move it away first") for file in there])
    texts = [job_text(source, job, one.changes, file.stem) for one, file in zip(found, files, strict=True)]
    for file, text in zip(files, texts, strict=True):
        try:
            file.write_text(text, "utf-8")
        except OSError as error:
            message = f"{file}: {error.strerror}"
            raise Refused([Finding("cannot-write", message, "Make room beside the job")]) from error
    return files


def job_text(source: Source, job: Path, changes: Changes, name: str) -> str:
    """The file's text with these keys changed, and its own name where it states one. Raises Refused."""
    whole = {**changes, **({"name": name_like(name)} if "name" in source.data else {})}
    lines = job.read_text("utf-8-sig").replace("\r\n", "\n").split("\n")
    for key, value in whole.items():
        if key not in source.lines:  # a default, such as a layup's way: behind its section's heading
            lines[source.lines[key.rpartition(".")[0]] - 1] += f"\n{Change(key, value).line}"
            continue
        at = source.lines[key] - 1
        if found := _LINE.match(lines[at]):
            lines[at] = f"{found[1]}{toml_value(value)}{found[3]}"
    text = "\n".join(lines)
    if changed(toml_source.parse(text, str(job)), {}).data != changed(source, whole).data:
        message = f"{job} has its keys where they cannot be changed one by one"
        raise Refused([Finding("not-plain", message, "Write each key on a line of its own")])
    job_of(toml_source.parse(text, str(job)), job.with_name(f"{name}.toml"))
    return text
