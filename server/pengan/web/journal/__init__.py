"""The journal on the server: what happened at a site, told by people, controllers, meters and gateways.

Nothing here takes a lock that planning or sync takes: a night is planned, and an edit taken, however much comes in.
"""
