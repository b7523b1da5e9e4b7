"""What was used: nights reckoned up once they are over, and read back by supply, program, hydrozone and month."""
