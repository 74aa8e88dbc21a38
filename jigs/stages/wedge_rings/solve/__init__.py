"""The wedge rings' cuts and their sled, worked out."""
