"""One schedule, many hands: edits come in, are judged one set at a time, and changes go out."""
