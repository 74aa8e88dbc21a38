"""A make of some files of a set: those of the families and kinds that are asked for; the others stay as they are."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from geometry.records import Record
from jigs.files.formats import FORMATS
from jigs.files.manifest import MANIFEST, extras_of, input_print, manifest_text, read_manifest, sealed
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.progress import Progress
from jigs.sets.extras import Extra, extras, typeset_extras, write_extras
from jigs.sets.make import disk_finding, file_of, lean_note, place
from jigs.sets.measured import now_wrong, which_rings, which_wedge
from jigs.sets.old_set import GONE, OldSet
from jigs.sets.rack import done_with, rack
from jigs.sets.shop_book import PAGE, PAPER, PURPOSES, paper_files, shop_book
from jigs.sets.strangers import keep_strangers
from jigs.sets.swap import new_folder, only_one
from jigs.words.file_names import FULL_SIZE, LABELS, RINGS, TAPES, without_job
from jigs.words.findings import Finding, Refused, near_names, refuse
from jigs.work.lean import left_out

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.parts.part import Part
    from jigs.plans.plan import Plan
    from jigs.work.model import Work

Row = Mapping[str, Any]
KINDS = ["gauges", "sled", "cut", "print", "paper", "book"]  # named where nothing is like a word


class MadeSome(Record):
    """What was written, how many files stay, whether those are of the job as it is now, which jigs of the last make
    are now wrong, with why, and every warning.
    """

    folder: Path
    files: tuple[str, ...]
    stay: int
    same_job: bool
    wrong: tuple[tuple[str, str], ...]
    warnings: tuple[Finding, ...]


def make_only(job: Job, root: Path, words: Sequence[str], progress: Progress) -> MadeSome:
    """Write the files that any of these words means (`_means`) into root/<job name>, all of them or none.

    What stood there of the same kinds and is none of the job's now goes; all else stays, in the manifest too.
    Raises Refused as a whole make does, for a word that means no file, and where a set has lost its manifest.
    """
    try:
        root.mkdir(parents=True, exist_ok=True)
        with only_one(root, job.name):
            return _make(job, root, [word.lower() for word in words], progress)
    except OSError as error:
        raise Refused([disk_finding(root, error)]) from error


def _make(job: Job, root: Path, words: Sequence[str], progress: Progress) -> MadeSome:
    folder = root / job.name
    manifest = _manifest(folder)
    plan, old = solve(job), OldSet(folder)
    wedge = list(which_wedge(plan, old))
    refuse([*which_rings(plan, old), *wedge])
    lean = bool(manifest.get("left_out"))  # as the set that stands there
    whole, notes = rack(plan, lean)
    spared = left_out(whole) if lean else ()
    own = _part_words(whole, spared)
    chosen = [part for part, means in zip(whole, own, strict=True) if means & {*words}]
    without = [part for part in spared if part not in chosen]
    parts = [part for part in whole if part not in without]
    notes = [*notes, *lean_note(job, without)]
    told = work(plan, whole, notes, without)
    others = list(extras(plan, parts, told))
    _check(words, [*own, *(_means(e.file) for e in others), *map(_means, PURPOSES)])
    inputs = input_print(job.sources)
    same = manifest.get("inputs_sha256") == inputs
    wrong = () if same else tuple(_wrong(plan, parts, old))
    with new_folder(root, job.name) as fresh:
        entries = []
        for done, part in enumerate(chosen):
            progress(done, len(chosen) + 1, part.name)
            entries.append(place(part, old, fresh, job))
        progress(len(chosen), len(chosen) + 1, "what is no jig")
        some = [
            extra
            for extra in (*others, *_typeset(plan, parts, told, words, whole))
            if _means(extra.file) & {*words}
        ]
        rows = write_extras(some, job, fresh)
        new = json.loads(manifest_text(job, inputs, entries, rows, without=[part.name for part in without]))
        kept = _kept(manifest, words, {part.name for part in chosen})
        (fresh / MANIFEST).write_text(_joined(new, manifest, kept, words), "utf-8")
        gone = {row["file"] for row in (*manifest["files"], *extras_of(manifest))} - kept.keys()
        keep_strangers(folder, fresh, gone)
        progress(len(chosen) + 1, len(chosen) + 1, "")
    written = tuple(row["file"] for row in (*new["files"], *rows))
    mixed = _other_job(job, old) if kept else ()
    warnings = tuple(note for note in (*plan.notes, *wedge, *notes, *mixed) if note.severity == "warning")
    return MadeSome(folder, written, len(kept.keys() - {*written}), same, wrong, warnings)


def _other_job(job: Job, old: OldSet) -> Iterator[Finding]:
    if old.job_file not in ("", own := file_of(job)):
        yield job.warning(
            "other-job",
            f"{old.folder} holds the jigs of {old.job_file}, with some of {own} among them now",
            key="name",
            remedy=f"if {own} is another job, give it another name = in its first lines, then make both",
        )


def _wrong(plan: Plan, parts: Sequence[Part], old: OldSet) -> Iterator[tuple[str, str]]:
    """Whether they are written anew or not: who has made one has the old one in hand."""
    done = done_with(plan, parts)
    yield from (one for one in now_wrong(plan.job, parts, old) if one[0] not in done)
    yield from ((name, GONE) for name in sorted(old.jigs - {part.name for part in parts}))


def _manifest(folder: Path) -> dict[str, Any]:
    """Of the set that stands there; empty where there is none. Raises Refused where it is lost."""
    found = read_manifest(folder)
    if found is None and folder.is_dir() and any(folder.iterdir()):
        message = f"{folder} holds files, and no {MANIFEST} tells whose they are"
        raise Refused([Finding("manifest-lost", message, "make the whole set once, without --only")])
    return found or {"files": [], "extras": []}


def _means(file: str, family: str = "", code: str = "") -> frozenset[str]:
    """The words that a file is asked for by: its folder, what it is of, a part's family and code."""
    path = PurePosixPath(file)
    folder = "" if path.parent == PurePosixPath() else path.parent.name
    return frozenset(word.lower() for word in (folder, without_job(path.stem), family, code) if word)


def _part_words(parts: Sequence[Part], spared: Collection[Part]) -> list[frozenset[str]]:
    """Those that a lean set leaves out are asked for by name, not with all of their folder."""
    folders = ["" if part in spared else f"{FORMATS[part.process].folder}/" for part in parts]
    return [_means(f"{of}{p.name}.x", p.family, p.code) for of, p in zip(folders, parts, strict=True)]


def _check(words: Sequence[str], means: Iterable[frozenset[str]]) -> None:
    """Raises Refused for a word that means nothing, and where there is none."""
    known = sorted({word for own in means for word in own})
    faults = []
    for word in words or ('""',):
        if word not in known:
            near = near_names(word, known, most=3) or KINDS
            remedy = f"Give the name of a family, a folder, a jig or its code, such as {', '.join(near)}"
            faults.append(Finding("unknown-kind", f"--only {word}: the job has no such files", remedy))
    if faults:
        raise Refused(faults)


def _typeset(
    plan: Plan, parts: Sequence[Part], told: Work, words: Sequence[str], drawn: Sequence[Part]
) -> Iterator[Extra]:
    """What is typeset, as far as it is asked for."""
    files: dict[str, bytes] = {}
    if _any((FULL_SIZE, LABELS, TAPES, RINGS), words):
        files |= paper_files(plan, parts)
    if _any((PAGE, PAPER), words):
        with ThreadPoolExecutor(1) as own:
            files |= shop_book(plan, drawn, told, own)()
    yield from typeset_extras(lambda: files)


def _any(files: Iterable[str], words: Sequence[str]) -> bool:
    return any(_means(file) & {*words} for file in files)


def _kept(manifest: Row, words: Sequence[str], anew: Collection[str]) -> dict[str, Row]:
    """The rows of files that stay, by file; no other file of a part that is written `anew`."""
    rows = (*manifest["files"], *extras_of(manifest))
    return {
        row["file"]: row
        for row in rows
        if row.get("part") not in anew
        and not _means(row["file"], row.get("family", ""), row.get("code", "")) & {*words}
    }


def _joined(new: dict[str, Any], old: Row, kept: Mapping[str, Row], words: Sequence[str]) -> str:
    """The manifest of what was written and what stays.

    It stands for the job as it is now only where the files that stay do, and not where a lean set's book no longer
    says what is left out; sleds and the record of the work are those
    of the last whole make, which the next one is compared with.
    """
    as_lean = len(old.get("left_out", ())) == len(new.get("left_out", ()))
    same = old.get("inputs_sha256") == new["inputs_sha256"] and as_lean
    same_tool = old.get("tool_sha256", new["tool_sha256"]) == new["tool_sha256"]
    return sealed(
        {
            **new,
            **{name: _in_order(new[name], old.get(name, []), kept) for name in ("files", "extras")},
            **{name: old.get(name, new[name]) for name in ("sleds", "followed", "corrected", "work")},
            "job_file": old.get("job_file", "") if kept else new["job_file"],
            "tool_sha256": new["tool_sha256"] if same_tool else "",
            "inputs_sha256": new["inputs_sha256"] if same else "",
            **({} if same else {"only": sorted({*words, *old.get("only", ())})}),
        }
    )


def _in_order(new: Iterable[Row], old: Iterable[Row], kept: Collection[str]) -> list[Row]:
    """The new rows and those that stay, where there were such in the place of the old ones."""
    own = {row["file"]: row for row in new}
    was = [row for row in old if row["file"] in kept or row["file"] in own]
    return [*(own.pop(row["file"], row) for row in was), *own.values()]
