"""Example jobs with one or two values changed, as a turner changes them: a little, or to another count."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import load

CONFIGS = Path(__file__).parents[2] / "configs"
JOBS = ("garland", "quoit", "millwheel", "trellis", "sorrel", "tumbler")


@dataclass(frozen=True)
class Change:
    """A job file's text with some values of its own or of its workshop changed."""

    job: str
    told: str
    text: str


def source(job: str) -> str:
    return (CONFIGS / f"{job}.toml").read_text("utf-8")


def with_key(text: str, table: str, key: str, value: str) -> str:
    """The text with a key set in its table, which is added where it is missing."""
    head = re.search(rf"^\[{table}\]$", text, re.MULTILINE)
    if head is None:
        return f"{text}\n[{table}]\n{key} = {value}\n"
    end = next((m.start() for m in re.finditer(r"^\[", text[head.end() :], re.MULTILINE)), None)
    before, body = text[: head.end()], text[head.end() :]
    body, after = (body, "") if end is None else (body[:end], body[end:])
    line = re.compile(rf"^{key} = .*$", re.MULTILINE)
    body = line.sub(f"{key} = {value}", body) if line.search(body) else f"\n{key} = {value}{body}"
    return before + body + after


def change(draw: random.Random, job: str | None = None) -> Change:
    """A random one of this job, or of any."""
    name = job or draw.choice(JOBS)
    text, told = source(name), []
    for _ in range(draw.choice((1, 1, 1, 2))):
        text, what = _changed(draw, name, text)
        told.append(what)
    return Change(name, f"{name}: {', '.join(told)}", text)


def _changed(draw: random.Random, name: str, text: str) -> tuple[str, str]:
    job = load(CONFIGS / f"{name}.toml")
    ways = _torus_ways(job) if isinstance(job, TorusJob) else _vessel_ways(name)
    return draw.choice(ways)(draw, text)


Way = Callable[[random.Random, str], tuple[str, str]]


def _length(table: str, key: str, mm: float) -> Way:
    """A length a few percent, or a few tenths of a millimetre, off."""

    def way(draw: random.Random, text: str) -> tuple[str, str]:
        by = draw.choice((draw.uniform(-0.06, 0.06) * mm, draw.uniform(-0.6, 0.6)))
        value = f'"{round(mm + by, 2)} mm"'
        return with_key(text, table, key, value), f"{key} = {value}"

    return way


def _one_of(table: str, key: str, values: tuple[str, ...]) -> Way:
    def way(draw: random.Random, text: str) -> tuple[str, str]:
        value = draw.choice(values)
        return with_key(text, table, key, value), f"{key} = {value}"

    return way


def _title(draw: random.Random, text: str) -> tuple[str, str]:
    title = draw.choice(("Loop", "A", "The long evening's ring"))
    return re.sub(
        r"^title = .*$", f'title = "{title}"', text, count=1, flags=re.MULTILINE
    ), f"title = {title}"


def _torus_ways(job: TorusJob) -> list[Way]:
    form, shop = job.form, job.workshop
    lengths = {
        ("form", "outer_diameter"): form.outer_diameter,
        ("form", "core_opening"): form.core_opening,
        ("form", "turning_allowance"): form.turning_allowance,
        ("form", "clean_up"): form.clean_up or 4.0,
        ("form", "half_sanding"): form.half_sanding or 0.5,
        ("saw", "kerf"): shop.saw.kerf,
        ("boards", "thickness"): shop.boards.thickness,
    }
    other = ("hole_diameter", 400.0) if job.name == "millwheel" else ("tube_diameter", 2 * form.tube_radius)
    counts = tuple(str(form.wedge_rings + by) for by in (-4, -2, 2))
    return [
        *(_length(*place, mm) for place, mm in lengths.items()),
        *[_length("form", *other)] * 3,
        _one_of("form", "wedge_rings", counts),
        _one_of("gauges", "stages", ('[2, 1, "finished"]', '["finished"]') if job.unit == "mm" else ('["finished"]',)),
        _title,
    ]  # fmt: skip


def _vessel_ways(name: str) -> list[Way]:
    common = [
        _length("saw", "kerf", 2.8),
        _length("boards", "thickness", 17.6),
        _one_of("rings", "segments", ("10", "18", "20")),
        _title,
    ]
    if name == "tumbler":
        return [*common, _length("rings", "spacer", 1.59), _length("rings", "core_plug", 19.05)]
    sizes = (("wall", "thickness", 7.0), ("wall", "floor", 9.0), ("rings", "heights", 21.0))
    return [*common, *(_length(*size) for size in sizes), _taller, _taller]


def _taller(draw: random.Random, text: str) -> tuple[str, str]:
    """One station's diameter of the profile a little larger or smaller."""
    rows = re.findall(r"^  \[(\d+), (\d+)\],$", text, re.MULTILINE)
    height, across = draw.choice(rows)
    value = round(int(across) * draw.uniform(0.97, 1.03), 1)
    return text.replace(f"  [{height}, {across}],", f"  [{height}, {value}],"), f"Ø{value} at {height}"
