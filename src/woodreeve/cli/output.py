"""What commands share: the ``--json`` switch and how JSON is printed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from rich.console import Console

__all__ = ["as_json", "console", "print_json"]

C = TypeVar("C", bound=Callable[..., Any])


def as_json(command: C) -> C:
    """Give a command the switch ``--json``."""
    return click.option("--json", is_flag=True, help="Print the answer as JSON.")(command)


def print_json(value: Any) -> None:
    """Print any answer or plain value as JSON, as the JSON resource would send it."""
    from pydantic import TypeAdapter

    adapter: TypeAdapter[Any] = TypeAdapter(type(value))
    click.echo(adapter.dump_json(value, indent=2).decode())


def console() -> Console:
    """The terminal, for text that is printed as it stands."""
    from rich.console import Console

    return Console(highlight=False, markup=False)
