"""The rest of a night after an interruption: offered, accepted by a person, and then what the night is planned from."""
