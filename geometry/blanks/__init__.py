"""What the forms are turned from: wedge rings, stacks of rings, staves, layups."""
