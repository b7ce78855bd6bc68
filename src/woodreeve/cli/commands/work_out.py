"""``woodreeve work-out``: any formula, worked out from the command line."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

import click

from woodreeve.cli.output import as_json, console, print_json
from woodreeve.cli.typed import pairs

if TYPE_CHECKING:
    from woodreeve.workings.registry import Parameter, WorkedFunction

__all__ = ["command"]


@click.command("work-out")
@click.argument("name", required=False)
@click.argument("arguments", nargs=-1, metavar="[ARGUMENT=VALUE ...]")
@as_json
def command(name: str | None, arguments: tuple[str, ...], json: bool) -> None:
    """Work out the formula NAME, for instance ``net_heat net_heat_dry_mj_kg=19 moisture="20 %"``.

    Without a name, lists all formulas; with a name alone, shows its equation, arguments and sources.
    """
    from woodreeve.workings.load import load_all

    registry = load_all()
    if name is None:
        _list(list(registry.values()), json)
        return
    function = registry[name]
    if not arguments and any(p.required for p in function.parameters):
        _describe(function, json)
        return
    _work_out(function, pairs(arguments), json)


def _work_out(function: WorkedFunction, given: dict[str, str], json: bool) -> None:
    if json:
        from woodreeve.web.api.workings import Given, work_out

        print_json(work_out(function.name, Given(given={**given})))
        return
    from woodreeve.wording.formulas import plain_result

    result = plain_result(function.call_with_units(given))
    unit = function.result_unit
    for line in _result_lines(result):
        console().print(f"{line} {unit if unit and unit != '-' else ''}".strip(), soft_wrap=True)


def _result_lines(result: object) -> list[str]:
    if isinstance(result, dict):
        return [f"{name}: {value}" for name, value in result.items()]
    return [str(result)]


def _list(functions: list[WorkedFunction], json: bool) -> None:
    if json:
        from woodreeve.web.api.workings import list_all

        print_json(list_all())
        return
    from woodreeve.cli.tables import rows_table
    from woodreeve.workings.load import DOMAIN

    out = console()
    in_order = sorted(functions, key=lambda function: DOMAIN.index(_room(function)))
    for room, members in groupby(in_order, key=_room):
        rows = [(f.name, f.summary + (f" [{f.result_unit}]" if f.result_unit else "")) for f in members]
        out.print(f"\n{room}", style="bold")
        out.print(rows_table(("", ""), rows, folded=(1,)))
    out.print(f"\n{len(functions)} formulas; 'woodreeve work-out NAME' shows one.")


def _room(function: WorkedFunction) -> str:
    return function.module.removeprefix("woodreeve.").split(".")[0]


def _describe(function: WorkedFunction, json: bool) -> None:
    if json:
        from woodreeve.web.api.workings import show

        print_json(show(function.name))
        return
    from woodreeve.workings.text import text_of

    text = text_of(function.name)
    out = console()
    unit = f" [{function.result_unit}]" if function.result_unit else ""
    out.print(f"{function.name}{unit}", style="bold")
    out.print(text.summary)
    for equation in text.equations:
        out.print(f"\n  {equation}", soft_wrap=True)
    out.print("\nArguments:")
    for p in function.parameters:
        out.print(f"  {_argument(p)}", soft_wrap=True)
    out.print(f"\nSource:\n{text.references}", soft_wrap=True)


def _argument(p: Parameter) -> str:
    allowed = f"one of {', '.join(str(c) for c in p.choices)}" if p.choices else p.bounds.words()
    unit = f" [{p.unit}]" if p.unit else ""
    default = "" if p.required else f"; {'left out' if p.default is None else p.default} if not given"
    return f"{p.name}{unit}: {allowed if p.checked else 'not checked'}{default}"
