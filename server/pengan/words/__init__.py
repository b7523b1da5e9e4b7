"""Everything a person reads passes through here: language, units, numbers, dates and times.

Needs only `babel` and the engine, so that the package can be built before anything else is installed.
"""

from .choosing import reader_for
from .durations import read_duration, write_duration
from .faults import WordsFault
from .figures import read_figure, write_figure
from .isolates import isolate
from .moments import write_clock, write_date, write_time
from .quantities import read, symbol, write
from .reader import N_, Reader, _, current_reader, ngettext, reading
from .say import say, write_percent

__all__ = [
    "N_",
    "Reader",
    "WordsFault",
    "_",
    "current_reader",
    "isolate",
    "ngettext",
    "read",
    "read_duration",
    "read_figure",
    "reader_for",
    "reading",
    "say",
    "symbol",
    "write",
    "write_clock",
    "write_date",
    "write_duration",
    "write_figure",
    "write_percent",
    "write_time",
]
