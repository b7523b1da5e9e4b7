"""The solver: from a `Problem` to a `Plan`. Pure, and the same on every machine for the same effort."""

from .solve import Before, default_effort, solve

__all__ = ["Before", "default_effort", "solve"]
