"""Reads what people type into cells: figures with units, spans of time, times of day, dates, weekdays, choices."""
