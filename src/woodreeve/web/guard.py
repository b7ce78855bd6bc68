"""Headers that keep a page to its own files, and writes to its own forms."""

from __future__ import annotations

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import JSONResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["GuardMiddleware"]

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; object-src 'none'; frame-ancestors 'none'; "
    "base-uri 'none'; form-action 'self'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}

READING = {"GET", "HEAD", "OPTIONS"}


class GuardMiddleware:
    """Adds the safety headers, and refuses a write that another site's page has sent."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        request = Request(scope)
        if request.method not in READING and not _own(request):
            refusal = JSONResponse(
                {"sentence": "This write came from another site's page and was not taken."}, 403
            )
            await refusal(scope, receive, send_guarded)
            return
        await self.app(scope, receive, send_guarded)


def _own(request: Request) -> bool:
    """Whether a write comes from our own page, or from a program that is no browser."""
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        return site in ("same-origin", "none")
    origin = request.headers.get("origin")
    return origin is None or origin.split("://", 1)[-1] == request.headers.get("host")
