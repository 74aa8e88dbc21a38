"""Where everything stands on the sled for flat rings."""
