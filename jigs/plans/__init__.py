"""Every number of a job, solved once and frozen, by form; whatever is made of it reads it here."""
