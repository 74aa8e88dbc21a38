"""Patterned layups: every number of them."""
