"""Headers that keep a page to its own files, writes to its own forms, and strangers' names from the door."""

from __future__ import annotations

import logging
from collections.abc import Collection

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["GuardMiddleware"]

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; object-src 'none'; frame-ancestors 'none'; "
    "base-uri 'none'; form-action 'self'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-cache",
}
"""On every answer, unless it has its own. A page is asked for anew each time."""

READING = {"GET", "HEAD", "OPTIONS"}

FOREIGN_WRITE = "This write came from another site's page and was not taken."
FOREIGN_HOST = "woodreeve is not served under this name: open it at the address it printed when it started."
BROKEN = (
    "Something broke on our side and was written to the log; nothing was changed by it. Please try again."
)


PAGE = (
    '<!doctype html><html lang="en"><title>woodreeve</title>'
    "<main><h1>That did not work</h1><p>{}</p></main></html>"
)
"""A page that needs no holding and no template."""


class GuardMiddleware:
    """Adds the safety headers; refuses foreign hosts and foreign writes; tells a crash in a sentence.

    Parameters
    ----------
    app : ASGI application
        What it guards.
    hosts : collection of str
        The names it may be called by, without port.
    """

    def __init__(self, app: ASGIApp, hosts: Collection[str]) -> None:
        self.app, self.hosts = app, frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        begun = False

        async def send_guarded(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        request = Request(scope)
        if _name_of(request.headers.get("host", "")) not in self.hosts:
            await _told(request, FOREIGN_HOST, 400)(scope, receive, send_guarded)
        elif request.method not in READING and not _own(request):
            await _told(request, FOREIGN_WRITE, 403)(scope, receive, send_guarded)
        else:
            try:
                await self.app(scope, receive, send_guarded)
            except Exception:
                if begun:
                    raise
                logging.getLogger("woodreeve.web").exception("%s %s", request.method, request.url.path)
                await _told(request, BROKEN, 500)(scope, receive, send_guarded)


def _told(request: Request, sentence: str, status: int) -> Response:
    if request.url.path.startswith("/api/"):
        return JSONResponse({"sentence": sentence}, status)
    return HTMLResponse(PAGE.format(sentence), status)


def _name_of(host: str) -> str:
    """The host's name without its port; an IPv6 address stands in brackets."""
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0].lower()


def _own(request: Request) -> bool:
    """Whether a write comes from our own page, or from a program that is no browser."""
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        return site in ("same-origin", "none")
    origin = request.headers.get("origin")
    return origin is None or origin.split("://", 1)[-1] == request.headers.get("host")
