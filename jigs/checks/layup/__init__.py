"""What refuses a layup."""
