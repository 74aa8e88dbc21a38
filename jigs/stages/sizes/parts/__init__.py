"""Forks, sticks and gap gauges."""
