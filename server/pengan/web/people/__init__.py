"""People, their roles and devices, and how they come in."""
