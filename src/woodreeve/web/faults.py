"""Faults as the reader sees them: one sentence, as a page or as JSON, with the status that fits."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel
from starlette.exceptions import HTTPException

from woodreeve.errors import Refused, UnknownName, WoodreeveError
from woodreeve.web.render import bare_page
from woodreeve.wording.translate import _

__all__ = ["FAULTS", "Sentence", "install"]


class Sentence(BaseModel):
    """What went wrong, in one sentence."""

    sentence: str


FAULTS: dict[int | str, dict[str, Any]] = {
    400: {"model": Sentence, "description": "The request cannot be read."},
    403: {"model": Sentence, "description": "The write came from another site's page."},
    404: {"model": Sentence, "description": "There is nothing of that name."},
    409: {"model": Sentence, "description": "Understood and declined."},
    422: {"model": Sentence, "description": "A value does not do; the sentence names it."},
}
"""What every resource may answer beside its result."""


def install(app: FastAPI) -> None:
    """Teach the application to tell faults in sentences."""

    @app.exception_handler(WoodreeveError)
    def understood(request: Request, error: WoodreeveError) -> Response:
        status = 404 if isinstance(error, UnknownName) else 409 if isinstance(error, Refused) else 422
        return _told(request, str(error), status)

    @app.exception_handler(RequestValidationError)
    def malformed(request: Request, error: RequestValidationError) -> Response:
        broken = error.errors()[0]["type"] == "json_invalid"
        return _told(request, validation_sentence(error), 400 if broken else 422)

    @app.exception_handler(HTTPException)
    def refused(request: Request, error: HTTPException) -> Response:
        missing = _("There is no page at {path}.").format(path=request.url.path)
        said = missing if error.status_code == 404 else f"{str(error.detail).rstrip('.')}."
        return _told(request, said, error.status_code)


def validation_sentence(error: RequestValidationError) -> str:
    """Say in one sentence what is wrong with a request."""
    first = error.errors()[0]
    if first["type"] == "json_invalid":
        return _("The request is not JSON: {why}.").format(
            why=first.get("ctx", {}).get("error", first["msg"])
        )
    field = (
        ".".join(str(part) for part in first["loc"] if part not in ("body", "query", "path")) or "the request"
    )
    value = first.get("input")
    shown = f" is {value!r}" if isinstance(value, str | int | float | bool) else ""
    return f"{field}{shown}: {first['msg']}."


def _told(request: Request, sentence: str, status: int) -> Response:
    if request.url.path.startswith("/api/"):
        return JSONResponse({"sentence": sentence}, status)
    return bare_page(request, "fault.html", status, sentence=sentence)
