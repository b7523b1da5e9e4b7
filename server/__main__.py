"""`python3 server`: set the house up where it is new or changed, then serve the site's night.

This file is plain enough for any Python 3 to read, so that an old one can be told that it is old.
"""

import sys

OLDEST = (3, 11)

if sys.version_info < OLDEST:
    sys.exit("Pengan needs Python %d.%d or newer. This is Python %d.%d." % (OLDEST + tuple(sys.version_info[:2])))

from ground.start import start  # noqa: E402

sys.exit(start(sys.argv[1:]))
