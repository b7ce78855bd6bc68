"""A PostgreSQL server of the tests' own: private, in a temporary folder, gone afterwards.

PostgreSQL refuses to run as root, so where the tests are root the server runs as an
unprivileged user. It listens on a socket in its own folder and on no network address.
"""

import contextlib
import os
import pwd
import secrets
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.needs import found

START_WITHIN_S = 30.0


@dataclass(frozen=True)
class Server:
    """A running server: where its socket is and how to speak to it."""

    folder: Path
    user: str = "woodreeve"

    def url(self, database: str = "postgres") -> str:
        """The address of one of its databases, as SQLAlchemy takes it."""
        return f"postgresql+psycopg://{self.user}@/{database}?host={self.folder}"

    def conninfo(self, database: str = "postgres") -> str:
        """The same as psycopg and psql take it."""
        return f"host={self.folder} user={self.user} dbname={database}"

    @contextlib.contextmanager
    def database(self) -> Iterator[str]:
        """A new empty database, dropped afterwards; gives its address for SQLAlchemy."""
        import psycopg

        name = f"test_{secrets.token_hex(6)}"
        with psycopg.connect(self.conninfo(), autocommit=True) as connection:
            connection.execute(f'create database "{name}"')
        try:
            yield self.url(name)
        finally:
            with psycopg.connect(self.conninfo(), autocommit=True) as connection:
                connection.execute(f'drop database "{name}" with (force)')


def _unprivileged() -> dict[str, Any]:
    """Arguments that make a child process run as somebody who is not root."""
    if os.geteuid() != 0:
        return {}
    for name in ("postgres", "nobody"):
        with contextlib.suppress(KeyError):
            entry = pwd.getpwnam(name)
            return {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}
    raise RuntimeError("PostgreSQL will not run as root, and there is no user postgres or nobody")


@contextlib.contextmanager
def server() -> Iterator[Server]:
    """Start a private server and stop it at the end, whatever happens in between."""
    programs = found("postgresql")
    who = _unprivileged()
    # Not pytest's own folder: that one is closed to other users, and a socket's path must be short.
    folder = Path(tempfile.mkdtemp(prefix="wr-pg-"))
    try:
        if who:
            os.chown(folder, who["user"], who["group"])
        environment: Mapping[str, str] = {
            "PATH": os.environ.get("PATH", ""),
            "LC_ALL": "C",
            "HOME": str(folder),
        }
        subprocess.run(
            [
                programs / "initdb",
                "--pgdata",
                folder / "data",
                "--username",
                "woodreeve",
                "--auth",
                "trust",
                "--encoding",
                "UTF8",
                "--no-sync",
            ],
            check=True,
            cwd=folder,
            env=environment,
            stdout=subprocess.DEVNULL,
            **who,
        )
        with (folder / "log").open("wb") as log:
            process = subprocess.Popen(
                [
                    programs / "postgres",
                    "-D",
                    folder / "data",
                    "-k",
                    folder,
                    "-c",
                    "listen_addresses=",
                    "-c",
                    "fsync=off",
                    "-c",
                    "shared_buffers=32MB",
                ],
                cwd=folder,
                env=environment,
                stdout=log,
                stderr=log,
                **who,
            )
        try:
            running = Server(folder)
            _wait_for(running, process)
            yield running
        finally:
            process.send_signal(signal.SIGINT)  # "fast" stop: closes connections and ends
            try:
                process.wait(timeout=20)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for(running: Server, process: "subprocess.Popen[bytes]") -> None:
    """Wait until the server answers; tell its own log when it does not."""
    import psycopg

    last = time.monotonic() + START_WITHIN_S
    while time.monotonic() < last and process.poll() is None:
        try:
            psycopg.connect(running.conninfo()).close()
        except psycopg.OperationalError:
            time.sleep(0.05)
        else:
            return
    log = (running.folder / "log").read_text(errors="replace")
    raise RuntimeError(f"PostgreSQL did not start within {START_WITHIN_S:.0f} s:\n{log}")
