"""Nights ahead: a queue of sites to plan, the processes that work it off, and what people are told about it."""
