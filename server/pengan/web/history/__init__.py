"""Who changed what and when, undone if need be, and the document as it stood."""
