"""The list of worked functions: each formula once, with its units, bounds, defaults and text."""

from __future__ import annotations

import inspect
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from datetime import date
from functools import cached_property, update_wrapper
from typing import Any, Literal, ParamSpec, TypeVar, get_args, get_origin, get_type_hints

import numpy as np

from woodreeve.errors import OutOfRange, UnknownName, WoodreeveError, WrongKind, WrongUnit
from woodreeve.units import Bounds, bounds_of, convert, parse_quantity, unit_of
from woodreeve.workings.trace import _current, switch

__all__ = ["Parameter", "Registry", "WorkedFunction", "registry", "worked"]

P = ParamSpec("P")
R = TypeVar("R")

REQUIRED: Any = inspect.Parameter.empty


@dataclass(frozen=True, slots=True)
class Parameter:
    """One argument of a worked function, as its annotation states it."""

    name: str
    annotation: Any
    unit: str | None
    bounds: Bounds
    default: Any
    choices: tuple[Any, ...]
    optional: bool
    keyword_only: bool

    @property
    def required(self) -> bool:
        """Whether the argument must be given."""
        return self.default is REQUIRED

    @property
    def checked(self) -> bool:
        """Whether calls are checked: numbers with a unit, and choices."""
        return self.unit is not None or bool(self.choices)

    @property
    def takes_text(self) -> bool:
        """Whether a person can give it in a form or on the command line."""
        return self.checked or self._base in (float, int, str, bool) or self._text_among_others

    @property
    def _base(self) -> Any:
        return _base_of(self.annotation)[0]

    @property
    def _text_among_others(self) -> bool:
        """Whether text is one of several kinds that do, as in ``str | Mapping[str, float]``."""
        return str in get_args(self._base)

    def refuse(self, value: Any) -> None:
        """Raise the error that fits a value, if it does not do."""
        if value is None and self.optional:
            return
        if self.choices:
            if value not in self.choices:
                raise UnknownName(self.name, str(value), (str(c) for c in self.choices))
            return
        unit = self.unit or ""
        if isinstance(value, str | bytes | bool) or not isinstance(
            value, int | float | np.integer | np.floating | np.ndarray | list | tuple
        ):
            raise WrongKind(self.name, value, f"a number [{unit}]")
        numbers = np.asarray(value, dtype=float)
        if numbers.size == 0:
            return
        for number in (float(numbers.min()), float(numbers.max())):
            if not np.isfinite(number):
                raise OutOfRange(self.name, number, self._allowed(), unit, "a value is missing")
            if not self.bounds.admit(number):
                raise OutOfRange(self.name, f"{number:.10g}", self._allowed(), unit, self._hint(number))

    def _allowed(self) -> str:
        return self.bounds.words()

    def _hint(self, number: float) -> str:
        high = self.bounds.high
        if self.unit == "-" and high is not None and high <= 3 and 3 <= number <= 100 * high:
            return f"give {number:g} % as {number / 100:g}"
        return ""

    def read(self, text: Any) -> Any:
        """Turn what a person wrote, or a JSON value, into an argument of this kind.

        A dataclass is read from a mapping of its fields, a day from ``"2026-03-01"``; what is neither
        number, choice nor text is passed on as it is.
        """
        if text is None:
            return None
        base = self._base
        if self.choices:
            by_text = {str(choice): choice for choice in self.choices}
            if str(text) not in by_text:
                raise UnknownName(self.name, str(text), by_text)
            return by_text[str(text)]
        if base is str:
            return str(text)
        if base is bool:
            return text if isinstance(text, bool) else str(text).strip().lower() in ("1", "true", "yes", "on")
        if self.unit is None and base not in (float, int):
            return _read_other(base, text)
        if isinstance(text, list | tuple):
            return np.array([self.read(item) for item in text])
        if isinstance(text, bool):
            raise WrongKind(self.name, text, "a number")
        if isinstance(text, int | float):
            return int(text) if base is int else float(text)
        number = parse_quantity(str(text), self.unit or "-", self.name)
        return int(number) if base is int else number


def _read_other(base: Any, given: Any) -> Any:
    """Read what is neither number, choice nor text: a dataclass from a mapping, a day from its text."""
    if isinstance(base, type) and is_dataclass(base) and isinstance(given, Mapping):
        return _read_dataclass(base, given)
    if isinstance(base, type) and issubclass(base, date) and isinstance(given, str):
        return base.fromisoformat(given)
    return given


def _read_dataclass(kind: type[Any], given: Mapping[str, Any]) -> Any:
    hints = get_type_hints(kind, include_extras=True)
    needless = {
        item.name
        for item in fields(kind)
        if item.default is not MISSING or item.default_factory is not MISSING
    }
    known = {
        item.name: _parameter(item.name, hints[item.name], REQUIRED, True)
        for item in fields(kind)
        if item.init
    }
    for unknown in given.keys() - known.keys():
        raise UnknownName(f"field of {kind.__name__}", unknown, known)
    for missing in known.keys() - given.keys() - needless:
        raise WrongKind(
            missing, "missing", f"given: {kind.__name__} needs it [{known[missing].unit or 'text'}]"
        )
    values = {name: known[name].read(value) for name, value in given.items()}
    for name, value in values.items():
        if known[name].checked:
            known[name].refuse(value)
    return kind(**values)


def _parameter(name: str, annotation: Any, default: Any, keyword_only: bool) -> Parameter:
    inner = _annotated_part(annotation)
    base, optional = _base_of(annotation)
    return Parameter(
        name=name,
        annotation=annotation,
        unit=unit_of(inner),
        bounds=bounds_of(inner),
        default=default,
        choices=get_args(base) if get_origin(base) is Literal else (),
        optional=optional or default is None,
        keyword_only=keyword_only,
    )


def _base_of(annotation: Any) -> tuple[Any, bool]:
    """The type under ``Annotated`` and ``| None``, and whether ``None`` was allowed."""
    optional = False
    while True:
        if get_origin(annotation) is typing.Annotated:
            annotation = get_args(annotation)[0]
        elif get_origin(annotation) in (types.UnionType, typing.Union):
            rest = [arg for arg in get_args(annotation) if arg is not type(None)]
            optional = optional or len(rest) < len(get_args(annotation))
            if len(rest) != 1:
                return annotation, optional
            annotation = rest[0]
        else:
            return annotation, optional


def _annotated_part(annotation: Any) -> Any:
    """The ``Annotated`` member of ``X | None``, or the annotation itself."""
    if get_origin(annotation) in (types.UnionType, typing.Union):
        return next((a for a in get_args(annotation) if get_origin(a) is typing.Annotated), annotation)
    return annotation


class WorkedFunction:
    """A formula on the list: callable by name, with everything its annotations and text say."""

    def __init__(self, bare: Callable[..., Any]) -> None:
        self.bare = bare
        self.name = bare.__name__
        self.module = bare.__module__
        self.call: Callable[..., Any] = bare

    @cached_property
    def _hints(self) -> dict[str, Any]:
        return get_type_hints(self.bare, include_extras=True)

    @cached_property
    def parameters(self) -> tuple[Parameter, ...]:
        """The arguments in their order."""
        return tuple(
            _parameter(name, self._hints[name], given.default, given.kind is inspect.Parameter.KEYWORD_ONLY)
            for name, given in inspect.signature(self.bare).parameters.items()
        )

    @cached_property
    def returns(self) -> Any:
        """The annotation of the result."""
        return self._hints["return"]

    @property
    def result_unit(self) -> str | None:
        """The unit of the result, where it is a single quantity."""
        return unit_of(_annotated_part(self.returns))

    @property
    def doc(self) -> str:
        """The numpydoc text."""
        return inspect.getdoc(self.bare) or ""

    @property
    def summary(self) -> str:
        """The first line of the text."""
        return self.doc.split("\n", 1)[0]

    @property
    def takes_text(self) -> bool:
        """Whether every required argument can be typed by a person."""
        return all(p.takes_text or not p.required for p in self.parameters)

    def call_with_units(self, given: Mapping[str, Any]) -> Any:
        """Call the function with arguments as a person or a JSON document gives them.

        Parameters
        ----------
        given : mapping
            Argument names to numbers (in the function's own unit), texts with a unit such as
            ``"20 percent"``, choices, or lists of these.

        Returns
        -------
        object
            The result, in the function's own unit.

        Raises
        ------
        UnknownName
            If an argument's name or a choice is not known.
        WrongUnit
            If a quantity has another dimension.
        WrongKind
            If a required argument is missing or of the wrong kind.
        OutOfRange
            If a number lies outside its bounds.
        """
        known = {p.name: p for p in self.parameters}
        for name in given:
            if name not in known:
                raise UnknownName(f"argument of {self.name}", name, known)
        for p in self.parameters:
            if p.required and p.name not in given:
                raise WrongKind(p.name, "missing", f"given: {self.name} needs it [{p.unit or 'text'}]")
        return self.call(**{name: known[name].read(value) for name, value in given.items()})

    def result_in(self, result: float, unit: str) -> float:
        """Convert a single result to another unit of its dimension."""
        own = self.result_unit
        if own is None:
            raise WrongUnit(self.name, "a result without a unit", unit)
        return convert(result, own, unit, self.name)


class Registry(Mapping[str, WorkedFunction]):
    """Worked functions by name."""

    def __init__(self) -> None:
        self._functions: dict[str, WorkedFunction] = {}

    def __getitem__(self, name: str) -> WorkedFunction:
        """Find a function by its name."""
        try:
            return self._functions[name]
        except KeyError:
            raise UnknownName("formula", name, self._functions) from None

    def __contains__(self, name: object) -> bool:
        """Whether the name is on the list."""
        return name in self._functions

    def __iter__(self) -> Iterator[str]:
        """Names in the order of their modules."""
        return iter(self._functions)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._functions)

    def add(self, function: WorkedFunction) -> None:
        """Put a function on the list."""
        known = self._functions.get(function.name)
        if known is not None and known.module != function.module:
            places = f"{known.module} and {function.module}"
            raise WoodreeveError(f"Two worked functions are called {function.name}: in {places}.")
        self._functions[function.name] = function


registry = Registry()
"""The worked functions imported so far; :func:`woodreeve.workings.load.load_all` imports the rest."""


def worked(bare: Callable[P, R]) -> Callable[P, R]:
    """Put a domain function on the list, check its arguments, and let a trace record it.

    The wrapper is written out for this one function: it passes the arguments straight on after one
    comparison for each bounded number. The bare function stays at ``__wrapped__`` for compiled code.

    Parameters
    ----------
    bare : callable
        A function whose parameters are annotated with unit and bounds and whose docstring is numpydoc.

    Returns
    -------
    callable
        The function, checked and traceable.
    """
    function = WorkedFunction(bare)
    registry.add(function)
    wrapper = _write_wrapper(function)
    update_wrapper(wrapper, bare)
    function.call = wrapper
    return typing.cast(Callable[P, R], wrapper)


def _write_wrapper(function: WorkedFunction) -> Callable[..., Any]:
    signature = inspect.signature(function.bare)
    names: dict[str, Any] = {
        "_bare": function.bare,
        "_switch": switch,
        "_current": _current,
        "_array": np.ndarray,
        "_name": function.name,
    }
    arguments: list[str] = []
    passed: list[str] = []
    starred = False
    tests: list[str] = []
    for position, p in enumerate(signature.parameters.values()):
        if p.kind is inspect.Parameter.KEYWORD_ONLY and not starred:
            arguments.append("*")
            starred = True
        arguments.append(p.name if p.default is REQUIRED else f"{p.name}=_d{position}")
        names[f"_d{position}"] = p.default
        passed.append(f"{p.name}={p.name}" if starred else p.name)
        names[f"_refuse{position}"] = _late_check(function, position)
    for position, parameter in enumerate(function.parameters):
        if parameter.checked:
            test = _test_for(parameter, position, names)
            tests.append(f"({test})")
    all_checks = [f"        _refuse{i}({p.name})" for i, p in enumerate(function.parameters) if p.checked]
    by_position = [text for text in passed if "=" not in text]
    by_name = [text.split("=")[0] for text in passed if "=" in text]
    pairs = ", ".join(f"('{name}', {name})" for name in signature.parameters)
    pairs += "," if len(signature.parameters) == 1 else ""
    body = [f"def wrapper({', '.join(arguments)}):"]
    if tests:
        body += [
            "    try:",
            f"        _good = {' and '.join(tests)}",
            "    except (TypeError, ValueError):",
            "        _good = False",
            "    if not _good:",
            *all_checks,
        ]
    body += [
        "    if _switch.on:",
        "        _trace = _current.get()",
        "        if _trace is not None:",
        f"            return _trace.call(_name, _bare, ({pairs}), "
        f"({''.join(n + ', ' for n in by_position)}), {{{''.join(f'{n!r}: {n}, ' for n in by_name)}}})",
        f"    return _bare({', '.join(passed)})",
    ]
    exec(compile("\n".join(body), f"<checks of {function.name}>", "exec"), names)
    return typing.cast(Callable[..., Any], names["wrapper"])


def _late_check(function: WorkedFunction, position: int) -> Callable[[Any], None]:
    return lambda value: function.parameters[position].refuse(value)


def _test_for(p: Parameter, position: int, names: dict[str, Any]) -> str:
    """The comparison that a good value passes; an odd kind ends in an exception and is looked at closely."""
    if p.choices:
        names[f"_c{position}"] = frozenset(p.choices) | ({None} if p.optional else set())
        return f"{p.name} in _c{position}"
    low = -np.inf if p.bounds.low is None else float(p.bounds.low)
    high = np.inf if p.bounds.high is None else float(p.bounds.high)
    names[f"_l{position}"], names[f"_h{position}"] = low, high
    below = "<" if p.bounds.low_open or p.bounds.low is None else "<="
    above = "<" if p.bounds.high_open or p.bounds.high is None else "<="
    inside = f"_l{position} {below} {p.name} {above} _h{position} and {p.name}.__class__ is not bool"
    many = f"_l{position} {below} {p.name}.min() and {p.name}.max() {above} _h{position}"
    inside = f"({many}) if {p.name}.__class__ is _array else ({inside})"
    return f"{p.name} is None or ({inside})" if p.optional else inside
