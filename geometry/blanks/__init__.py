"""What the forms are turned from: wedge rings, stacks of rings, staves, layups, and strips in their joints."""
