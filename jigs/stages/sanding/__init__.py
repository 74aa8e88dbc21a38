"""Grit by grit."""
