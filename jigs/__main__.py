"""python -m jigs."""

from jigs.start import command

command()
