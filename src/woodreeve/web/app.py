"""The web application: pages, JSON resources and the built page assets, on this computer only."""

from __future__ import annotations

import asyncio
from contextlib import asynccontextmanager
from importlib.resources import files
from typing import TYPE_CHECKING

from fastapi import FastAPI
from fastapi.responses import FileResponse, Response

from woodreeve import __version__
from woodreeve.web import faults
from woodreeve.web.api import design as design_resource
from woodreeve.web.api import diary as diary_resource
from woodreeve.web.api import holding as holding_resource
from woodreeve.web.api import plant as plant_resource
from woodreeve.web.api import season as season_resource
from woodreeve.web.api import stacks as stacks_resource
from woodreeve.web.api import tonight as tonight_resource
from woodreeve.web.api import upkeep as upkeep_resource
from woodreeve.web.api import winter as winter_resource
from woodreeve.web.api import workings as workings_resource
from woodreeve.web.drawings import Drawings
from woodreeve.web.guard import GuardMiddleware
from woodreeve.web.jobs import Jobs
from woodreeve.web.kernels import KERNELS
from woodreeve.web.pages import (
    card,
    demo,
    design,
    diary,
    first,
    holding,
    paper,
    plant,
    season,
    stacks,
    tonight,
    upkeep,
    why,
    winter,
    workings,
)
from woodreeve.web.shelf import Shelf
from woodreeve.web.warming import start_warming

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from woodreeve.records.household import Household

__all__ = ["LOOPBACK", "create_app"]

LOOPBACK = ("127.0.0.1", "localhost", "::1")
"""The only addresses the pages are served on until there are accounts."""

NAMES = ("127.0.0.1", "localhost", "[::1]")
"""What a browser may call this computer; any other name could be another site's trick."""

PATIENCE_S = 3.0
"""So long a server told to stop waits for its work ahead, which may be half way through a kernel. [s]"""

PAGES = (
    first,
    tonight,
    winter,
    stacks,
    season,
    plant,
    design,
    paper,
    upkeep,
    diary,
    holding,
    workings,
    why,
    card,
    demo,
)
RESOURCES = (
    tonight_resource,
    winter_resource,
    stacks_resource,
    season_resource,
    plant_resource,
    design_resource,
    upkeep_resource,
    diary_resource,
    holding_resource,
    workings_resource,
)


def create_app(household: Household) -> FastAPI:
    """Build the application for one set of records.

    Parameters
    ----------
    household : Household
        Records, name of the holding, weather and clock that the pages speak of.

    Returns
    -------
    FastAPI
        The application, ready for a server.
    """

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        KERNELS.make_ready()
        warming = start_warming(household, app.state.drawings)
        yield
        app.state.jobs.close()
        KERNELS.stop()
        await asyncio.to_thread(warming.join, PATIENCE_S)
        household.close()

    app = FastAPI(
        title="woodreeve",
        version=__version__,
        summary="Wood, store and house of one holding.",
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        lifespan=lifespan,
    )
    app.state.household = household
    app.state.drawings = Drawings()
    app.state.jobs = Jobs()
    app.add_middleware(GuardMiddleware, hosts=NAMES)
    static = str(files("woodreeve.web") / "static")
    app.mount("/static", Shelf(directory=static), name="static")

    @app.get("/worker.js", include_in_schema=False)
    def worker() -> Response:
        """The service worker, served from the top so that it may serve every page."""
        return FileResponse(
            f"{static}/worker.js", media_type="text/javascript", headers={"Cache-Control": "no-cache"}
        )

    for module in PAGES:
        app.include_router(module.router, include_in_schema=False)
    for resource in RESOURCES:
        app.include_router(resource.router, prefix="/api")
    faults.install(app)
    return app
