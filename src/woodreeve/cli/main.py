"""The command ``woodreeve``: one command a question, each loaded only when it is called."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Sequence
from typing import NoReturn

import click

from woodreeve.errors import WoodreeveError

__all__ = ["main"]

COMMANDS = {
    "tonight": "Whether to light the boiler, when, with how much and from which stack.",
    "winter": "How much wood this winter and the next need, and whether it is dry.",
    "stacks": "What is in each stack, how wet, and which to burn first.",
    "season": "How the plant runs through a year with a firing rule.",
    "plant": "Whether the plant is rightly sized, safe and legal, check by check.",
    "upkeep": "What is due on the plant, what was left out, and why it matters.",
    "why": "Open a figure of an answer down to its sources.",
    "diary": "Write down and list what happened.",
    "holding": "Show, check, load and save the description of your place.",
    "card": "Print the emergency card for the boiler-room door.",
    "paper": "Print the paper for the installer and for the file.",
    "work-out": "Work one formula out, with units, source and range.",
    "serve": "Start the pages on this computer.",
    "demo": "Start the pages on the demonstration holding.",
    "backup": "Copy the records to a file, or check and restore such a copy.",
    "doctor": "Show versions, paths and the state of the database.",
}
"""Command names and their one line of help, so that listing them loads none of them."""

STOPPED = 130
"""Exit code of a command that was stopped from the keyboard, as shells have it."""


class LateGroup(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """List the commands, in the order of the chain."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a command."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"woodreeve.cli.commands.{cmd_name.replace('-', '_')}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=LateGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="woodreeve", prog_name="woodreeve")
def command() -> None:
    """From the standing tree to the warm room: stacks, log boiler and store, planned and accounted for."""


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command; a fault that woodreeve understands becomes one sentence and exit code 2.

    Parameters
    ----------
    arguments : sequence of str, optional
        The words after the command's name; those of the process by default.
    """
    try:
        ended = command.main(args=arguments, prog_name="woodreeve", standalone_mode=False)
    except WoodreeveError as error:
        _fail(str(error))
    except click.exceptions.NoArgsIsHelpError as asked:
        asked.show(sys.stdout)
        sys.exit(0)
    except click.UsageError as error:
        path = error.ctx.command_path if error.ctx else "woodreeve"
        _fail(f"{error.format_message()} Help: {path} --help")
    except click.ClickException as error:
        _fail(error.format_message())
    except click.Abort:
        _fail("stopped.", STOPPED)
    if isinstance(ended, int) and ended:
        sys.exit(ended)


def _fail(sentence: str, code: int = 2) -> NoReturn:
    click.echo(f"woodreeve: {sentence}", err=True)
    sys.exit(code)
