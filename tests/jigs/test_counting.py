"""Counts and ring numbers in sentences."""

from jigs.words.quantity import count_text, ring_list


def test_rings_are_listed_in_runs():
    assert ring_list((4,)) == "ring 4"
    assert ring_list(tuple(range(1, 17))) == "rings 1 to 16"
    assert ring_list((2, 4, 7, 8, 9)) == "rings 2, 4, 7 to 9"
    assert ring_list((1, 2)) == "rings 1, 2"


def test_one_is_singular_and_more_have_their_plural():
    assert [count_text(n, "piece") for n in (1, 2)] == ["1 piece", "2 pieces"]
    assert [count_text(2, one) for one in ("half", "batch", "ring with one face cut")] == [
        "2 halves",
        "2 batches",
        "2 rings with one face cut",
    ]
