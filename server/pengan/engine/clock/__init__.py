"""Local time: a site's clock, its nights, its day rules, and when on a real timeline a clock time falls."""
