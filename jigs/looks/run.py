"""Every picture of a job's finished work, and the model, written into its folder whole or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.files.manifest import input_print
from jigs.forms.solve import solve
from jigs.looks.form import form_of
from jigs.looks.lid import over, turned_over
from jigs.looks.mistakes import mistake_findings, said
from jigs.looks.model import Mesh, glb, mesh_of
from jigs.looks.picture import png, stacked
from jigs.looks.surface import paint_of, surface_of
from jigs.looks.unrolled import LINE, smooth_sheet, true_height, unrolled
from jigs.looks.views import cameras, drawn
from jigs.looks.wish import Wish
from jigs.looks.woods import made_up
from jigs.plans.plan import Plan, by_form
from jigs.plans.vessel import VesselPlan
from jigs.progress import Progress, silent_progress
from jigs.sets.look_stamp import FOLDER, stamped
from jigs.sets.swap import new_folder, only_one
from jigs.words.findings import Finding, Refused, refuse

UNROLLED = 2048  # pixels round the form
WITH_MISTAKES = "-mistakes"


class Looked(Record):
    """What was written: files in the order drawn, what was put in, names whose colours are made up."""

    folder: Path
    files: tuple[str, ...]
    mistakes: tuple[str, ...]
    made_up: tuple[str, ...]


def look(job: Job, root: Path, wish: Wish, progress: Progress = silent_progress) -> Looked:
    """Draw a job into root/<job name>/look. The pictures without mistakes stay beside those with, and the other way.

    Raises Refused when the job cannot be made, a mistake cannot be put in, or the disk refuses; what stood in the
    folder then still stands.
    """
    plan = solve(job)
    refuse(mistake_findings(plan, wish.mistakes))
    try:
        (root / job.name).mkdir(parents=True, exist_ok=True)
        with only_one(root, job.name), new_folder(root / job.name, FOLDER) as fresh:
            files = _write(plan, wish, fresh, progress)
            stamped(input_print(job.sources), root / job.name / FOLDER, fresh, files)
    except OSError as error:
        message = f"{error.filename or root}: {error.strerror or error}"
        raise Refused(
            [Finding("cannot-write", message, "choose another folder with --into, or free some room there")]
        ) from error
    return Looked(root / job.name / FOLDER, files, said(plan, wish.mistakes), made_up(plan))


def _write(plan: Plan, wish: Wish, folder: Path, progress: Progress) -> tuple[str, ...]:
    total = 9 if plan.layups else 5
    files: list[str] = []
    for name, content in _files(plan, wish):
        progress(len(files), total, name)
        (folder / name).write_bytes(content)
        files.append(name)
    progress(total, total, "")
    return tuple(files)


def _files(plan: Plan, wish: Wish) -> Iterator[tuple[str, bytes]]:
    """Names and contents, one after the other."""
    form, end = form_of(plan), WITH_MISTAKES if wish.mistakes.any else ""
    ways = (False, True) if plan.layups else (False,)
    surfaces = {turned: surface_of(plan, turned, wish.mistakes) for turned in ways}
    solid = turned_over(form.solid) if form.lid else form.solid
    for name, camera in cameras(form.meridian, form.upright, wish.size, form.lid).items():
        line = LINE / camera.scale
        pictures = drawn(solid, camera, [paint_of(surface, line, form.lid) for surface in surfaces.values()])
        for turned, picture in zip(surfaces, pictures, strict=True):
            caption = _caption(plan, form.views[name], turned, wish)
            yield _named(name, turned, end), png(picture, caption)
    for turned, surface in surfaces.items():
        sheets = [smooth_sheet(surface, form.meridian, sheet, UNROLLED) for sheet in form.sheets]
        names = ", under it ".join(sheet.name for sheet in form.sheets)
        caption = _caption(plan, f"unrolled: {names}", turned, wish)
        yield _named("unrolled", turned, end), png(stacked(sheets, UNROLLED // 40), caption)
    wide, whole = UNROLLED, form.whole
    texture = unrolled(surfaces[False], form.meridian, whole, wide, true_height(form.meridian, whole, wide))
    yield f"finished{end}.glb", glb(_standing(mesh_of(form.meridian), form.lid), texture)


def _standing(mesh: Mesh, lid: bool) -> Mesh:
    return replace(mesh, vertices=over(mesh.vertices), normals=over(mesh.normals)) if lid else mesh


def _named(name: str, turned: bool, end: str) -> str:
    return f"{name}{'-turned' if turned else ''}{end}.png"


def _caption(plan: Plan, what: str, turned: bool, wish: Wish) -> tuple[str, ...]:
    other = ""
    if turned and plan.job.layup:
        stated = "false" if plan.job.layup.turned else "true"
        other = f"; the layup turned the other way (turned = {stated} in [layup])"
    lines = [f"{plan.job.title}, {what}{other}"]
    put_in = said(plan, wish.mistakes)
    if put_in:
        lines.append(f"With mistakes: {'; '.join(put_in)}.")
    names = made_up(plan)
    if names:
        lines.append(f"Made-up colours: {', '.join(names)}.")
    return (*lines, *by_form(plan, torus=lambda _: (), vessel=_of_stack))


def _of_stack(plan: VesselPlan) -> Iterator[str]:
    if any(layer.kind == "open" for layer in plan.stack.layers):
        yield "Open gaps are drawn dark."
    if plan.stack.floating:
        yield "The floating base is drawn as the rings round it."
