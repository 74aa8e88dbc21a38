"""What would make a refused job pass: sets of changes to its file, each of them tried before it is offered."""
