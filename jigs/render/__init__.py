"""The work told: functions from `Work` to text, pages and tables. None of them works a number out.

Quantities and cells of tables as text (`lines`), `listing`, `tables_csv`, `work_json`.

`book/` gathers the shop book as data; `html/` shows it as a page, `pdf/` on paper (Typst: `typeset`, by
`typeset_child`; `length`, `ways`, `paper` and `letters` say how a step is set, since measuring it in Typst takes as
long as the page).
"""
