"""Alarms told to people's phones by web push (RFC 8030), encrypted (RFC 8291), in this server's name (RFC 8292)."""
