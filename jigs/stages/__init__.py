"""One folder for each part of the work, in its order.

In each, a file, or a folder where there are several:

`plan` its numbers, frozen; `layout` where everything stands on its jigs, as pure numbers; `solve` how the plan
is worked out; `check` what refuses a job, with the nearest value that works; what both ask lies beside them
under its own name.

`parts` are plain functions from the plan to its jigs; `assembled` puts these together with the work, for STEP.

`steps` are its operations, out of the plan and the rack, and its record, `STAGE`: operations, jigs, tables, and
what sort of work it is. `tables` are what is known of it beside its steps.

`building/` puts sleds and boards together, `held/` asks by statics whether everything is held, `shop/assumed`
names shop values that were never measured.
"""
