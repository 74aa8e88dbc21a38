"""How a job becomes a plan, and a plan the jigs and the work: each form is one record of its stages.

`solve(job) -> Plan` or `Refused`; `shaped(job) -> Shape` takes a tenth of the time; `parts_of(plan)`,
`work(plan, parts) -> Work`, `assemblies(plan, parts)`.

`torus/` and `vessel/` have each form's record (`form`) and how it is solved; `of_plan` gives it for a
plan. A vessel built in parts has a plan for each, of which the stages of a whole one give jigs and
operations under other names (`halves`).
"""
