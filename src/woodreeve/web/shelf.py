"""The built page files: each under its digest, by which a browser may keep it for ever."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.resources import files
from urllib.parse import parse_qs

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

__all__ = ["Shelf", "address_of"]

FOR_EVER = "public, max-age=31536000, immutable"
ASK_AGAIN = "no-cache"


@lru_cache(maxsize=1)
def _digests() -> dict[str, str]:
    listed = json.loads((files("woodreeve.web") / "static" / "versions.json").read_text("utf-8"))
    return {name: about["sha256"][:12] for name, about in listed["files"].items()}


def address_of(name: str) -> str:
    """The address of a built file, with its digest so that a newer one is fetched anew."""
    digest = _digests().get(name)
    return f"/static/{name}?v={digest}" if digest else f"/static/{name}"


class Shelf(StaticFiles):
    """Gives out the built files and says how long each may be kept."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Give a file; kept for ever only under the digest that it has."""
        response = await super().get_response(path, scope)
        asked = parse_qs(scope.get("query_string", b"").decode("latin-1")).get("v", [""])[0]
        is_kept = bool(asked) and asked == _digests().get(path)
        response.headers["Cache-Control"] = FOR_EVER if is_kept else ASK_AGAIN
        return response
