"""Nights made up for tests and benchmarks: whole `Problem`s, each the same for the same seed on every machine."""
