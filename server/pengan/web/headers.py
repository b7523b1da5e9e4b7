"""What every answer says to the browser about trust: our own scripts and styles, nothing from elsewhere, no frames.

`'wasm-unsafe-eval'` lets the planner run in the browser as WebAssembly; it lets no text be run as a script. The
camera and the device's place are for our own page alone: it reads a joining code with the one, and puts stations where
somebody stands with the other, asked for on a tap. Answers of the API are kept by nobody but the
browser that asked, and by it only where the answer says so itself.
"""

from __future__ import annotations

from flask import Flask, Response, request

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "worker-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(self), microphone=()",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}
TLS_HEADERS = {"Strict-Transport-Security": "max-age=31536000; includeSubDomains"}


def send_headers(app: Flask) -> None:
    """Put the headers on every answer of the app."""
    app.after_request(_with_headers)


def _with_headers(response: Response) -> Response:
    for name, value in (HEADERS | TLS_HEADERS if request.is_secure else HEADERS).items():
        response.headers.setdefault(name, value)
    if request.path.startswith("/api/"):
        response.cache_control.private = True
        response.vary.update(("Cookie", "Accept-Language"))
        if not response.cache_control.no_cache:
            response.cache_control.no_store = True
    return response
