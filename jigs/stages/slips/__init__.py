"""Slips: thin strips between segments, and strips between the rings of a torus."""
