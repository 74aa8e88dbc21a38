"""Where everything stands on a layup's sleds, tray and holders."""
