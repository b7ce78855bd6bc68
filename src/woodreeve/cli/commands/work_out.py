"""``woodreeve work-out``: any formula, worked out from the command line."""

from __future__ import annotations

import click
from rich.console import Console
from rich.table import Table

from woodreeve.cli.output import as_json, print_json
from woodreeve.errors import WrongKind
from woodreeve.wording.formulas import plain_result
from woodreeve.workings.load import load_all
from woodreeve.workings.registry import WorkedFunction
from woodreeve.workings.text import text_of

__all__ = ["command"]


@click.command("work-out")
@click.argument("name", required=False)
@click.argument("arguments", nargs=-1, metavar="[ARGUMENT=VALUE ...]")
@as_json
def command(name: str | None, arguments: tuple[str, ...], json: bool) -> None:
    """Work out the formula NAME, for instance ``net_heat net_heat_dry_mj_kg=19 moisture="20 %"``.

    Without a name, lists all formulas; with a name alone, shows its equation, arguments and sources.
    """
    registry = load_all()
    if name is None:
        _list(list(registry.values()), json)
        return
    function = registry[name]
    if not arguments and any(p.required for p in function.parameters):
        _describe(function, json)
        return
    given = {}
    for text in arguments:
        key, sign, value = text.partition("=")
        if not sign:
            raise WrongKind(text, text, "written as argument=value")
        given[key.strip()] = value.strip()
    result = plain_result(function.call_with_units(given))
    if json:
        print_json({"name": name, "given": given, "result": result, "unit": function.result_unit})
    else:
        unit = function.result_unit
        Console().print(f"{result} {unit if unit and unit != '-' else ''}".strip(), highlight=False)


def _list(functions: list[WorkedFunction], json: bool) -> None:
    if json:
        print_json([{"name": f.name, "summary": f.summary, "unit": f.result_unit} for f in functions])
        return
    table = Table(box=None, pad_edge=False)
    for title in ("formula", "gives", "unit"):
        table.add_column(title)
    for function in functions:
        table.add_row(function.name, function.summary, function.result_unit or "")
    Console().print(table)


def _describe(function: WorkedFunction, json: bool) -> None:
    text = text_of(function.name)
    if json:
        print_json(
            {
                "name": function.name,
                "summary": text.summary,
                "arguments": [
                    {"name": p.name, "unit": p.unit, "allowed": p.bounds.words(), "required": p.required}
                    for p in function.parameters
                ],
                "unit": function.result_unit,
                "equations": text.equations,
                "references": text.references,
            }
        )
        return
    console = Console()
    console.print(f"[bold]{function.name}[/bold]  {text.summary}", highlight=False)
    for p in function.parameters:
        allowed = ", ".join(str(c) for c in p.choices) if p.choices else p.bounds.words()
        unit = f" [{p.unit}]" if p.unit else ""
        default = "" if p.required else f", {p.default} if not given"
        console.print(f"  {p.name}{unit}: {allowed}{default}", markup=False, highlight=False)
    for equation in text.equations:
        console.print(f"\n  {equation}", markup=False, highlight=False)
    console.print(f"\n{text.references}", markup=False, highlight=False)
