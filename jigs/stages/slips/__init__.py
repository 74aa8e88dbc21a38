"""Slips: thin strips between segments."""
