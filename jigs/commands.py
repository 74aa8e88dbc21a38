"""What each command does. Exit status: 0 done, 1 refused."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from jigs.progress import progress_bar
from jigs.remedies.refusal import with_remedies
from jigs.telling import say, say_json
from jigs.words.file_names import as_typed
from jigs.words.findings import Finding, Refused

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.asked.key import Form
    from jigs.asked.questions import Question
    from jigs.sets.made import Made

DONE, REFUSED = 0, 1
OUTPUTS = Path("outputs")  # where sets land


def run_make(asked: argparse.Namespace) -> int:
    return _make_some(asked) if asked.only else _make_all(asked)


def _make_some(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.sets.only import make_only

    _together("--only", asked.only, "--solids", asked.solids)
    _together("--only", asked.only, "--essential", asked.essential)
    words = [word.strip() for words in asked.only for word in words.split(",") if word.strip()]
    with with_remedies(asked.job, asked.json), progress_bar(quiet=asked.json) as progress:
        made = make_only(load(asked.job), asked.into, words, progress)
    if asked.json:
        say_json({"verdict": "made", "only": words, "folder": str(made.folder), "files": list(made.files),
                  "stay": made.stay, "same_job": made.same_job, "wrong": dict(made.wrong),
                  "notes": [note.told for note in made.warnings]})  # fmt: skip
        return DONE
    from jigs.sets.changes_told import NOW_WRONG, by_reason
    from jigs.words.quantity import count_text

    _tell_notes(made.warnings)
    say("\n".join(made.files))
    _tell_list(NOW_WRONG, by_reason(made.wrong))
    stay = f"; {count_text(made.stay, 'other stays', 'others stay')} unchanged" if made.stay else ""
    say(f"{made.folder}: {count_text(len(made.files), 'file')} written{stay}")
    if made.stay and not made.same_job:
        say("Those are of the job as it was when they were made: make without --only before you use them.")
    return DONE


def _together(one: str, asked: object, other: str, too: object) -> None:
    """Raises Refused for two options of which one makes the other useless."""
    if asked and too:
        raise Refused([Finding("wrong-option", f"{one} and {other} do not go together", "leave one out")])


def _make_all(asked: argparse.Namespace) -> int:
    from jigs.sets.standing import standing_of

    _together("--essential", asked.essential, "--solids", asked.solids)
    with with_remedies(asked.job, asked.json):
        found = None if asked.solids else standing_of(asked.job, asked.into, asked.essential)
    if found and not asked.json:
        say(f"{found.folder}: nothing changed, all {len(found.files)} files stand")
        return DONE
    from jigs.asked.jobfile import load
    from jigs.sets.changes_told import changes_json
    from jigs.sets.made import unchanged
    from jigs.sets.make import make

    with with_remedies(asked.job, asked.json), progress_bar(quiet=asked.json) as progress:
        made = (
            unchanged(found)
            if found
            else make(load(asked.job), asked.into, progress, asked.solids, asked.essential)
        )
    if asked.json:
        say_json({"verdict": "unchanged" if made.unchanged else "made", "folder": str(made.folder),
                  "files": list(made.files), "remade": list(made.remade), "right": list(made.right),
                  "wrong": dict(made.wrong), "near": dict(made.near), "sleds": dict(made.sleds),
                  "to_do": dict(made.to_do),
                  "keep": [{"table": keep.table, "line": keep.line, "jigs": list(keep.jigs)} for keep in made.keep],
                  **changes_json(made.work), "notes": [note.told for note in made.notes]})  # fmt: skip
    else:
        _tell(made)
    return DONE


def _tell_notes(notes: Sequence[Finding]) -> None:
    from jigs.stages.shop.assumed import NOT_MEASURED, assumed_text

    if assumed := assumed_text(notes):
        say(assumed)
    for note in sorted(notes, key=lambda one: one.severity == "note"):
        if note.code != NOT_MEASURED:
            say(note.told)


def _tell(made: Made) -> None:
    _tell_notes(made.notes)
    from jigs.sets.changes_told import MOST, changes_text
    from jigs.sets.shop_book import PAGE, PAPER
    from jigs.words.file_names import of_job

    say(changes_text(made, MOST))
    page, paper = (made.folder / of_job(made.folder.name, file) for file in (PAGE, PAPER))
    say(f"{made.folder}: {len(made.files)} files, each measured back; open {page} first, or print {paper}")


def _tell_list(title: str, lines: Sequence[str]) -> None:
    if lines:
        say(title)
        say("\n".join(f"  {line}" for line in lines))


def run_check(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.files.written import prove_files
    from jigs.forms.work import work
    from jigs.sets.rack import prove

    with with_remedies(asked.job, asked.json), progress_bar(quiet=asked.json) as progress:
        proof = prove(load(asked.job))
        prove_files(proof.parts, proof.plan.job, progress)
    told = work(proof.plan, proof.parts, proof.notes)
    if asked.json:
        from jigs.render.work_json import work_json

        say_json(work_json(told), indent=1)
    else:
        from jigs.render.listing import listing_text

        say(listing_text(told))
    return DONE


def run_measured(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.forms.work import work
    from jigs.sets.measured import measured, measured_json, measured_text
    from jigs.sets.rack import prove

    if asked.blank:
        return _write_blank(asked)
    with with_remedies(asked.job, asked.json):
        proof = prove(load(asked.job))
    work(proof.plan, proof.parts, proof.notes)  # refuses readings that no box of the book has
    found = measured(proof.plan, proof.parts, asked.into)
    if asked.json:
        say_json(measured_json(found), indent=1)
    else:
        say(measured_text(found, asked.job))
    return DONE


def _write_blank(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.asked.toml_source import readings_file
    from jigs.forms.work import work
    from jigs.measured.blank import blank_text
    from jigs.sets.rack import prove

    file = readings_file(asked.job)
    if file.exists():
        remedy = "write into it, or move it away first"
        raise Refused([Finding("exists", f"{file} is there already", remedy)])
    proof = prove(load(asked.job))
    _write(file, blank_text(work(proof.plan, proof.parts, proof.notes), proof.plan.kind))
    if asked.json:
        say_json({"verdict": "made", "file": str(file)})
    else:
        say(f"{file} is written; write your readings into it, then: jigs measured {as_typed(asked.job)}")
    return DONE


def _write(file: Path, text: str) -> None:
    """Raises Refused where the disk does not take it."""
    from jigs.files.swap_in import swap_in

    try:
        swap_in(file, text.encode())
    except OSError as error:
        raise Refused(
            [Finding("cannot-write", f"{file}: {error.strerror}", "choose another place")]
        ) from error


def run_compare(asked: argparse.Namespace) -> int:
    from jigs.compare.run import compare
    from jigs.compare.tell import compared_json, compared_text
    from jigs.compare.tried import file_name
    from jigs.compare.wish import Options

    ways = (asked.rings, asked.segments, asked.boards, asked.layups)
    options = Options(*ways, asked.by, asked.best, asked.saw_error)
    with progress_bar(quiet=asked.json) as progress:
        found = compare(asked.job, options, asked.write, progress)
    if asked.json:
        say_json(compared_json(found.own, found.best, found.files), indent=1)
        return DONE
    names = [file_name(asked.job, one).removesuffix(".toml") for one in found.best]
    say(compared_text(found.own, found.best, names, asked.by, found.counts, found.job.unit))
    _tell_list("written, each ready to make", [str(file) for file in found.files])
    return DONE


def run_dry_fit(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.dryfit.report import fit_json, fit_picture, fit_text
    from jigs.dryfit.torus import dry_fit
    from jigs.files.manifest import DRY_FIT, made_from
    from jigs.sets.swap import none_making

    job = load(asked.job)
    folder = asked.into / job.name
    with none_making(asked.into, job.name):
        if not made_from(folder, job.sources):
            old = "was not made from this job file as it stands now, or by another version"
            message = f"{folder} {old if folder.is_dir() else 'is not there'}"
            into = "" if asked.into == OUTPUTS else f" --into {as_typed(asked.into)}"
            make = f"run jigs make {as_typed(asked.job)}{into} first"
            raise Refused([Finding("not-made", message, make)])
        with progress_bar(quiet=asked.json) as progress:
            found = dry_fit(job, folder, progress=progress, turned=_turned(job))
        picture = _drawn(folder / DRY_FIT, lambda: fit_picture(job, folder, found))
    if asked.json:
        say_json(fit_json(found), indent=1)
    else:
        say(f"{fit_text(found)}; {picture}")
    return REFUSED if found.misfits or found.faults else DONE


def _turned(job: Job) -> Job:
    """The job with its form as it was turned, where anything was measured."""
    from jigs.forms.solve import solve

    return solve(job).job if job.readings.entries else job


def _drawn(file: Path, picture: Callable[[], str]) -> str:
    """Draw and write a picture, and say where it is, or why there is none: the verdict stands without it."""
    from jigs.files.swap_in import swap_in

    try:
        swap_in(file, picture().encode())
    except OSError as error:
        return f"no picture: {file}: {error.strerror}"
    except Exception:  # whatever the drawing of it stumbles over
        return "no picture: it could not be drawn; please report it"
    return f"picture: {file}"


def run_look(asked: argparse.Namespace) -> int:
    from jigs.asked.jobfile import load
    from jigs.looks.run import look
    from jigs.looks.wish import wish

    wished = wish(asked.ring_size, asked.layup_off, asked.off_centre, asked.seed, asked.size)
    with progress_bar(quiet=asked.json) as progress:
        looked = look(load(asked.job), asked.into, wished, progress)
    if asked.json:
        say_json({"verdict": "drawn", "folder": str(looked.folder), "files": list(looked.files),
                  "mistakes": list(looked.mistakes), "made_up_colours": list(looked.made_up)})  # fmt: skip
        return DONE
    _tell_list("with mistakes", looked.mistakes)
    _tell_list("colours made up for want of the wood's own", looked.made_up)
    say(f"{looked.folder}: {', '.join(looked.files)}")
    return DONE


def run_page(asked: argparse.Namespace) -> int:
    from jigs.new_job import choose
    from jigs.page.serve import jobs_in, serve

    job = asked.job or choose(jobs_in(Path()))

    def tell(address: str) -> None:
        if asked.json:
            say_json({"verdict": "served", "address": address})
        else:
            say(f"{job}: open {address} in a browser of this machine; Ctrl-C ends it")

    with suppress(KeyboardInterrupt):
        serve(job, asked.into, not asked.no_browser, tell)
    if not asked.json:
        say(f"stopped; {job} is as last saved")
    return DONE


def run_new(asked: argparse.Namespace) -> int:
    from jigs.asked.questions import QUESTIONS, answer
    from jigs.asked.starter import starter
    from jigs.asked.values import name_like
    from jigs.new_job import ask, ask_unit, refuse_unanswered

    if asked.file.exists():
        raise Refused([Finding("exists", f"{asked.file} is there already", "choose another name")])
    unit = asked.unit or ask_unit()
    answers: dict[str, object] = {"unit": unit}
    if (name := name_like(asked.file.stem)) != asked.file.stem:
        answers["name"] = name
    if asked.workshop:
        answers["workshop_file"] = asked.workshop
    _refuse_other_form(asked)
    refuse_unanswered((one for one in QUESTIONS[asked.form] if not _given(asked, one)), unit)
    try:
        for question in QUESTIONS[asked.form]:
            given = _given(asked, question)
            read = (
                answer(question, given)
                if given
                else ask(question, answers, unit, asked.form, bool(asked.workshop))
            )
            if read is not None:
                answers[question.key] = read
        text = starter(answers, asked.form)
    except Refused as refused:
        raise _of_options(refused, asked) from refused
    _write(asked.file, text)
    if asked.json:
        say_json({"verdict": "made", "file": str(asked.file)})
    else:
        say(f"{asked.file} is written; next: jigs check {as_typed(asked.file)}")
    return DONE


def _of_options(refused: Refused, asked: argparse.Namespace) -> Refused:
    """What is wrong with an answer, by the option that gave it."""
    from geometry.records import replace
    from jigs.asked.questions import QUESTIONS

    given = {one.key: f"--{one.option}" for one in QUESTIONS[asked.form] if _given(asked, one)}
    return Refused([replace(one, key=given.get(one.key, one.key)) for one in refused.findings])


def _refuse_other_form(asked: argparse.Namespace) -> None:
    """An option of the other form is answered for nothing."""
    from jigs.asked.questions import options

    for option, places in options().items():
        if getattr(asked, option.replace("-", "_")) and asked.form not in [form for form, _ in places]:
            message = f"--{option} is not asked of a {asked.form}"
            raise Refused([Finding("wrong-option", message, _instead(option, asked.form, places[0][0]))])


def _instead(option: str, form: Form, other: Form) -> str:
    """The form's own key of that name, where it has one; a starter holds every key with its default."""
    from jigs.asked.keys import keys_of_form

    own = next((key for key in keys_of_form(form) if key.name == option), None)
    if own is None:
        return f"leave it out, or use --form {other}"
    return f"leave it out, then write {own.name} in [{own.table}] of the file that this writes"


def _given(asked: argparse.Namespace, question: Question) -> str | None:
    given: str | None = getattr(asked, question.option.replace("-", "_"))
    return given


def run_schema(asked: argparse.Namespace) -> int:
    from jigs.asked.schema import schema_files
    from jigs.files.swap_in import swap_in

    try:
        for name, text in schema_files().items():
            swap_in(asked.folder / name, text.encode())
    except OSError as error:
        raise Refused(
            [Finding("cannot-write", f"{asked.folder}: {error.strerror}", "choose another folder")]
        ) from error
    if asked.json:
        say_json({"verdict": "made", "files": sorted(schema_files())})
    else:
        say("\n".join(str(asked.folder / name) for name in schema_files()))
    return DONE
