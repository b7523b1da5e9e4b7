"""The solver: from a `Problem` to a `Plan`. Pure, and the same on every machine for the same effort."""

from .solve import MOVED_S, Before, default_effort, solve

__all__ = ["MOVED_S", "Before", "default_effort", "solve"]
