"""A made-up field: plays a site's night as valves, pipes and meters would, with troubles where somebody asks for them.

The core (`play`) is pure and seeded: no clock, no line. What it plays is what a journal would be told. Senders stand
beside it. Nothing here opens a valve: it is for trying out, for tests and for the demo site alone.
"""
