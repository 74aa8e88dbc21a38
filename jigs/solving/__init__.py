"""From the job to the numbers of the plan: one file for each part of it."""
