"""Where everything stands on the clamping blocks and the truing carrier."""
