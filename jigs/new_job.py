"""What `jigs new` asks at the terminal: each answer is read at once; one that cannot be is asked for again."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from jigs.asked.jobfile.units import number_in_other_unit
from jigs.asked.key import Form
from jigs.asked.keys import KEYS
from jigs.asked.questions import Question, answer, example_of
from jigs.asked.starter import starter
from jigs.telling import complain
from jigs.words.findings import Finding, Refused, refuse
from jigs.words.lengths import Unit

UNITS: Mapping[str, Unit] = {
    "mm": "mm", "millimetres": "mm", "millimeters": "mm", "in": "in", "inch": "in", "inches": "in"
}  # fmt: skip
Answers = Mapping[str, object]  # by key, as the job file states them


def ask_unit() -> Unit:
    """Of plain numbers; mm where nobody is here to ask."""
    while sys.stdin.isatty():
        said = _answered("Unit of plain numbers, mm or in [mm]: ") or "mm"
        if said in UNITS:
            return UNITS[said]
        complain(f"{said} is neither mm nor in")
    return "mm"


def choose(jobs: Sequence[Path]) -> Path:
    """The job that is meant of those in the folder. Raises Refused where there is none, or nobody is here to ask."""
    if not jobs:
        raise Refused(
            [Finding("no-job", "there is no job file in this folder", "make one: jigs new hoop.toml")]
        )
    if len(jobs) == 1:
        return jobs[0]
    if not sys.stdin.isatty():
        names = ", ".join(str(job) for job in jobs)
        raise Refused([Finding("no-answer", f"there are several jobs here: {names}", "name one")])
    while True:
        lines = "\n".join(f"{number:3} {job}" for number, job in enumerate(jobs, 1))
        said = _answered(f"{lines}\nWhich job, by its number [1]: ") or "1"
        if said.isdecimal() and 1 <= int(said) <= len(jobs):
            return jobs[int(said) - 1]
        complain(f"{said} is none of them")


def refuse_unanswered(questions: Iterable[Question], unit: Unit) -> None:
    """Raises Refused with every one that has to be answered, where nobody is here to ask."""
    if not sys.stdin.isatty():
        refuse(
            Finding(
                "no-answer",
                f"nobody is here to ask: {question.text}",
                f'give --{question.option}, such as "{example_of(question, unit)}"',
            )
            for question in questions
            if not question.optional
        )


def ask(question: Question, so_far: Answers, unit: Unit, form: Form, has_shop: bool) -> object | None:
    """The answer as the job file states it, beside those `so_far`; None where it is left out.

    What may be left out is not asked where nobody is here, or where a workshop file states it.
    """
    while said := _said(question, example_of(question, unit), has_shop):
        try:
            read = answer(question, said)
            faults = _faults(question, read, so_far, form) or _doubts(question, read, unit)
        except Refused as refused:
            faults = [*refused.findings]
        if not faults:
            return read
        for fault in faults:
            complain(_told(fault))
    return None


def _said(question: Question, example: str, has_shop: bool) -> str:
    if question.optional:
        of_the_shop = not question.key.startswith("form.")
        if not sys.stdin.isatty() or (has_shop and of_the_shop):
            return ""
        return _answered(f"{question.text}, such as {example} (Enter: leave it out): ")
    return _answered(f"{question.text} [{example}]: ") or example


def _answered(prompt: str) -> str:
    try:
        return input(prompt).strip()
    except EOFError as error:
        raise KeyboardInterrupt from error


def _faults(question: Question, read: object, so_far: Answers, form: Form) -> list[Finding]:
    """What is wrong with this answer; that others are still missing is no fault of its own."""
    answers = {key: value for key, value in so_far.items() if key != "workshop_file"}
    try:
        starter({**answers, question.key: read}, form)
    except Refused as refused:
        return [f for f in refused.findings if f.key == question.key and f.code != "missing-key"]
    return []


def _doubts(question: Question, read: object, unit: Unit) -> list[Finding]:
    key = next(key for key in KEYS if key.path == question.key)
    doubt = number_in_other_unit(key, read, unit)
    return [doubt] if doubt is not None else []


def _told(fault: Finding) -> str:
    """Without the key, which the question has just named."""
    remedy = f". {fault.remedy[0].upper()}{fault.remedy[1:]}" if fault.remedy else ""
    return f"{fault.message}{remedy}"
