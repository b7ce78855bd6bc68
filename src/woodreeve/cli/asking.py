"""What question commands share: whose records, which holding, which moment, which weather."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar
from zoneinfo import ZoneInfo

import click

from woodreeve.errors import Refused, Unreadable

if TYPE_CHECKING:
    from woodreeve.records.household import Asking, Household
    from woodreeve.records.store import Records
    from woodreeve.weather.series import Hourly

__all__ = [
    "ask",
    "household",
    "moment_of",
    "of_records",
    "one_name",
    "open_household",
    "question",
    "read_text",
    "write_text",
]

C = TypeVar("C", bound=Callable[..., Any])


def of_records(command: C) -> C:
    """Give a command the options that say whose records it speaks of."""
    command = click.option("--records", metavar="PATH", help="The records: a file, or a PostgreSQL URL.")(
        command
    )
    return click.option("--holding", "name", metavar="NAME", help="The holding, where there are several.")(
        command
    )


def question(command: C) -> C:
    """Give a command the options of a question."""
    command = click.option(
        "--at", metavar="MOMENT", help="The moment asked about, for instance 2026-01-13T17:00."
    )(command)
    command = click.option(
        "--weather", metavar="FILE", help="Hourly weather: EPW, TMY3, DWD test year or CSV."
    )(command)
    command = click.option("--from", "source", metavar="FILE", help="Read the holding from a TOML file.")(
        command
    )
    command = click.option("--demo", is_flag=True, help="Ask about the demonstration holding.")(command)
    return of_records(command)


def one_name(records: Records, name: str | None) -> str:
    """The holding that is meant.

    Raises
    ------
    Refused
        If there is none yet, or several and none was named.
    """
    if name is not None:
        return name
    names = records.holdings()
    if not names:
        raise Refused(
            "There is no holding in these records yet: describe yours with 'woodreeve holding blank', then "
            "load it with 'woodreeve holding load FILE'; or try 'woodreeve demo'."
        )
    if len(names) > 1:
        raise Refused(f"There are several holdings, {', '.join(names)}: name one with --holding.")
    return names[0]


def household(records: str | None, name: str | None, weather: Hourly | None = None) -> Household:
    """Open the records at their holding.

    Raises
    ------
    Refused
        If there is no holding yet, or several and none was named.
    UnknownName
        If there is no holding of this name.
    """
    from woodreeve.records.household import Household
    from woodreeve.records.store import Records
    from woodreeve.web.clocks import own_clock

    opened = Records.open(records)
    try:
        meant = one_name(opened, name)
        opened.holding_newest(meant)
    except BaseException:
        opened.close()
        raise
    return Household(opened, meant, clock=own_clock, weather=weather)


@contextmanager
def open_household(records: str | None, name: str | None) -> Iterator[Household]:
    """Open the records at their holding for the length of a command."""
    one = household(records, name)
    try:
        yield one
    finally:
        one.close()


def ask(
    *,
    records: str | None,
    name: str | None,
    at: str | None,
    weather: str | None,
    source: str | None,
    demo: bool,
) -> Asking:
    """Read what a question needs, from the records, a file or the demonstration.

    Raises
    ------
    WoodreeveError
        In one sentence, if anything cannot be read.
    """
    from woodreeve.holding.toml import load
    from woodreeve.records.asking import Asking
    from woodreeve.records.weather_files import read_weather
    from woodreeve.web.clocks import own_clock

    if demo and source is not None:
        raise Refused("--demo and --from each name a holding: give one of the two.")
    hourly = read_weather(Path(weather)) if weather else None
    if source is not None:
        document = read_text(source)
        load(document, source)
        return Asking(document, moment_of(at, document) if at else own_clock(), weather=hourly)
    if demo:
        from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text

        text = demo_holding_text()
        return Asking(
            text, moment_of(at, text) if at else DEMO_MOMENT, entries=demo_entries(), weather=hourly
        )
    one = household(records, name, hourly)
    try:
        newest = one.records.holding_newest(one.name).document
        return one.ask(moment_of(at, newest) if at else None)
    finally:
        one.close()


def read_text(file: str) -> str:
    """Read a text file, or standard input for ``-``.

    Raises
    ------
    Unreadable
        If it cannot be read.
    """
    if file == "-":
        return sys.stdin.read()
    try:
        return Path(file).read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise Unreadable(f"{file} cannot be read: {reason}.") from error


def write_text(file: str, text: str, *, replace: bool = False) -> None:
    """Write a text file, or to standard output for ``-``.

    Raises
    ------
    Refused
        If the file exists and is not to be replaced, or cannot be written.
    """
    if file == "-":
        click.echo(text, nl=False)
        return
    try:
        with Path(file).open("w" if replace else "x", encoding="utf-8") as target:
            target.write(text)
    except FileExistsError:
        raise Refused(f"{file} exists already: name a new file, or give --replace.") from None
    except OSError as error:
        raise Refused(f"{file} cannot be written: {error.strerror}.") from error


def moment_of(text: str, document: str, option: str = "--at") -> datetime:
    """A moment as a person writes it, in the zone of the place where none is told.

    Parameters
    ----------
    text : str
        A date, or a date and time, with or without an offset.
    document : str
        The holding's description, which names its zone.
    option : str
        The option it was given with.

    Raises
    ------
    Unreadable
        If it is no date and time.
    """
    from woodreeve.holding.toml import load

    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise Unreadable(
            f"{option} is {text!r}, but must be a date and time such as 2026-01-13T17:00."
        ) from None
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=ZoneInfo(load(document).place.zone_name))
    return moment
