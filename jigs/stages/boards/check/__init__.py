"""What refuses a job for its wood."""
