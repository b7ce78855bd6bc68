"""Ask an open forecast service for the weather ahead, only where the owner has turned it on.

The services are run for everybody: they are asked seldom, never again before they say so, by a name that
lets them reach the owner, and with a place rounded so that no house is pointed at.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from typing import Literal

import httpx2

from woodreeve import __version__
from woodreeve.errors import Refused, Unreadable
from woodreeve.weather.services import SERVICES, Answer, Service, read_answer
from woodreeve.wording.translate import N_, _

__all__ = ["ADDRESSES", "CONDITIONS", "Asked", "ask_service", "open_client"]

ADDRESSES: Mapping[Service, str] = {
    "met_norway": "https://api.met.no/weatherapi/locationforecast/2.0/compact",
    "open_meteo": "https://api.open-meteo.com/v1/forecast",
}

CONDITIONS: Mapping[Service, str] = {
    "met_norway": N_(
        "Free for any use, with attribution (CC BY 4.0). The service learns your contact and the place "
        "to about 1 km."
    ),
    "open_meteo": N_(
        "Free for non-commercial use only, with attribution (CC BY 4.0): not for a business that sells wood. "
        "The service learns the place to about 1 km."
    ),
}
"""What the owner agrees to by turning a service on. (Read at api.met.no/doc/TermsOfService and
open-meteo.com/en/licence.)"""

DECIMALS = 2
"""Places are told to so many decimals of a degree, about 1 km. MET Norway blocks more than four."""

LEAST_WAIT = timedelta(minutes=30)
"""Never asked again before, whatever the reply says."""

LONGEST_WAIT = timedelta(hours=24)
"""Asked again after so long, whatever the reply says."""

AFTER_TROUBLE = timedelta(hours=1)
"""So long is waited after a refusal or a broken reply that names no time."""

MOST_BYTES = 4_000_000
"""A longer reply is not read to its end."""

WAIT_S = 8.0
"""Longest wait for each step of asking: connection, and each part of the reply. [s]"""

WHOLE_WAIT_S = 20.0
"""Longest wait for a whole reply, however it trickles. [s]"""

State = Literal["new", "unchanged", "not_due", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What came of asking.

    Parameters
    ----------
    state : str
        ``new``: a reply that can be read; ``unchanged``: the one there is still holds; ``not_due``: not
        asked, it is too soon; ``failed``.
    ask_again : datetime
        Not to be asked again before.
    answer : Answer, optional
        The newest reply there is: the new one, or the one from before.
    sentence : str
        What the owner should know; empty where all is well.
    """

    state: State
    ask_again: datetime
    answer: Answer | None = None
    sentence: str = ""


def open_client(**options: object) -> httpx2.Client:
    """A client that waits no longer than it should, tries once more to connect, and follows no strangers.

    Parameters
    ----------
    **options
        For the transport, for tests.
    """
    return httpx2.Client(
        transport=httpx2.HTTPTransport(retries=1, **options),  # type: ignore[arg-type]  # the transport's own
        timeout=WAIT_S,
        follow_redirects=False,
    )


def ask_service(
    service: Service,
    latitude_deg: float,
    longitude_deg: float,
    *,
    contact: str,
    now: datetime,
    elevation_m: float | None = None,
    before: Answer | None = None,
    wait_until: datetime | None = None,
    addresses: Mapping[Service, str] = ADDRESSES,
    client: httpx2.Client | None = None,
) -> Asked:
    """Ask a service once, if it is due.

    Parameters
    ----------
    service : str
        ``met_norway`` or ``open_meteo``.
    latitude_deg, longitude_deg : float
        The place; told to two decimals.
    contact : str
        Where the service can reach the owner: an e-mail address or a web page. MET Norway refuses callers
        without one.
    now : datetime
        Now.
    elevation_m : float, optional
        Height of the place.
    before : Answer, optional
        The newest reply there is.
    wait_until : datetime, optional
        Not to be asked before, where an earlier attempt failed.
    addresses : mapping
        Where the services are.
    client : Client, optional
        To ask with.

    Returns
    -------
    Asked
        What came of it. No network, a refusal or a broken reply is no error: it is told, and what was there
        before stays in use.

    Raises
    ------
    Refused
        If there is no contact for a service that wants one.
    """
    if service not in SERVICES:
        raise Refused(_("There is no forecast service {name!r}.").format(name=service))
    contact = " ".join(contact.split())
    if service == "met_norway" and not _is_contact(contact):
        raise Refused(
            _(
                "MET Norway asks every caller for a contact: give an e-mail address or a web page in the "
                "section climate, forecast_contact."
            )
        )
    latitude, longitude = round(latitude_deg, DECIMALS), round(longitude_deg, DECIMALS)
    if before is not None and (before.source, before.latitude_deg, before.longitude_deg) != (
        service,
        latitude,
        longitude,
    ):
        before = None
    due = max([one for one in (before and before.ask_again, wait_until) if one], default=now)
    if due > now:
        return Asked(state="not_due", ask_again=due, answer=before)
    headers = {"User-Agent": f"woodreeve/{__version__} {contact}".strip(), "Accept": "application/json"}
    if before is not None and before.last_modified:
        headers["If-Modified-Since"] = before.last_modified
    asking = client or open_client()
    try:
        reply, text = _reply(
            asking, addresses[service], _query(service, latitude, longitude, elevation_m), headers
        )
    except httpx2.HTTPError as error:
        return _failed(service, before, now + LEAST_WAIT, _reason(error))
    except _TooMuch as error:
        return _failed(service, before, now + AFTER_TROUBLE, str(error))
    finally:
        if client is None:
            asking.close()
    ask_again = _ask_again(reply, now)
    if reply.status_code == 304 and before is not None:
        return Asked(state="unchanged", ask_again=ask_again, answer=before)
    if reply.status_code not in (200, 203):
        return _failed(service, before, _trouble_until(reply, now), _refusal(reply.status_code))
    answer = Answer(
        source=service,
        fetched=now,
        latitude_deg=latitude,
        longitude_deg=longitude,
        text=text,
        ask_again=ask_again,
        last_modified=reply.headers.get("Last-Modified", ""),
    )
    try:
        read_answer(answer)
    except Unreadable as error:
        return _failed(service, before, now + AFTER_TROUBLE, str(error))
    sentence = ""
    if reply.status_code == 203:
        sentence = _(
            "{service} says that this form of its forecast ends soon: look for a newer woodreeve."
        ).format(service=service)
    return Asked(state="new", ask_again=ask_again, answer=answer, sentence=sentence)


class _TooMuch(Exception):
    """A reply that is too long or takes too long."""


def _reply(
    client: httpx2.Client, address: str, query: Mapping[str, str], headers: Mapping[str, str]
) -> tuple[httpx2.Response, str]:
    """The reply and its text, no more and no longer than fits."""
    begun = time.monotonic()
    with client.stream("GET", address, params=query, headers=headers) as reply:
        parts, size = [], 0
        for part in reply.iter_bytes():
            parts.append(part)
            size += len(part)
            if size > MOST_BYTES:
                raise _TooMuch(_("its reply is far too long"))
            if time.monotonic() - begun > WHOLE_WAIT_S:
                raise _TooMuch(_("its reply takes too long"))
    return reply, b"".join(parts).decode("utf-8", "replace")


def _query(service: Service, latitude: float, longitude: float, elevation_m: float | None) -> dict[str, str]:
    if service == "met_norway":
        query = {"lat": f"{latitude:.2f}", "lon": f"{longitude:.2f}"}
        return query if elevation_m is None else {**query, "altitude": f"{elevation_m:.0f}"}
    query = {
        "latitude": f"{latitude:.2f}",
        "longitude": f"{longitude:.2f}",
        "hourly": "temperature_2m,relative_humidity_2m,wind_speed_10m,precipitation,shortwave_radiation",
        "wind_speed_unit": "ms",
        "forecast_days": "8",
        "timezone": "UTC",
    }
    return query if elevation_m is None else {**query, "elevation": f"{elevation_m:.0f}"}


def _is_contact(contact: str) -> bool:
    return (
        contact.isascii()
        and contact.isprintable()
        and 5 <= len(contact) <= 120
        and ("@" in contact or "." in contact)
    )


def _failed(service: Service, before: Answer | None, ask_again: datetime, why: str) -> Asked:
    sentence = _("No new forecast from {service}: {why}. What was known before stays in use.").format(
        service=service, why=why.rstrip(".")
    )
    return Asked(state="failed", ask_again=ask_again, answer=before, sentence=sentence)


def _reason(error: httpx2.HTTPError) -> str:
    if isinstance(error, httpx2.TimeoutException):
        return _("it did not answer in time")
    if isinstance(error, httpx2.ConnectError):
        return _("it cannot be reached; is there a network?")
    return _("the connection broke ({kind})").format(kind=type(error).__name__)


def _refusal(status: int) -> str:
    if status == 403:
        return _("it refused us (403); see that the contact is right")
    if status == 429:
        return _("it has been asked too often (429)")
    return _("it answered with status {status}").format(status=status)


def _moment_of(text: str | None) -> datetime | None:
    if not text:
        return None
    try:
        moment = parsedate_to_datetime(text)
    except ValueError:
        return None
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _ask_again(reply: httpx2.Response, now: datetime) -> datetime:
    """When a reply runs out, by the service's own clock; a wrong clock on this side does not matter."""
    expires, said = _moment_of(reply.headers.get("Expires")), _moment_of(reply.headers.get("Date"))
    lasts = LEAST_WAIT if expires is None else expires - (said or now)
    return now + min(max(lasts, LEAST_WAIT), LONGEST_WAIT)


def _trouble_until(reply: httpx2.Response, now: datetime) -> datetime:
    """How long to leave a service alone that declined."""
    wait = reply.headers.get("Retry-After", "")
    if wait.isdigit():
        return now + min(max(timedelta(seconds=int(wait)), LEAST_WAIT), LONGEST_WAIT)
    return now + (LONGEST_WAIT if reply.status_code == 403 else AFTER_TROUBLE)
