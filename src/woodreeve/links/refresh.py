"""Bring the forecast of a holding up to date: asked if it is turned on and due, kept if there is news."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

import httpx2

from woodreeve.errors import Refused
from woodreeve.holding.document import Holding
from woodreeve.links.forecast import ADDRESSES, Asked, ask_service
from woodreeve.records.forecasts import keep_answer, last_answer, put_off, thin_forecasts, waits_until
from woodreeve.records.store import Records
from woodreeve.weather.services import Service
from woodreeve.wording.translate import _

__all__ = ["refresh_forecast"]


def refresh_forecast(
    records: Records,
    name: str,
    holding: Holding,
    now: datetime,
    *,
    addresses: Mapping[Service, str] = ADDRESSES,
    client: httpx2.Client | None = None,
) -> Asked | None:
    """Ask for a newer forecast, if the owner has turned that on and it is due.

    Parameters
    ----------
    records : Records
        The records.
    name : str
        The holding's name in them.
    holding : Holding
        Its description.
    now : datetime
        Now.
    addresses : mapping
        Where the services are.
    client : Client, optional
        To ask with.

    Returns
    -------
    Asked or None
        What came of it; ``None`` where forecasts are turned off.

    Raises
    ------
    Refused
        If the place is not told, or a contact is wanted; nothing was asked then.
    """
    service = holding.climate.forecast
    if service == "off":
        return None
    latitude, longitude = holding.place.latitude_deg, holding.place.longitude_deg
    if latitude is None or longitude is None:
        raise Refused(_("No forecast can be asked for before latitude and longitude of the place are told."))
    before = last_answer(records, name, service)
    asked = ask_service(
        service,
        latitude,
        longitude,
        contact=holding.climate.forecast_contact or "",
        now=now,
        elevation_m=holding.place.elevation_m,
        before=before,
        wait_until=None if before is not None else waits_until(records, name, service),
        addresses=addresses,
        client=client,
    )
    if asked.state == "new" and asked.answer is not None:
        keep_answer(records, name, asked.answer)
        thin_forecasts(records, name, now=now)
    elif asked.state != "not_due":
        put_off(records, name, service, asked.ask_again, now=now)
    return asked
