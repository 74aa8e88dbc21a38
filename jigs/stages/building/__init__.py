"""Sleds, carriers and boards put together from the parts that were cut and printed."""
