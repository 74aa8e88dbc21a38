"""Seconds that a thousand candidates take, from counts to their order; printed for the bench."""

from pathlib import Path
from time import perf_counter

from jigs.asked.jobfile import load
from jigs.compare.ranked import ranked
from jigs.compare.wish import Options, wish

JOB = Path(__file__).parents[2] / "configs" / "garland.toml"

if __name__ == "__main__":
    job = load(JOB)
    wanted = wish(job, Options("6-48", "6-24", "18,19,20,21"))
    start = perf_counter()
    found = ranked(job, wanted)
    took = perf_counter() - start
    if found.tried < 1000:
        raise SystemExit("fewer than a thousand candidates")
    print(took)
