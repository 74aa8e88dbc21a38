"""What one and two people lift, against guidance of the Health and Safety Executive, a public safety authority."""

import pytest

from jigs.work.lathe import ONE_LIFTS, TWO_LIFT, G, by_two

# Close to the body at elbow height, men, in the filter of HSE's INDG143: seen in others' words.
CLOSE = 25.0
# At arm's length and elbow height, women: the same, from memory.
AT_ARMS_LENGTH = 10.0


def test_two_lift_two_thirds_of_what_both_lift_alone():
    """HSE's guidance on the Manual Handling Operations Regulations, L23: for three it is half. Seen in a copy.

    A published example of it for two men: about 33 kg.
    """
    two = TWO_LIFT / G
    assert two == pytest.approx(2 * CLOSE * 2 / 3)
    assert two == pytest.approx(33, abs=0.5)


def test_one_lifts_what_the_filter_gives_and_more_is_a_job_for_two_or_for_a_hoist():
    assert ONE_LIFTS / G == AT_ARMS_LENGTH
    assert by_two(9.9 * G, "Two lift it.") == ()
    assert by_two(10.1 * G, "Two lift it.") == ("Two lift it.",)
    assert by_two(33.0 * G, "Two lift it.") == ("Two lift it.",)
    assert any("hoist" in how for how in by_two(33.7 * G, "Two lift it."))
