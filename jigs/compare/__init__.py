"""Other counts of rings and segments, and other boards, for the same work: side by side, each tried first.

All are estimated at once (`torus`, by `geometry/blanks/candidates`; `vessel`, by `flat_candidates`), the best
tried as jobs (`tried`), their figures told and written.
"""
