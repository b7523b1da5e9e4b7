"""The real application behind a server of this process: for tests that never stop it, and start none for long."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager

from werkzeug.serving import make_server

from pengan.web.app import create_app
from pengan.web.settings import Settings


@contextmanager
def answering(settings: Settings) -> Iterator[str]:
    """Its address, without a slash at the end."""
    server = make_server("127.0.0.1", 0, create_app(settings), threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        thread.join()
