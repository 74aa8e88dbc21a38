"""The command line: what may be asked, and how a refusal is told.

Exit status: 0 done, 1 refused, 2 wrong usage, 3 done but the answer could not be written.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import Any, NoReturn

from geometry.grouping import gathered
from jigs import __version__, commands
from jigs.commands import OUTPUTS, REFUSED
from jigs.telling import NotTold, complain, say_json
from jigs.words.findings import Finding, Refused, RefusedJob

NOT_TOLD = 3
WIDTH = (
    78  # of the help; to ask a terminal for its own, argparse loads what reads archives, before any command
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Raises SystemExit(2) on wrong usage, as argparse does."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    asked = _parser(given[0] if given else "").parse_args(given)
    try:
        return int(asked.run(asked))
    except Refused as refused:
        _refuse(refused, asked.json)
        return REFUSED
    except KeyboardInterrupt:
        complain("stopped; nothing was changed")
        return REFUSED
    except NotTold as error:
        return _not_told(error)
    except Exception as error:  # no traceback reaches a user
        _refuse(Refused([_fault(error)]), asked.json)
        return REFUSED


def _not_told(error: NotTold) -> int:
    """Nothing is said where whoever read the answer has had enough of it."""
    if str(error):
        complain(f"done, but the answer could not be written: {error}")
    return NOT_TOLD


def _fault(error: Exception) -> Finding:
    import traceback

    frame = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{Path(frame.filename).name}:{frame.lineno}"
    message = f"a fault of the tool, not of the job: {type(error).__name__}: {error} ({where})"
    return Finding("fault", message, "report it with the job file")


def _refuse(refused: Refused, as_json: bool) -> None:
    """On standard error; as JSON on standard output, if that can be."""
    tried = refused if isinstance(refused, RefusedJob) else None
    if as_json:
        answer = {"verdict": "refused", "findings": [_told(finding) for finding in refused.findings]}
        with suppress(NotTold):
            say_json(answer | (_tried(tried) if tried else {}))
            return
    for finding in refused.findings:
        complain(f"refused: {finding}")
    if tried:
        complain(f"\n{tried.advice}")


def _tried(tried: RefusedJob) -> dict[str, object]:
    return {"remedies": tried.remedies, "assumed": [_told(finding) for finding in tried.assumed]}


def _told(finding: Finding) -> dict[str, object]:
    return {name: value for name, value in vars(finding).items() if name != "wants"}


class _Parser(argparse.ArgumentParser):
    """argparse takes a value such as -3mm for an option and misses the value; here it says what would do."""

    def __init__(self, **more: Any) -> None:
        super().__init__(formatter_class=partial(argparse.HelpFormatter, width=WIDTH), **more)

    def error(self, message: str) -> NoReturn:
        if message.endswith("expected one argument"):
            message += "; write its value after it, without a minus"
        if message.startswith("unrecognized arguments"):
            message += "; a name with spaces needs quotes"
        super().error(message)


def _parser(command: str) -> argparse.ArgumentParser:
    """Knows the one command, if there is such a one: what the others may be asked takes longer than reading a job."""
    parser = _Parser(
        prog="jigs", description="From one job file to every jig for a segmented torus or vessel."
    )
    parser.add_argument("--version", action="version", version=f"jigs {__version__}")
    subparsers = parser.add_subparsers(metavar="COMMAND", required=True, prog=parser.prog)
    known = {
        "make": _add_make, "check": _add_check, "compare": _add_compare, "measured": _add_measured,
        "dry-fit": _add_dry_fit, "look": _add_look, "page": _add_page, "new": _add_new, "schema": _add_schema,
    }  # fmt: skip
    for add in [known[command]] if command in known else known.values():
        add(subparsers)
    return parser


def _command(
    into: Any, name: str, run: object, summary: str, scripts: str = "answer for scripts: mm and radians"
) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = into.add_parser(name, help=summary, description=summary)
    command.set_defaults(run=run)
    command.add_argument("--json", action="store_true", help=scripts)
    return command


def _add_make(into: Any) -> None:
    command = _command(into, "make", commands.run_make, "prove a job and write all its jigs")
    command.add_argument("job", type=Path, help="the job file (TOML)")
    command.add_argument(
        "--solids", action="store_true",
        help="exact solids too, as STEP: every part, every sled and mounting put together; a torus needs CadQuery",
    )  # fmt: skip
    command.add_argument(
        "--essential", action="store_true",
        help="leave out sleds, boards and the like, for those who own some: gauges, sizes, reference wedges, what "
        "holds the work on the lathe, and the book",
    )  # fmt: skip
    command.add_argument(
        "--only", action="append", default=[], metavar="KIND",
        help="write only these files, the others stay: a family (gauges), a folder (cut), a jig or its code (CO), "
        "book; several by commas",
    )  # fmt: skip
    _add_into(command)


def _add_into(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--into", type=Path, default=OUTPUTS, metavar="FOLDER", help=f"where job folders land [{OUTPUTS}]"
    )


def _add_check(into: Any) -> None:
    command = _command(into, "check", commands.run_check, "prove a job and show its numbers; write nothing")
    command.add_argument("job", type=Path, help="the job file (TOML)")


def _add_compare(into: Any) -> None:
    from jigs.compare.wish import BEST, BY, MOST_BEST, SAW_ERROR

    summary = "other counts of rings and segments, and other boards, side by side"
    command = _command(into, "compare", commands.run_compare, summary)
    command.add_argument("job", type=Path, help="the job file (TOML)")
    command.add_argument("--by", choices=BY, default="time", help="what matters most [time]")
    command.add_argument("--rings", metavar="FROM-TO", help="counts of wedge rings, of a torus [8-48]")
    command.add_argument("--segments", metavar="FROM-TO", help="counts of segments in a ring [6-24]")
    command.add_argument(
        "--boards",
        metavar="LIST",
        help="thicknesses as planed; a vessel's rings are as high, flattened [those in stock]",
    )
    command.add_argument("--layups", metavar="LIST", help="how a layup may be mirrored, or any [as it is]")
    command.add_argument(
        "--best",
        type=int,
        default=BEST,
        metavar="COUNT",
        help=f"how many to name, up to {MOST_BEST} [{BEST}]",
    )
    command.add_argument(
        "--saw-error",
        default=f"{SAW_ERROR}",
        metavar="DEGREES",
        help=f"of each wedge ring's or vessel segment's angle [{SAW_ERROR}]",
    )
    command.add_argument("--write", action="store_true", help="write each as a job file beside the job")


def _add_measured(into: Any) -> None:
    summary = "from readings of the work to corrections, and which jigs are now wrong"
    command = _command(into, "measured", commands.run_measured, summary)
    command.add_argument("job", type=Path, help="the job file (TOML); its readings stand beside it")
    command.add_argument("--blank", action="store_true", help="write a blank readings file beside the job")
    _add_into(command)


def _add_dry_fit(into: Any) -> None:
    command = _command(
        into, "dry-fit", commands.run_dry_fit, "cut, hold and gauge the job with its written files alone",
        "answer for scripts: each figure with its unit, mm or deg",
    )  # fmt: skip
    command.add_argument("job", type=Path, help="the job file (TOML), made before")
    _add_into(command)


def _add_look(into: Any) -> None:
    command = _command(
        into, "look", commands.run_look, "draw the finished work: pictures, and a model to turn about"
    )
    command.add_argument("job", type=Path, help="the job file (TOML)")
    _add_into(command)
    mistake = "a mistake to put in: "
    for option, what in (
        ("ring-size", "rings up to so much too thick or too thin"),
        ("layup-off", "the layup so far off the middle"),
        ("off-centre", "the work mounted so far off centre"),
    ):
        command.add_argument(f"--{option}", default="0", metavar="MM", help=f"{mistake}{what}")
    command.add_argument("--seed", default="1", help="other rings are too thick [1]")
    command.add_argument("--size", default="900", metavar="PIXELS", help="a picture's longer side [900]")


def _add_page(into: Any) -> None:
    summary = "see and change a job in the browser; nothing leaves this machine"
    command = _command(into, "page", commands.run_page, summary, "print the address for scripts")
    command.add_argument("job", type=Path, nargs="?", help="the job file (TOML) [one of this folder]")
    command.add_argument("--no-browser", action="store_true", help="print the address, open nothing")
    _add_into(command)


def _add_new(into: Any) -> None:
    from jigs.asked.questions import QUESTIONS, options

    command = _command(into, "new", commands.run_new, "write a commented starter job")
    command.add_argument("file", type=Path, help="the job file to write; must not exist")
    command.add_argument("--form", choices=tuple(QUESTIONS), default="torus", help="what is turned [torus]")
    for option, asked in options().items():
        forms = gathered((f"{question.text}, such as {question.example}", form) for form, question in asked)
        said = " or ".join(f"{text} ({', '.join(of)})" for text, of in forms.items())
        command.add_argument(f"--{option}", metavar="VALUE", help=said)
    command.add_argument("--unit", choices=("mm", "in"), help="of plain numbers [asked for; mm]")
    command.add_argument("--workshop", metavar="NAME", help="a workshop file beside it")


def _add_schema(into: Any) -> None:
    command = _command(
        into, "schema", commands.run_schema, "write the JSON Schemas that editors complete and check by"
    )
    command.add_argument("folder", type=Path, help="where to, such as configs")
