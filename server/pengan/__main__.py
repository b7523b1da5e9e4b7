"""`python -m pengan` is the `pengan` command."""

from .cli import main

if __name__ == "__main__":  # a server's worker process imports this file too
    main(prog_name="pengan")
