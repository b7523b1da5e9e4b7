"""`python -m pengan` is the `pengan` command."""

from .cli import main

main(prog_name="pengan")
