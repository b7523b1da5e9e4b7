"""Alarms on the server: what the watch notices in the journal, whom it concerns, and how it ends.

Watching has processes, rows and locks of its own: planning and sync take none of them, and wait for none.
"""
