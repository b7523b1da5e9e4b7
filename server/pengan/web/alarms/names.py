"""What alarms are called by where they are kept, shown and asked for."""

DRIFT = "drift"
"""The kind of an alarm that no single night shows."""
GRAVITIES = ("minor", "serious", "grave")
"""By `Gravity`, from 1."""
MOST_ON_A_PAGE = 200
