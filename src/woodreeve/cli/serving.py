"""Running the web server from a command."""

from __future__ import annotations

import socket
from contextlib import suppress

import click
import uvicorn

from woodreeve.errors import Refused
from woodreeve.records.household import Household
from woodreeve.web.app import LOOPBACK, create_app

__all__ = ["check_host", "run"]


def check_host(host: str) -> None:
    """Refuse any address but this computer's own.

    Raises
    ------
    Refused
        If the address can be reached from elsewhere.
    """
    if host not in LOOPBACK:
        raise Refused(
            f"--host is {host}, but the pages are served on this computer only ({', '.join(LOOPBACK)}) "
            "until there are accounts to keep others out."
        )


def run(household: Household, host: str, port: int) -> None:
    """Serve a household's pages until stopped.

    Parameters
    ----------
    household : Household
        What the pages speak of.
    host, port : str, int
        Where to listen; port 0 takes a free one.

    Raises
    ------
    Refused
        If the port is taken.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    # Named as TCP, so that the event loop sends each answer at once instead of waiting 40 ms for company.
    listener = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen()
    except OSError as error:
        listener.close()
        raise Refused(
            f"Port {port} on {host} cannot be used: {error.strerror}. Choose another with --port."
        ) from error
    shown = f"[{host}]" if ":" in host else host
    click.echo(f"woodreeve is at http://{shown}:{listener.getsockname()[1]}/  (stop with Ctrl+C)")
    config = uvicorn.Config(create_app(household), log_level="warning", access_log=False)
    with suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listener])
    click.echo("woodreeve has stopped.")
