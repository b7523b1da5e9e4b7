"""The ground floor: from a fresh checkout to a running Pengan, with nothing but Python's standard library.

`python3 server` and `python3 tests` stand on it, and so does the build hook that makes the app.
"""
