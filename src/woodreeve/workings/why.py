"""Opening a figure: from its place in an answer down to published sources and what the owner gave."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from woodreeve.errors import UnknownName
from woodreeve.workings.figure import Dated, Figure, Said, node_of
from woodreeve.workings.registry import Parameter, registry
from woodreeve.workings.text import text_of
from woodreeve.workings.trace import Given, Leaf, Node

__all__ = ["Input", "Opened", "Step", "figures_of", "find_figure", "open_figure"]


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a step: its value, and where it came from in one phrase.

    ``steps`` are the numbers of the steps that it came from; ``on_the_way_of`` is the step that worked it out
    on its way and handed it on; ``given`` tells what the owner or a source gave; ``loose`` lists numbers
    that nothing accounts for (a test sees to it that there are none).
    """

    name: str
    text: str
    unit: str
    help: str
    steps: tuple[int, ...]
    on_the_way_of: int | None
    given: tuple[str, ...]
    loose: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One formula as it was worked out for a figure."""

    number: int
    name: str
    summary: str
    result: str
    unit: str
    count: int
    span: str
    inputs: tuple[Input, ...]
    inside: tuple[int, ...]
    equations: tuple[str, ...]
    references: str


@dataclass(frozen=True, slots=True)
class Opened:
    """A figure with the steps behind it, the last worked out first."""

    path: str
    shown: Figure | Dated
    given: str
    steps: tuple[Step, ...]

    @property
    def sources(self) -> tuple[str, ...]:
        """Every published source and owner's value in the tree, once."""
        found = {step.references: None for step in self.steps if step.references}
        for step in self.steps:
            found.update(dict.fromkeys(text for item in step.inputs for text in item.given))
        if self.given:
            found[self.given] = None
        return tuple(found)

    @property
    def loose(self) -> tuple[str, ...]:
        """Inputs that nothing accounts for."""
        return tuple(
            f"{s.name}.{i.name} {part}".strip() for s in self.steps for i in s.inputs for part in i.loose
        )


def figures_of(answer: Any, path: str = "") -> Iterator[tuple[str, Figure | Dated]]:
    """Every figure of an answer with its path, for instance ``months.3.heat_kwh``."""
    if isinstance(answer, Figure | Dated):
        yield path, answer
    elif isinstance(answer, Said):
        yield from figures_of(answer.values, f"{path}.values" if path else "values")
    elif is_dataclass(answer) and not isinstance(answer, type):
        for item in fields(answer):
            yield from figures_of(getattr(answer, item.name), f"{path}.{item.name}".lstrip("."))
    elif isinstance(answer, Mapping):
        for key, inner in answer.items():
            yield from figures_of(inner, f"{path}.{key}".lstrip("."))
    elif isinstance(answer, tuple | list):
        for index, inner in enumerate(answer):
            yield from figures_of(inner, f"{path}.{index}".lstrip("."))


def find_figure(answer: Any, path: str) -> Figure | Dated:
    """Find the figure at a path.

    Raises
    ------
    UnknownName
        If the answer has no figure there.
    """
    known = dict(figures_of(answer))
    if path not in known:
        raise UnknownName("figure of this answer", path, known)
    return known[path]


def open_figure(answer: Any, path: str) -> Opened:
    """Show how a figure of an answer came about.

    Parameters
    ----------
    answer : object
        An answer that was worked out under a :class:`~woodreeve.workings.trace.Trace`.
    path : str
        The figure's path.

    Returns
    -------
    Opened
        The figure and the steps behind it, each with its equation and sources.

    Raises
    ------
    UnknownName
        If the answer has no figure at this path.
    """
    shown = find_figure(answer, path)
    behind = node_of(shown)
    if isinstance(behind, Given):
        return Opened(path, shown, f"{behind.path}: {behind.source}", ())
    if behind is None:
        return Opened(path, shown, "", ())
    numbers: dict[int, int] = {}
    order: list[Node] = []
    waiting = [behind]
    while waiting:
        node = waiting.pop(0)
        if id(node) in numbers:
            continue
        numbers[id(node)] = len(order) + 1
        order.append(node)
        waiting.extend(_next(node))
    return Opened(path, shown, "", tuple(_step(node, numbers) for node in order))


def _next(node: Node) -> Iterator[Node]:
    for leaf in node.inputs:
        yield from (origin for origin in _origins(leaf) if isinstance(origin, Node))
    if node.within is not None and any(_unexplained(node.name, leaf) for leaf in node.inputs):
        yield node.within
    yield from node.children


def _origins(leaf: Leaf) -> Iterator[Node | Given]:
    if leaf.came_from is not None:
        yield leaf.came_from
    yield from (origin for _, origin in leaf.parts)


def _unexplained(name: str, leaf: Leaf) -> tuple[str, ...]:
    """The numbers of an input that came neither from a formula's result nor from anybody."""
    parameter = next(p for p in registry[name].parameters if p.name == leaf.name)
    if leaf.came_from is None and _is_default(parameter, leaf):
        return ()
    if leaf.loose or leaf.came_from is not None or leaf.parts or leaf.seen.value is None:
        return leaf.loose
    return () if parameter.unit is None else (leaf.seen.text,)


def _is_default(parameter: Parameter, leaf: Leaf) -> bool:
    return leaf.is_default or (leaf.seen.value is not None and bool(parameter.default == leaf.seen.value))


def _step(node: Node, numbers: dict[int, int]) -> Step:
    function = registry[node.name]
    words = text_of(node.name)
    known = {p.name: p for p in function.parameters}
    inputs = []
    for leaf in node.inputs:
        origins = list(_origins(leaf))
        parameter = known[leaf.name]
        given = [
            f"{o.path}{'.' + leaf.part if leaf.part else ''}: {o.source}"
            for o in origins
            if isinstance(o, Given)
        ]
        if _is_default(parameter, leaf) and not origins:
            given.append(f"{node.name}: default of the formula")
        loose = _unexplained(node.name, leaf)
        made_on_the_way = bool(loose) and node.within is not None
        inputs.append(
            Input(
                name=leaf.name,
                text=leaf.seen.text,
                unit=parameter.unit or "",
                help=words.parameters.get(leaf.name, ""),
                steps=tuple(
                    dict.fromkeys(numbers[id(o)] for o in origins if isinstance(o, Node) and id(o) in numbers)
                ),
                on_the_way_of=numbers[id(node.within)] if made_on_the_way else None,
                given=tuple(dict.fromkeys(given)),
                loose=() if made_on_the_way else loose,
            )
        )
    span = f"{node.low:.6g} to {node.high:.6g}" if node.count > 1 and node.low is not None else ""
    return Step(
        number=numbers[id(node)],
        name=node.name,
        summary=words.summary,
        result=node.result.text,
        unit=function.result_unit or "",
        count=node.count,
        span=span,
        inputs=tuple(inputs),
        inside=tuple(numbers[id(child)] for child in node.children),
        equations=words.equations,
        references=words.references,
    )
