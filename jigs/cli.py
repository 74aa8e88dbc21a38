"""The commands. Exit status: 0 done, 1 refused, 2 wrong usage."""

from __future__ import annotations

import argparse
import json
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jigs import __version__
from jigs.findings import Finding, Refused
from jigs.progress import progress_bar
from jigs.questions import QUESTIONS, Question, answer, example_of, options

if TYPE_CHECKING:
    from jigs.make import Made

DONE, REFUSED = 0, 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Raises SystemExit(2) on wrong usage, as argparse does."""
    asked = _parser().parse_args(arguments)
    try:
        return int(asked.run(asked))
    except Refused as refused:
        _refuse(refused.findings, asked.json)
        return REFUSED
    except KeyboardInterrupt:
        print("stopped; nothing was changed", file=sys.stderr)
        return REFUSED
    except BrokenPipeError:
        return REFUSED
    except Exception as error:  # no traceback reaches a user
        _refuse([_fault(error)], asked.json)
        return REFUSED


def _fault(error: Exception) -> Finding:
    frame = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{Path(frame.filename).name}:{frame.lineno}"
    message = f"a fault of the tool, not of the job: {type(error).__name__}: {error} ({where})"
    return Finding("fault", message, "report it with the job file")


def _refuse(findings: Sequence[Finding], as_json: bool) -> None:
    if as_json:
        print(json.dumps({"verdict": "refused", "findings": [vars(f) for f in findings]}, ensure_ascii=False))
        return
    for finding in findings:
        print(f"refused: {finding}", file=sys.stderr)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="jigs", description="From one job file to every jig for a segmented torus or vessel."
    )
    parser.add_argument("--version", action="version", version=f"jigs {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    _add_make(commands)
    _add_check(commands)
    _add_dry_fit(commands)
    _add_new(commands)
    _add_schema(commands)
    return parser


def _command(commands: Any, name: str, run: object, summary: str) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=summary, description=summary)
    command.set_defaults(run=run)
    command.add_argument(
        "--json", action="store_true", help="answer for scripts: lengths in mm, angles in degrees"
    )
    return command


def _add_make(commands: Any) -> None:
    command = _command(commands, "make", _make, "prove a job and write all its jigs")
    command.add_argument("job", type=Path, help="the job file (TOML)")
    _add_into(command)


def _add_into(command: argparse.ArgumentParser) -> None:
    place = Path("outputs")
    command.add_argument(
        "--into", type=Path, default=place, metavar="FOLDER", help="where job folders land [outputs]"
    )


def _add_check(commands: Any) -> None:
    command = _command(commands, "check", _check, "prove a job and show its numbers; write nothing")
    command.add_argument("job", type=Path, help="the job file (TOML)")


def _add_dry_fit(commands: Any) -> None:
    command = _command(
        commands, "dry-fit", _dry_fit, "cut, hold and gauge the job with its written files alone"
    )
    command.add_argument("job", type=Path, help="the job file (TOML), made before")
    _add_into(command)


def _add_new(commands: Any) -> None:
    command = _command(commands, "new", _new, "write a commented starter job")
    command.add_argument("file", type=Path, help="the job file to write; must not exist")
    command.add_argument("--form", choices=tuple(QUESTIONS), default="torus", help="what is turned [torus]")
    for option, asked in options().items():
        said = " or ".join(
            f"{question.text}, such as {question.example} ({form})" for form, question in asked
        )
        command.add_argument(f"--{option}", metavar="VALUE", help=said)
    command.add_argument("--unit", choices=("mm", "in"), default="mm", help="of plain numbers [mm]")
    command.add_argument("--workshop", metavar="NAME", help="a workshop file beside it")


def _add_schema(commands: Any) -> None:
    command = _command(
        commands, "schema", _schema, "write the JSON Schemas that editors complete and check by"
    )
    command.add_argument("folder", type=Path, help="where to, such as configs")


def _make(asked: argparse.Namespace) -> int:
    from jigs.jobfile import load
    from jigs.make import make

    with progress_bar(quiet=asked.json) as progress:
        made = make(load(asked.job), asked.into, progress)
    if asked.json:
        print(json.dumps({"verdict": "unchanged" if made.unchanged else "made", "folder": str(made.folder),
                          "files": list(made.files), "remade": list(made.remade), "right": list(made.right),
                          "wrong": dict(made.wrong), "near": dict(made.near),
                          "notes": [note.told for note in made.notes]},
                         ensure_ascii=False))  # fmt: skip
    else:
        _tell(made)
    return DONE


def _tell(made: Made) -> None:
    for note in made.notes:
        print(note.told)
    if made.unchanged:
        print(f"{made.folder}: nothing changed, all {len(made.files)} files stand")
        return
    _tell_list("remade", made.remade)
    _tell_list("still right", made.right)
    since = "in the rack since the last make"
    _tell_list(f"{since}, and now wrong", [f"{part}: {why}" for part, why in made.wrong])
    _tell_list(f"{since}, out by less than its tolerance", [f"{part}: {why}" for part, why in made.near])
    print(
        f"{made.folder}: {len(made.files)} files, each measured back; print {made.folder / 'listing.txt'} first"
    )


def _tell_list(title: str, lines: Sequence[str]) -> None:
    if lines:
        print(title)
        print("\n".join(f"  {line}" for line in lines))


def _check(asked: argparse.Namespace) -> int:
    from jigs.jobfile import load
    from jigs.rack import rack
    from jigs.solve import solve
    from jigs.words.report import report_json, report_text

    plan = solve(load(asked.job))
    parts, notes = rack(plan)
    if asked.json:
        print(json.dumps(report_json(plan, parts, notes), indent=1, ensure_ascii=False))
    else:
        print(report_text(plan, parts, notes))
    return DONE


def _dry_fit(asked: argparse.Namespace) -> int:
    from jigs.dryfit.report import fit_json, fit_picture, fit_text
    from jigs.dryfit.run import dry_fit
    from jigs.jobfile import load
    from jigs.manifest import DRY_FIT, made_from

    job = load(asked.job)
    folder = asked.into / job.name
    if not made_from(folder, job.sources):
        message = f"{folder} was not made from this job file as it stands now"
        raise Refused([Finding("not-made", message, f"run jigs make {asked.job} first")])
    found = dry_fit(job, folder)
    (folder / DRY_FIT).write_text(fit_picture(job, folder, found), "utf-8")
    print(
        json.dumps(fit_json(found), indent=1)
        if asked.json
        else f"{fit_text(found)}; picture: {folder / DRY_FIT}"
    )
    return REFUSED if found.misfits else DONE


def _new(asked: argparse.Namespace) -> int:
    from jigs.starter import starter

    if asked.file.exists():
        raise Refused([Finding("exists", f"{asked.file} is there already", "choose another name")])
    answers: dict[str, object] = {"unit": asked.unit}
    if asked.workshop:
        answers["workshop_file"] = asked.workshop
    _refuse_other_form(asked)
    for question in QUESTIONS[asked.form]:
        given = _given(asked, question) or _ask(question, example_of(question, asked.unit))
        answers[question.key] = answer(question, given)
    text = starter(answers, asked.form)
    try:
        asked.file.write_text(text, "utf-8")
    except OSError as error:
        raise Refused(
            [Finding("cannot-write", f"{asked.file}: {error.strerror}", "choose another place")]
        ) from error
    print(
        json.dumps({"verdict": "made", "file": str(asked.file)})
        if asked.json
        else f"{asked.file} is written; next: jigs check {asked.file}"
    )
    return DONE


def _refuse_other_form(asked: argparse.Namespace) -> None:
    """An option of the other form is answered for nothing."""
    for option, places in options().items():
        if getattr(asked, option.replace("-", "_")) and asked.form not in [form for form, _ in places]:
            remedy = f"leave it out, or use --form {places[0][0]}"
            message = f"--{option} does not belong to a {asked.form}"
            raise Refused([Finding("wrong-option", message, remedy)])


def _given(asked: argparse.Namespace, question: Question) -> str | None:
    given: str | None = getattr(asked, question.option.replace("-", "_"))
    return given


def _ask(question: Question, example: str) -> str:
    if not sys.stdin.isatty():
        message, remedy = (
            f"nobody is here to ask: {question.text}",
            f'give --{question.option}, such as "{example}"',
        )
        raise Refused([Finding("no-answer", message, remedy)])
    try:
        return input(f"{question.text} [{example}]: ").strip() or example
    except EOFError as error:
        raise KeyboardInterrupt from error


def _schema(asked: argparse.Namespace) -> int:
    from jigs.schema import schema_files

    try:
        for name, text in schema_files().items():
            (asked.folder / name).write_text(text, "utf-8")
    except OSError as error:
        raise Refused(
            [Finding("cannot-write", f"{asked.folder}: {error.strerror}", "choose another folder")]
        ) from error
    print(
        json.dumps({"verdict": "made", "files": sorted(schema_files())})
        if asked.json
        else f"schemas are in {asked.folder}"
    )
    return DONE
