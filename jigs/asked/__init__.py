"""What was asked: the job and workshop files, read and checked."""
