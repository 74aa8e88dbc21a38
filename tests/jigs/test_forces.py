"""Stresses beside their limits."""

import pytest

from jigs.words.lengths import stress_texts


@pytest.mark.parametrize(
    ("stress", "most", "unit", "texts"),
    [
        (1.24, 0.6, "mm", ("1.2 N/mm²", "0.6 N/mm²")),
        (0.604, 0.6, "mm", ("0.604 N/mm²", "0.600 N/mm²")),
        (0.604, 0.6, "in", ("88 psi", "87 psi")),
        (0.601, 0.6, "in", ("87.2 psi", "87.0 psi")),
    ],
)
def test_a_stress_over_its_limit_reads_so(stress, most, unit, texts):
    assert stress_texts(stress, most, unit) == texts
