"""Photos that people take on a walk, kept with the site: each once, whole, and of a bounded size."""
