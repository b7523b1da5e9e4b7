"""The night as it happened: what the journal holds, and what it says about pipes, valves and plants.

A sheet says what shall run; the journal says what did. Nothing here plans, and nothing here ever holds planning up.
"""
