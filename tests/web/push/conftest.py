"""What tests of push stand on: the grounds of the alarms' tests."""

from web.alarms.conftest import crew, grounds

__all__ = ["crew", "grounds"]
