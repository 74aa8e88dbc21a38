"""Labels, tape layouts, a sheet for each ring and every flat part at full size, to print.

`tape`, `tape_labels`, `strips`; `ring_sheets`, what they tell `ring_facts`; `pattern` draws a part, `tiles`
shares it among pages, `full_size` lays them out.
"""
