"""What was asked: the job and workshop files, read and checked.

`job job_shop job_wood vessel_job inside` are the records; a field declared with `key` is a key of
the file. `keys` lists the tables; reader, `schema` and `starter` follow it.

A lid is a vessel whose outside gets the flange that fits its `Pot`, another job, by its mouth as planned or as
read and by how its wood moves (`jobfile/lid`).

`by_job` alone asks which form a job is of.

`jobfile/` reads, every fault at once: `load(path) -> TorusJob or VesselJob`, by `values` and `lists`;
`toml_source` keeps line numbers, `toml_faults` tells what is no TOML; `change` a change of it, `edited` its text with
changes.

`drawn/` takes a vessel's profile from a DXF or SVG drawing, `undershot` names where a curve is thinner than its
stations; `readings/` what was measured.

`defaults` of allowances, `woods`; `questions` of `jigs new`; what a shop tells every
`table_sled`.
"""
