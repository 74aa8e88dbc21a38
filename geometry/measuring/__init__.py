"""What readings of simple instruments say of the work: pure numbers, one topic a file."""
