"""Runs in Pyodide at build time: packs the engine, and the part of Python's library that it needs, compiled.

Modules are compiled by the very Python that will run them. Docstrings stay behind; the library's tables of line
numbers as well. Each archive is stored without compression, since the line compresses it better as a whole.
"""

import importlib.util
import marshal
import zipfile
from pathlib import Path
from types import CodeType

NO_DATE = (1980, 1, 1, 0, 0, 0)
NEVER_CHECKED = (1).to_bytes(4, "little")
"""The flag of a compiled file that is taken as it is (PEP 552)."""

NO_PLACE = 0x80 | 15 << 3
"""An entry of a table of line numbers, of the kind without a place."""


def compiled(name, source, with_lines):
    code = compile(source, name, "exec", dont_inherit=True, optimize=2)
    code = code if with_lines else without_lines(code)
    return importlib.util.MAGIC_NUMBER + NEVER_CHECKED + bytes(8) + marshal.dumps(code)


def without_lines(code):
    inner = (without_lines(part) if isinstance(part, CodeType) else part for part in code.co_consts)
    return code.replace(co_linetable=nowhere(len(code.co_code) // 2), co_consts=tuple(inner))


def nowhere(units):
    """A table of line numbers that says of each instruction that it has none: a traceback can be written all the same.

    Entries of eight code units, the kind in four bits and the length less one in three (CPython's `locations.md`).
    """
    whole, rest = divmod(units, 8)
    return bytes([NO_PLACE | 7] * whole + [NO_PLACE | rest - 1] * bool(rest))


def pack(source, target, wanted=None):
    """Write `target` with the files of `source`, only the `wanted` ones if that is given. Raises KeyError for none."""
    with zipfile.ZipFile(source) as given, zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as packed:
        names = [name for name in given.namelist() if not name.endswith("/")] if wanted is None else wanted
        for name in sorted(names):
            content = given.read(name)
            if name.endswith(".py"):
                content, name = compiled(name, content, wanted is None), f"{name}c"
            packed.writestr(zipfile.ZipInfo(name, NO_DATE), content)


pack("/given/library.zip", "/made/library.zip", Path("/given/library.txt").read_text().split())
pack("/given/engine.zip", "/made/engine.zip")
