"""The security headers on every answer."""

from flask import Flask, Response, request

from baycard.web.parts import parts

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "media-src 'self' blob:",
        "connect-src 'self'",
        "worker-src 'self'",
        "manifest-src 'self'",
        "font-src 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "form-action 'self'",
    )
)
HEADERS = {
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    "Permissions-Policy": "camera=(self), microphone=(self), geolocation=(), payment=(), usb=()",
}
# For data, which no browser shows as a page: it is sent with every round of every phone.
HEADERS_OF_DATA = {
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
}
DATA = ("application/json", "application/problem+json")
# Without a body there is nothing to take for something else, to run or to embed.
NO_CONTENT = 204
HSTS = "max-age=31536000"


def add_headers(app: Flask) -> None:
    """Put the headers on every answer, and the server's name on every answer of the API."""
    app.after_request(_add)


def _add(made: Response) -> Response:
    if made.status_code != NO_CONTENT:
        _protect(made)
    if request.path.startswith("/api/"):
        server = parts().server
        made.headers["X-Baycard-Server"] = f"{server.instance};{server.epoch}"
    return made


def _protect(made: Response) -> None:
    headers = HEADERS_OF_DATA if made.content_type.startswith(DATA) else HEADERS
    for name, value in headers.items():
        made.headers.setdefault(name, value)
    if request.is_secure:
        made.headers["Strict-Transport-Security"] = HSTS
