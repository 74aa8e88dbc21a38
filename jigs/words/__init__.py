"""Numbers, counts and findings as people read them.

A `quantity` is a number with its id, its label and its kind, and counts; `findings`; `lengths` and forces, and
`tables` as text; units of `trade`; `file_names` have the job's name, `_`, what a file is of.
"""
