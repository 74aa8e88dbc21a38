"""What readings are taken with, and how far each is out, where the readings file does not say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

Instrument = Literal["calliper", "feeler", "dial", "rule", "protractor", "eye"]

# Each way, nearly always; mm, degrees for the protractor, nothing for what is looked at. Common practice, no source:
# what a careful hand repeats on wood, not what the maker prints on the tool.
ACCURACY: Mapping[Instrument, float] = {
    "calliper": 0.05,
    "feeler": 0.03,
    "dial": 0.02,
    "rule": 0.5,
    "protractor": 0.1,
    "eye": 0.0,
}
