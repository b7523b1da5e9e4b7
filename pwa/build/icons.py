"""Draws the app's icons from their SVG: `.venv/bin/python pwa/build/icons.py`. Needs Chromium; the PNGs are kept."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import sync_playwright

PWA = Path(__file__).resolve().parents[1]
PUBLIC = PWA / "public"
WHOLE = PUBLIC / "icon.svg"
MASKABLE = PWA / "build" / "icon-maskable.svg"
"""To the edges, with the mark inside the safe circle of 40 % (W3C, Web Application Manifest, maskable icons)."""

ICONS = (
    ("icon-192.png", WHOLE, 192),
    ("icon-512.png", WHOLE, 512),
    ("icon-maskable-512.png", MASKABLE, 512),
    ("apple-touch-icon.png", MASKABLE, 180),
)


def draw() -> None:
    """Draw every icon anew."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        for name, source, side in ICONS:
            page = browser.new_page(viewport={"width": side, "height": side})
            svg = source.read_text(encoding="utf-8").replace("<svg ", f'<svg width="{side}" height="{side}" ')
            page.set_content(f"<body style='margin:0'>{svg}</body>")
            page.screenshot(path=PUBLIC / name, omit_background=True)
            page.close()
        browser.close()


if __name__ == "__main__":
    draw()
