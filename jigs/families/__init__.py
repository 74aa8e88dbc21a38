"""Jig families."""
