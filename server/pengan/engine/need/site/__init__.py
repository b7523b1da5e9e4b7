"""The water need of a whole site, read from its document: weather, plantings, audits, and the nights they lead to."""
