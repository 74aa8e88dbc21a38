"""Labels, tape layouts, a sheet for each ring and every flat part at full size, to print.

`tape`, `tape_labels`, `strips`; `ring_sheets`, what they tell `ring_facts`; `full_size`
draws parts and lays them out, `tiles` shares one among pages.
"""
