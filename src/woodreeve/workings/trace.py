"""How a figure came about: while a trace is on, every worked function leaves a node.

A node links to what its inputs came from by the identity of the objects themselves: a result handed on
to the next function unchanged is recognised there, and so is a number the owner typed. A number that one
formula works out on its way and hands to another is explained by the formula it was made in. What is
nothing of these is listed as unexplained, and a test sees to it that no answer has any.
"""

from __future__ import annotations

import hashlib
import inspect
from collections.abc import Callable, Iterable, Mapping
from contextvars import ContextVar
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import date, datetime
from types import TracebackType
from typing import Any

import numpy as np

__all__ = ["Given", "Leaf", "Node", "Seen", "Trace", "current_trace", "switch"]

MOST_LIKE_CALLS = 8
"""So many calls of one function under one parent are kept apart; more are folded into one node."""

_PLAIN = (int, bool, str, type(None), date)
"""Kinds whose objects may be shared by the interpreter, so that identity says nothing."""


def _says_nothing(value: Any) -> bool:
    """Whether the interpreter may share this object, so that its identity says nothing."""
    return isinstance(value, _PLAIN) or (isinstance(value, tuple | frozenset) and not value)


@dataclass(frozen=True, slots=True)
class Seen:
    """A value as a trace keeps it: plain, or an array by its shape and range."""

    text: str
    value: float | None = None
    shape: tuple[int, ...] | None = None
    low: float | None = None
    mean: float | None = None
    high: float | None = None
    digest: str | None = None

    @classmethod
    def of(cls, value: Any) -> Seen:
        """Take a value down."""
        if isinstance(value, np.ndarray) and value.dtype.kind in "fiub":
            digest = hashlib.sha256(np.ascontiguousarray(value).tobytes()).hexdigest()[:12]
            if value.size == 0:
                return cls(text="no values", shape=value.shape, digest=digest)
            low, mean, high = float(value.min()), float(value.mean()), float(value.max())
            text = f"{value.size} values from {low:.4g} to {high:.4g}, mean {mean:.4g}"
            return cls(text, None, value.shape, low, mean, high, digest)
        if isinstance(value, bool) or value is None or isinstance(value, str):
            return cls(text=str(value))
        if isinstance(value, int | float | np.integer | np.floating):
            return cls(text=f"{float(value):.6g}", value=float(value))
        if isinstance(value, datetime | date):
            return cls(text=value.isoformat())
        if is_dataclass(value) and not isinstance(value, type):
            # A dataclass that can say what it is, such as a species' figure with its source, does so.
            says = type(value).__str__ is not object.__str__
            return cls(text=str(value) if says else type(value).__name__)
        if isinstance(value, Mapping):
            return cls(text=f"{len(value)} named values")
        if isinstance(value, list | tuple | frozenset | set):
            return cls(text=f"{len(value)} values")
        return cls(text=type(value).__name__)


@dataclass(frozen=True, slots=True)
class Given:
    """A value that came from outside the formulas: typed by the owner, logged, measured, or a default.

    Parameters
    ----------
    path : str
        Where it stands, for instance ``holding: house.people`` or ``diary: measured 2026-03-01``.
    source : str
        Who says so: ``"typed by the owner"``, or the source of a default.
    """

    path: str
    source: str


@dataclass(frozen=True, slots=True)
class Leaf:
    """One input of a node: its name, its value as seen, and what it came from.

    A composite that was put together outside the formulas lists the origins of its numbers in ``parts``, and
    in ``loose`` the paths of those that have none. ``is_default`` says that it is the formula's own default.
    """

    name: str
    seen: Seen
    came_from: Node | Given | None
    part: str = ""
    parts: tuple[tuple[str, Node | Given], ...] = ()
    loose: tuple[str, ...] = ()
    is_default: bool = False


@dataclass(slots=True, eq=False)
class Node:
    """One call of a worked function (or several like ones, folded); ``within`` is the call it was made in."""

    name: str
    inputs: tuple[Leaf, ...]
    within: Node | None = None
    result: Seen = field(default_factory=lambda: Seen(""))
    children: list[Node] = field(default_factory=list)
    count: int = 1
    low: float | None = None
    high: float | None = None

    def fold_in(self, other: Node) -> None:
        """Count a further like call instead of keeping it."""
        self.count += 1
        for node in (self, other):
            for bound in (node.result.value, node.low, node.high):
                if bound is not None:
                    self.low = bound if self.low is None else min(self.low, bound)
                    self.high = bound if self.high is None else max(self.high, bound)


class Switch:
    """Whether any trace is on in this process: the one thing a worked function asks each time."""

    __slots__ = ("on",)

    def __init__(self) -> None:
        self.on = 0


switch = Switch()
_current: ContextVar[Trace | None] = ContextVar("woodreeve_trace", default=None)


def current_trace() -> Trace | None:
    """The trace that is on in this thread or task, if any."""
    return _current.get() if switch.on else None


class Trace:
    """Records the calls of worked functions made inside its ``with`` block.

    Examples
    --------
    >>> from woodreeve.workings.trace import Trace
    >>> with Trace() as trace:
    ...     pass
    >>> trace.nodes
    []
    """

    def __init__(self) -> None:
        self.nodes: list[Node] = []
        self._open: list[Node] = []
        self._origin: dict[int, tuple[Node | Given, str]] = {}
        self._given_by_name: dict[str, list[tuple[Any, Given]]] = {}
        self._last: dict[str, Node] = {}
        self._alive: list[Any] = []

    def __enter__(self) -> Trace:
        """Turn the trace on."""
        self._token = _current.set(self)
        switch.on += 1
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        """Turn the trace off; what it recorded stays readable."""
        switch.on -= 1
        _current.reset(self._token)

    def given(self, value: Any, path: str, source: str | Callable[[str], str]) -> None:
        """Declare a value, and everything inside it, as given from outside.

        Parameters
        ----------
        value : object
            A float, array, dataclass, mapping or sequence; taken apart to its single values.
        path : str
            Where it stands; parts get their name or number appended.
        source : str or callable
            Who says so, for all of it or told of each path.
        """
        for part, inner in _walk(value, path):
            origin = Given(part, source if isinstance(source, str) else source(part))
            if _says_nothing(inner):
                name = part.rsplit(".", 1)[-1].rsplit(" ", 1)[-1]
                self._given_by_name.setdefault(name, []).append((inner, origin))
            else:
                self._origin[id(inner)] = (origin, "")
                self._alive.append(inner)

    def origin_of(self, value: Any, name: str = "") -> tuple[Node | Given | None, str]:
        """What a value came from, and which part of that it is."""
        if _says_nothing(value):
            for known, origin in self._given_by_name.get(name, ()):
                if known == value and type(known) is type(value):
                    return origin, ""
            return None, ""
        return self._origin.get(id(value), (None, ""))

    def node_behind(self, value: Any) -> Node | Given | None:
        """The node or given value that a figure's value is."""
        return self.origin_of(value)[0]

    def last_named(self, name: str) -> Node | Given | None:
        """The last call of a function, for results such as dates that carry no identity."""
        return self._last.get(name)

    def call(self, name: str, bare: Any, named: tuple[tuple[str, Any], ...], args: Any, kwargs: Any) -> Any:
        """Run a worked function and record it; used by the generated wrappers only."""
        leaves = []
        defaults = _defaults_of(bare)
        for key, value in named:
            origin, part = self.origin_of(value, key)
            is_default = origin is None and not _says_nothing(value) and id(value) in defaults
            parts, loose = ((), ()) if origin or is_default else self._taken_apart(value)
            leaves.append(Leaf(key, Seen.of(value), origin, part, parts, loose, is_default))
            self._alive.append(value)
        node = Node(name, tuple(leaves), self._open[-1] if self._open else None)
        self._open.append(node)
        try:
            result = bare(*args, **kwargs)
        finally:
            self._open.pop()
        node.result = Seen.of(result)
        self._keep(node)
        self._last[name] = node
        for part, inner in _walk(result, ""):
            if not _says_nothing(inner) and (part == "" or id(inner) not in self._origin):
                self._origin[id(inner)] = (node, part.lstrip("."))
                self._alive.append(inner)
        return result

    def _taken_apart(self, value: Any) -> tuple[tuple[tuple[str, Node | Given], ...], tuple[str, ...]]:
        """The origins of the numbers inside a composite, and the paths of those without."""
        parts: dict[int, tuple[str, Node | Given]] = {}
        loose: list[str] = []
        for path, inner in _walk(value, ""):
            if not isinstance(inner, float | np.ndarray | np.floating):
                continue
            origin = self._origin.get(id(inner), (None, ""))[0]
            if origin is None:
                loose.append(path.lstrip("."))
            else:
                parts.setdefault(id(origin), (path.lstrip("."), origin))
        return tuple(parts.values()), tuple(loose)

    def _keep(self, node: Node) -> None:
        siblings = self._open[-1].children if self._open else self.nodes
        like = [other for other in siblings if other.name == node.name]
        if len(like) >= MOST_LIKE_CALLS:
            like[-1].fold_in(node)
        else:
            siblings.append(node)


def _defaults_of(bare: Any) -> set[int]:
    """The identities of a function's own defaults."""
    plain = inspect.unwrap(bare)
    by_position = getattr(plain, "__defaults__", None) or ()
    by_name = getattr(plain, "__kwdefaults__", None) or {}
    return {id(value) for value in (*by_position, *by_name.values())}


def _walk(value: Any, path: str, depth: int = 6) -> Iterable[tuple[str, Any]]:
    """A value and the values inside it, each with its path."""
    yield path, value
    if depth == 0:
        return
    if is_dataclass(value) and not isinstance(value, type):
        for item in fields(value):
            yield from _walk(getattr(value, item.name), f"{path}.{item.name}", depth - 1)
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _walk(inner, f"{path}.{key}", depth - 1)
    elif isinstance(value, list | tuple):
        for number, inner in enumerate(value):
            yield from _walk(inner, f"{path}.{number}", depth - 1)
