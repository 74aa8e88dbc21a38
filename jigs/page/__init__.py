"""The live page: one job file, seen and changed in a browser on this machine."""
