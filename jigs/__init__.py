"""From numbers to things: the job file, the jig families, the writers, the commands."""

__version__ = "0.1.0"
