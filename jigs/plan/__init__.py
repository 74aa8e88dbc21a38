"""Parts of the plan."""
