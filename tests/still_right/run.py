"""Random changes of the examples: is what a make says of old jigs true? `python tests/still_right/run.py 300 1`.

Prints how many jigs were called right and wrong, and how many of those put into the new set its dry fit passes.
Arguments: how many changes, and the seed.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.still_right.changed_jobs import change
from tests.still_right.put_back import Tally, all_of, try_change


def main(count: int, seed: int) -> None:
    draw, tally = random.Random(seed), Tally()
    while tally.made < count:
        one = change(draw)
        before = len(tally.right_fails)
        try_change(one, tally, draw)
        for told in tally.right_fails[before:]:
            print(told, flush=True)
        if (tally.made + tally.refused) % 10 == 0:
            print(tally.told(), flush=True)
    print("\n".join(all_of(tally)))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
