"""What the book says to move the stop by brings the outer edge to its size."""

import re
from math import radians

import numpy as np
import pytest

from tests.work.vessels import done, job


@pytest.mark.parametrize("name", ["sorrel", "gourd"])
def test_a_stop_moved_as_the_book_says_takes_the_whole_error_away(name: str):
    """By a strip laid on a fence off square by 180°/n: where blade and stop, both parallel, cross its long edge."""
    told = {one.id: one for one in done(name)}
    for sled in job(name)[0].saws.sleds:
        end = "" if sled.number == 1 else f"-{sled.number}"
        (check,) = told[f"flat-segments.cut{end}"].checks
        (share,) = map(float, re.findall(r"move the stop ([\d.]+) × the error", check.if_not))
        turn = radians(180 / sled.segments)
        along, across = np.array([np.cos(turn), np.sin(turn)]), np.array([1.0, 0.0])
        error = 0.5
        edges = [stop / (along @ across) for stop in (40.0, 40.0 + share * error)]
        assert edges[1] - edges[0] == pytest.approx(error, abs=0.006 * error)
