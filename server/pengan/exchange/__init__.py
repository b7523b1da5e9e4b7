"""What comes in and goes out as files people use elsewhere: the office's spreadsheet, calendars, print."""
