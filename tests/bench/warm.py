"""After a change of one dimension, in a process that is warm: the plan, all parts, and the meshes of the prints.

Run as `warm.py JOB`; prints the least processor seconds of five.
"""

import re
import sys
from pathlib import Path
from time import process_time

from jigs.asked.jobfile import parse
from jigs.files.mesh import part_mesh
from jigs.forms.solve import solve
from jigs.sets.rack import rack

DIMENSION = re.compile(r"^(tube_diameter|thickness) = ([\d.]+)", re.MULTILINE)
TIMES = 5


def rebuilt(text: str, job: Path) -> None:
    parts, _ = rack(solve(parse(text, job)))
    for part in parts:
        if part.process == "print":
            part_mesh(part)


def processor_seconds(text: str, job: Path) -> float:
    start = process_time()
    rebuilt(text, job)
    return process_time() - start


if __name__ == "__main__":
    job = Path(sys.argv[1])
    as_it_is = job.read_text("utf-8")
    rebuilt(as_it_is, job)
    changed = [
        DIMENSION.sub(lambda found, k=k: f"{found[1]} = {float(found[2]) + 0.01 * k}", as_it_is, count=1)
        for k in range(1, TIMES + 1)
    ]
    assert len({as_it_is, *changed}) == TIMES + 1
    print(min(processor_seconds(text, job) for text in changed))
