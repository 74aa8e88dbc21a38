"""Readings as typed: the file beside the job, every fault of it at once."""
