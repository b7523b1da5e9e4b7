"""`python3 tests`: set up what the tests need, then run every check of the project.

`python3 tests tests/engine -k soak` passes words on to pytest alone; `python3 tests --benchmarks` measures the planner.
This file is plain enough for any Python 3 to read, so that an old one can be told that it is old.
"""

import os
import sys

OLDEST = (3, 11)

if sys.version_info < OLDEST:
    sys.exit("Pengan needs Python %d.%d or newer. This is Python %d.%d." % (OLDEST + tuple(sys.version_info[:2])))

sys.path.insert(0, os.path.join(os.path.dirname(os.path.dirname(os.path.abspath(__file__))), "server"))

from everything.run import run  # noqa: E402

sys.exit(run(sys.argv[1:]))
