"""Write the parts of a job and measure them back, the given number of times over, without a disk.

Run as `growth.py JOB TIMES`; prints the number of files, the seconds they took and the peak memory in MiB.
"""

import io
import resource
import sys
from itertools import chain, repeat
from pathlib import Path
from time import perf_counter

from jigs.asked.jobfile import load
from jigs.files import dxf, stl
from jigs.files.mesh import part_mesh
from jigs.forms.solve import solve
from jigs.parts.readback import measure
from jigs.sets.rack import rack


def write_and_measure(part):
    part_mesh.cache_clear()
    file = io.BytesIO()
    write, read = (stl.write_stl, stl.read_stl) if part.process == "print" else (dxf.write_dxf, dxf.read_dxf)
    write(part, file)
    file.seek(0)
    return measure(part, read(file))


if __name__ == "__main__":
    parts, _ = rack(solve(load(Path(sys.argv[1]))))
    times = int(sys.argv[2])
    start = perf_counter()
    for part in chain.from_iterable(repeat(parts, times)):
        write_and_measure(part)
    seconds = perf_counter() - start
    print(len(parts) * times, seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
