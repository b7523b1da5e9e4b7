"""Amounts of water in whole numbers, so that what is planned and what falls short add up to what is due.

The volume of a cycle is rounded to the millilitre once, and every sum is a sum of those.
"""

from __future__ import annotations


def millilitres_per_minute(flow_lpm: float) -> int:
    """A flow of the document as the whole number that the planner reckons with."""
    return round(flow_lpm * 1000)


def millilitres(flow: int, seconds: int) -> int:
    """What a flow of so many mL/min brings in so many seconds."""
    return (flow * seconds + 30) // 60


def litres(millilitres: int) -> float:
    """Litres, exact to the millilitre. Serves for mL/min and L/min as well."""
    return millilitres / 1000
