"""A job's set of files: gathered, written, swapped in whole, and what of the old one still serves."""
