"""The planner in Safari's engine: the same files, the same page policy, the same bytes."""

from __future__ import annotations

from selenium.webdriver import WebKitGTK

from browser.conftest import Served
from golden.built import IN_BROWSER, browser_asks, differing, lines_of, worker_address

SCRIPT = (
    IN_BROWSER.read_text("utf-8")
    + """
const [worker, asks, tell] = arguments;
planInWorker(worker, asks).then((answers) => tell({ answers }), (fault) => tell({ fault: String(fault) }));
"""
)


def test_webkit_gives_the_same_bytes(served: Served, webkit: WebKitGTK) -> None:
    asks = browser_asks()
    webkit.get(f"{served.address}/api/clock")
    told = webkit.execute_async_script(SCRIPT, worker_address(), [ask.words for ask in asks])
    assert "fault" not in told, told["fault"]
    assert differing(lines_of(told["answers"]), asks) == []
