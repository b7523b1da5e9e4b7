"""What is made out of sources: the compiled translations and the app. Runs in a package build, or in `.venv`.

`python -m ground.build` brings both up to date.
"""

from __future__ import annotations

import sys

from pengan.words.compiling import compile_all

from .fault import GroundFault
from .web_app import build_web_app


def build() -> None:
    """Compile the translations for Python and the page, then build the page. Raises GroundFault."""
    compile_all()
    build_web_app()


if __name__ == "__main__":
    try:
        build()
    except GroundFault as fault:
        sys.exit(str(fault))
