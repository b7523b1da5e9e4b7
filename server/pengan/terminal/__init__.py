"""What the command line shares: it speaks the reader's language, opens documents, lays out pages and shows progress."""
