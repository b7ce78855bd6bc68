"""What commands share: the ``--json`` switch and how JSON is printed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

__all__ = ["as_json", "print_json"]

C = TypeVar("C", bound=Callable[..., Any])


def as_json(command: C) -> C:
    """Give a command the switch ``--json``."""
    return click.option("--json", is_flag=True, help="Print the answer as JSON.")(command)


def print_json(value: Any) -> None:
    """Print any answer or plain value as JSON, as the JSON resource would send it."""
    from pydantic import TypeAdapter

    adapter: TypeAdapter[Any] = TypeAdapter(type(value))
    click.echo(adapter.dump_json(value, indent=2).decode())
