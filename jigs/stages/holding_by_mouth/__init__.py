"""A vessel taken off its waste block and held by its mouth, its foot turned."""
