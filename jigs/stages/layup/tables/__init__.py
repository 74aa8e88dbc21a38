"""Layups as tables."""
