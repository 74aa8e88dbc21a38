"""Whether the finished form can be, and be turned."""
