"""What holds the wood while it is worked on, and against how much: the tables."""
