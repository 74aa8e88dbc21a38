"""What gauges have in common: the lettered plate, the working edge, its marked heights."""
