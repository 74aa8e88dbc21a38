"""From a job file to a set of files on disk: gather, write, measure back, swap in whole."""

from __future__ import annotations

import errno
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from geometry.records import replace
from jigs.files.manifest import LAST_CHANGE, MANIFEST, Entry, input_print, manifest_text, sha256
from jigs.files.written import drawn_for, kerf_for, prove_files, written_back
from jigs.progress import Progress, silent_progress
from jigs.sets.keep import followed, worth_keeping
from jigs.sets.made import Made, unchanged
from jigs.sets.measured import which_rings, which_wedge
from jigs.sets.old_set import OldSet
from jigs.sets.sled_use import Sled, serving
from jigs.sets.solids import Writer, can_be_made, has_solids, not_installed, writer
from jigs.sets.solids import beside as solids_beside
from jigs.sets.standing import standing
from jigs.sets.swap import leftovers, new_folder, only_one, sweep
from jigs.words.findings import Finding, Refused, refuse
from jigs.words.quantity import count_text
from jigs.work.changes import record

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.parts.part import Part
    from jigs.plans.plan import Plan
    from jigs.work.model import Work

NEXT_TO = "nothing that it does has changed"


def make(
    job: Job, root: Path, progress: Progress = silent_progress, solids: bool = False, lean: bool = False
) -> Made:
    """Make a job's whole set in root/<job name>, with `solids` STEP files too where no kernel is missing for them.

    If `lean`, without the jigs that a turner who owns sleds can do without. What the job's change does not touch is
    carried over as it stands. Raises Refused when the job cannot be made, when a written file does not measure what it
    should, when another make is at work and when the disk refuses; the set that stood there then still stands.
    """
    try:
        root.mkdir(parents=True, exist_ok=True)
        with only_one(root, job.name):
            inputs = input_print(job.sources)
            wanted = solids and can_be_made(job)
            without = (not_installed(),) if solids and not wanted else ()
            found = standing(root / job.name, inputs, lean)
            if found and not (wanted and not has_solids(root / job.name)):
                sweep(root, job.name)
                return replace(unchanged(found), notes=(*without, *_left(root, job.name)))
            with writer(wanted, job) as solid_writer:
                made = _make(job, root, inputs, progress, solid_writer, lean)
            return replace(made, notes=(*made.notes, *without, *_left(root, job.name)))
    except OSError as error:
        raise Refused([disk_finding(root, error)]) from error


def _make(
    job: Job, root: Path, inputs: str, progress: Progress, solid_writer: Writer | None, lean: bool
) -> Made:
    from jigs.forms.solve import solve
    from jigs.forms.work import work
    from jigs.sets.changes_told import last_change_text
    from jigs.sets.extras import extras, typeset_extras, write_extras
    from jigs.sets.look_stamp import stale_looks
    from jigs.sets.rack import rack
    from jigs.sets.shop_book import beside
    from jigs.sets.sled_use import sleds
    from jigs.work.lean import left_out

    plan, old = solve(job), OldSet(root / job.name)
    wedge = list(which_wedge(plan, old))
    refuse([*which_rings(plan, old), *wedge])
    whole, notes = rack(plan, lean)
    without = left_out(whole) if lean else ()
    parts, notes = [part for part in whole if part not in without], [*notes, *lean_note(job, without)]
    prove_files([part for part in whole if kerf_for(part, job)], job)  # a wide cut leaves nothing to lay out
    told = work(plan, whole, notes, without)
    with (
        new_folder(root, job.name) as fresh,
        solids_beside(solid_writer, plan, parts, fresh) as step,
        beside(plan, parts, told, whole) as book,
    ):
        entries, all_steps = [], len(parts) + 2
        for done, part in enumerate(parts):
            progress(done, all_steps, part.name)
            entries.append(place(part, old, fresh, job))
        progress(len(parts), all_steps, "sheets, tables")
        rows_of_extras = write_extras(extras(plan, parts, told), job, fresh)
        progress(len(parts) + 1, all_steps, "the shop book")
        rows_of_extras += [*write_extras(typeset_extras(book), job, fresh), *step()]
        own = [] if lean else sleds(plan, parts)
        rows = [sled.row() for sled in own]
        (fresh / MANIFEST).write_text(
            manifest_text(
                job,
                inputs,
                entries,
                rows_of_extras,
                rows,
                followed(plan),
                record(told),
                plan.corrections,
                [part.name for part in without],
            ),
            "utf-8",
        )
        made = _made(plan, old, told, parts, entries, without, own, fresh)
        if old.entries and (made.remade or made.wrong or made.work.changed):
            (fresh / LAST_CHANGE).write_text(last_change_text(job.title, made), "utf-8")
        stale = stale_looks(root / job.name, inputs)
        aside = old.keep_strangers(fresh, stale)
        progress(all_steps, all_steps, "")
    others = _other_job(job, old)
    return replace(made, notes=(*plan.notes, *wedge, *notes, *others, *_looks_note(job, stale), *aside))


def lean_note(job: Job, without: Sequence[Part]) -> list[Finding]:
    if not without:
        return []
    many = count_text(len(without), "part")
    message = f"sleds, boards and the like are left out, {many}: use your own, as the book says"
    return [job.note("lean", message, remedy="make without --essential writes them")]


def file_of(job: Job) -> str:
    """Its name, by which a set knows whose it is."""
    return job.sources[0].name if job.sources else ""


def _other_job(job: Job, old: OldSet) -> list[Finding]:
    """A copied file often carries the name of the first along, and with it the folder."""
    own = file_of(job)
    if old.job_file in ("", own):
        return []
    message = f"{old.folder} held the jigs of {old.job_file}, and now holds those of {own}"
    remedy = "to keep both, give one of the two files another name = in its first lines, then make both"
    return [job.note("other-job", message, key="name", remedy=remedy)]


def _looks_note(job: Job, stale: Collection[str]) -> list[Finding]:
    if not stale:
        return []
    message = "the pictures in look/ were of the job before its change, and are deleted"
    return [job.note("stale-look", message, remedy="draw them anew by jigs look")]


def _left(root: Path, name: str) -> list[Finding]:
    """Old sets that could not be deleted; they hinder nothing."""
    return [
        Finding(
            "left-over",
            f"{file} could not be deleted",
            "delete it by hand: nothing needs it",
            severity="note",
        )
        for file in leftovers(root, name)
    ]


def _made(
    plan: Plan,
    old: OldSet,
    told: Work,
    parts: Sequence[Part],
    entries: Sequence[Entry],
    without: Sequence[Part],
    sleds: Sequence[Sled],
    fresh: Path,
) -> Made:
    """Sleds in the rack that serve whole make none of their parts wrong; jigs that have done their work are named
    apart from wrong ones."""
    from jigs.sets.rack import done_with

    job, past = plan.job, done_with(plan, parts)
    right = {e.part for e in entries if old.has(e)}
    new = [sled for sled in sleds if not set(sled.parts) <= right]
    found = serving(job, new, fresh, old.folder.parent)
    whole = {name: sled.name for sled in new if found.get(sled.name) == job.name for name in sled.parts}
    changes = old.compared(parts, entries, job, without)
    near = [
        (c.part, "; ".join((*c.within, *c.to_do)) or NEXT_TO)
        for c in changes
        if not c.wrong and c.part not in right
    ]
    bad = {c.part: "; ".join(c.reasons) for c in changes if c.wrong}
    near += [(part, f"right while the {whole[part]} is kept whole") for part in bad if part in whole]
    wrong = {part: why for part, why in bad.items() if part not in whole and part not in past}
    still = {part.name: part.name not in wrong for part in parts if part.name in old.jigs}
    return Made(
        folder=old.folder,
        files=tuple(e.file for e in entries),
        unchanged=False,
        remade=tuple(e.part for e in entries if e.part not in right),
        right=tuple(e.part for e in entries if e.part in right),
        wrong=tuple(wrong.items()),
        near=tuple(near),
        to_do=tuple((c.part, "; ".join(c.to_do)) for c in changes if c.to_do),
        work=old.work(told),
        told=told if old.entries else None,
        sleds=tuple(found.items()),
        done=tuple(part for part in bad if part in past and part not in whole),
        keep=worth_keeping(plan, old, still),
    )


def place(part: Part, old: OldSet, folder: Path, job: Job) -> Entry:
    """Carry a part's file over from the old set where it is the same, else write it and measure it back."""
    from jigs.files.formats import FORMATS
    from jigs.sets.changes import judged_by, part_print

    form = FORMATS[part.process]
    kerf, drawn = kerf_for(part, job), drawn_for(part, job)
    name, content = form.file_name(part, job.name), part_print(part, kerf, drawn)
    file = folder / name
    file.parent.mkdir(exist_ok=True)
    kept = old.carry(name, content, file)
    measured = kept["dimensions"] if kept else written_back(part, file, job)
    return Entry(
        file=name,
        family=part.family,
        code=part.code,
        part=part.name,
        purpose=part.purpose,
        process=part.process,
        material=part.material,
        quantity=part.quantity,
        content_sha256=content,
        sha256=sha256(file.read_bytes()),
        dimensions=tuple(measured),
        judged_by=judged_by(part, kerf, drawn),
    )


def disk_finding(root: Path, error: OSError) -> Finding:
    remedy = {
        errno.ENOSPC: "free some room on that disk",
        errno.EACCES: "choose a folder you may write to, with --into",
        errno.EROFS: "choose a folder you may write to, with --into",
        errno.EEXIST: "choose a folder, with --into: a file has that name",
        errno.ENOTDIR: "choose a folder, with --into: a file has that name",
    }.get(error.errno or 0, "fix that, then run this again")
    return Finding(
        "cannot-write", f"{error.filename or root}: {error.strerror or error}; the old set stands", remedy
    )
