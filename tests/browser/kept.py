"""What tests ask of the worker and the caches in a page."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Error, Page

READY = """(planner) => new Promise(async (done, failed) => {
  setTimeout(() => failed(new Error("not ready for offline within 30 s")), 30_000);
  const workers = navigator.serviceWorker;
  workers.addEventListener("message", ({ data }) => {
    if (data.tell === "kept" && data.state.ready) done(data.state);
  });
  workers.startMessages();
  const { active } = await workers.ready;
  active.postMessage({ ask: "keep", language: "en", planner });
})"""
_CONTROLLED = "() => navigator.serviceWorker.controller !== null"
_WAITING = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  for (const start = Date.now(); Date.now() - start < 30_000; await new Promise((done) => setTimeout(done, 100))) {
    if (registration.waiting) return;
    if (!registration.installing) await registration.update();
  }
  throw new Error("no newer version within 30 s");
}"""


def keep_all(page: Page, planner: bool = False) -> dict[str, Any]:
    """Returns what the worker told, once every file is on this phone."""
    page.wait_for_function(_CONTROLLED)
    state: dict[str, Any] = page.evaluate(READY, planner)
    return state


def newer_waits(page: Page) -> None:
    """Ask the server for a newer worker, until it waits."""
    _evaluate(page, _WAITING)


def cache_names(page: Page) -> list[str]:
    names: list[str] = page.evaluate("caches.keys()")
    return names


def until(page: Page, condition: str) -> None:
    """Waits for an expression of the page that may be a promise."""
    _evaluate(page, _UNTIL.replace("CONDITION", condition))


def _evaluate(page: Page, script: str) -> None:
    """Goes on where the page opens anew meanwhile, as it does with a newer version and after the off switch."""
    for _ in range(5):
        try:
            page.evaluate(script)
            return
        except Error as error:
            if "context was destroyed" not in error.message:
                raise
            page.wait_for_load_state()
    raise AssertionError("the page opened anew over and over")


_UNTIL = """async () => {
  for (const start = Date.now(); Date.now() - start < 20_000; await new Promise((done) => setTimeout(done, 100))) {
    if (await (CONDITION)) return;
  }
  throw new Error("not within 20 s");
}"""
