"""What a person's hand and eye do in WebKit: wait for what is to be seen, press, type, and come back later."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver import WebKitGTK
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.wait import WebDriverWait

from browser.joining import SETTINGS
from browser.kept import READY
from browser.standing import Standing

PATIENCE_S = 60
_SHORT_STEP_S = 0.1
_NAMED = """const spoken = (node) => node.nodeType === Node.TEXT_NODE ? node.data
  : node.ariaHidden === "true" ? "" : [...node.childNodes].map(spoken).join("");
return [...document.querySelectorAll(arguments[0])].find((one) => {
  const name = one.getAttribute("aria-label") ?? spoken(one.closest("label") ?? one);
  return name.trim() === arguments[1] && one.getClientRects().length > 0 && !one.disabled;
});"""
_TYPE = """const [field, text] = arguments;
Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set.call(field, text);
field.dispatchEvent(new Event("input", { bubbles: true }));
field.dispatchEvent(new Event("change", { bubbles: true }));"""
_KEEP = f"const tell = arguments[0]; ({READY})(true).then((state) => tell(state), (fault) => tell(String(fault)));"


class Hand:
    """One phone, and the server that it speaks to as long as that stands."""

    def __init__(self, browser: WebKitGTK, server: Standing) -> None:
        self.browser = browser
        self.server = server

    def open(self, path: str = "") -> None:
        self.browser.get(f"{self.server.address}/{path}")
        self.see("main")

    def open_metric(self, path: str = "") -> None:
        """In English and metric, whatever the phone was set to."""
        self.open(f"{path}?{SETTINGS}")

    def see(self, selector: str, words: str = "") -> str:
        """Wait until one such element says these words (a pattern); all that it says."""
        said: str = self._until(f"{selector} with {words!r}", lambda: self._said(selector, words))
        return said

    def unsee(self, selector: str) -> None:
        """Wait until there is none."""
        self._until(f"no {selector}", lambda: not self.run("return document.querySelector(arguments[0])", selector))

    def press(self, name: str, selector: str = "button") -> None:
        """What has exactly this name."""
        found: WebElement = self._until(f"{selector} {name!r}", lambda: self.run(_NAMED, selector, name))
        self.run("arguments[0].click()", found)

    def type(self, selector: str, text: str) -> None:
        field = self._until(selector, lambda: self.run("return document.querySelector(arguments[0])", selector))
        self.run(_TYPE, field, text)

    def value(self, selector: str, wanted: str) -> None:
        """Wait until this field holds it."""
        script = "return document.querySelector(arguments[0])?.value === arguments[1]"
        self._until(f"{selector} at {wanted}", lambda: self.run(script, selector, wanted))

    def keep_all(self) -> None:
        """Wait until every file of the app is on this phone, the planner's too."""
        self._until("a service worker", lambda: self.run("return navigator.serviceWorker.controller !== null"))
        state = self.browser.execute_async_script(_KEEP)
        assert isinstance(state, dict) and state["ready"], state

    def run(self, script: str, *words: Any) -> Any:
        return self.browser.execute_script(script, *words)

    def _said(self, selector: str, words: str) -> str | None:
        texts = self.run(
            "return [...document.querySelectorAll(arguments[0])].map((one) => one.innerText ?? '')", selector
        )
        return next((text or " " for text in texts if re.search(words, text)), None)

    def _until(self, what: str, wanted: Callable[[], Any]) -> Any:
        waiting = WebDriverWait(self.browser, PATIENCE_S, _SHORT_STEP_S, [StaleElementReferenceException])
        return waiting.until(lambda _: wanted(), f"{what} was not to be seen on {self.browser.current_url}")
