"""What `python3 tests` runs, and in which order."""
