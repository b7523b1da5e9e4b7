"""A server that a test can really stop and start, on one port and with its own data; and things put in its place."""

from __future__ import annotations

import base64
import hashlib
import http.server
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
APP = Path(os.environ.get("PENGAN_APP") or ROOT / "server" / "pengan" / "web" / "app")
DEMO = ROOT / "fixtures" / "demo" / "site.json"
NOW = "2026-10-24T23:30:00+01:00"


class Standing:
    """The real server. It answers after `start`, and nothing does after `stop`."""

    def __init__(self, folder: Path, document: Path = DEMO) -> None:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = int(probe.getsockname()[1])
        self.folder, self.document = folder, document
        self.app = folder / "app"
        self.app.symlink_to(APP)
        self.offline_app = "1"
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Returns once it answers; at once where it does so already."""
        if self._process:
            return
        settings = {
            "PENGAN_DATA": str(self.folder),
            "PENGAN_NOW": NOW,
            "PENGAN_FIRST_DOCUMENT": str(self.document),
            "PENGAN_EFFORT": "10",
            "PENGAN_JOBS": "0",
            "PENGAN_WATCH": "0",
            "PENGAN_LOG": "error",
            "PENGAN_DATABASE": "",
            "PENGAN_APP": str(self.app),
            "PENGAN_OFFLINE_APP": self.offline_app,
            "PYTHONPATH": str(ROOT / "server"),
        }
        command = [sys.executable, "-m", "pengan", "serve", "--port", str(self.port)]
        self._process = subprocess.Popen(
            command,
            cwd=self.folder,
            env={**os.environ, **settings},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            start_new_session=True,
        )
        self._wait()

    def stop(self) -> None:
        """Really: the processes are gone, and the port refuses."""
        if self._process:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait(20)
            self._process = None
            self._wait_until_free()

    def _wait_until_free(self) -> None:
        """The system takes a moment to close what the last of the processes held."""
        until = time.monotonic() + 20
        while time.monotonic() < until:
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", self.port)) != 0:
                    return
            time.sleep(0.02)
        raise AssertionError("something answers after the server was stopped")

    def again(self) -> None:
        self.stop()
        self.start()

    def release(self, app: Path) -> None:
        """From now on the server hands out these files, and no others."""
        self.app.unlink()
        self.app.symlink_to(app)

    def _wait(self) -> None:
        until = time.monotonic() + 60
        while time.monotonic() < until:
            assert self._process and self._process.poll() is None, "the server ended before it answered"
            try:
                with urllib.request.urlopen(f"{self.address}/api/health", timeout=5) as answer:
                    json.load(answer)
                return
            except OSError:
                time.sleep(0.05)
        raise AssertionError("the server did not answer within a minute")


class _Portal(http.server.BaseHTTPRequestHandler):
    """A hotel's login page: whatever is asked, it answers 200 with HTML."""

    def do_GET(self) -> None:
        body = b"<!doctype html><title>Welcome</title><h1>Room number?</h1>"
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    do_POST = do_GET

    def log_message(self, *_: object) -> None:
        return


@contextmanager
def portal_in_place_of(server: Standing) -> Iterator[None]:
    """A login page answers at the server's address."""
    server.stop()
    with http.server.ThreadingHTTPServer(("127.0.0.1", server.port), _Portal) as portal:
        thread = threading.Thread(target=portal.serve_forever, daemon=True)
        thread.start()
        yield
        portal.shutdown()


_SCRIPT = re.compile(r"([\w.-]+)\.js\b")
_ENTRY = re.compile(r"\{url:`([^`]+)`,revision:(null|`[^`]*`),integrity:`sha384-[^`]+`")
_VERSION = re.compile(r"version:`[0-9a-f]{12}`")


def newer_app(app: Path, folder: Path) -> Path:
    """The app as the build would make it after a change to every script: new names, new sums, a mark to know it by."""
    shutil.copytree(app, folder, ignore=shutil.ignore_patterns("*.br", "*.gz"))
    names = [path.name.removesuffix(".js") for path in (folder / "assets").glob("*.js")]
    for path in [*folder.glob("assets/*.js"), folder / "index.html", folder / "service-worker.js"]:
        text = _SCRIPT.sub(lambda at: f"{at[1]}2.js" if at[1] in names else at[0], path.read_text(encoding="utf-8"))
        path.unlink()
        name = f"{path.stem}2.js" if path.parent.name == "assets" else path.name
        (path.parent / name).write_text(text.replace('<html lang="en"', '<html lang="en" data-newer'), encoding="utf-8")
    worker = folder / "service-worker.js"
    text = _ENTRY.sub(lambda at: _entry(folder, at), worker.read_text(encoding="utf-8"))
    worker.write_text(_VERSION.sub(_next_version, text), encoding="utf-8")
    return folder


def _next_version(at: re.Match[str]) -> str:
    return f"version:`{hashlib.sha256(at[0].encode()).hexdigest()[:12]}`"


def _entry(folder: Path, at: re.Match[str]) -> str:
    body = (folder / at[1].lstrip("/")).read_bytes()
    integrity = base64.b64encode(hashlib.sha384(body).digest()).decode("ascii")
    revision = "null" if at[2] == "null" else f"`{integrity[:12]}`"
    return f"{{url:`{at[1]}`,revision:{revision},integrity:`sha384-{integrity}`"
