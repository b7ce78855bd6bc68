"""Write the season kernel down in C, word for word, so that speed is compared on the very same algorithm.

The kernel uses a small part of Python: loops over ranges, branches, arithmetic, arrays. This turns the
functions' syntax trees into C for a single lane; what it does not know it refuses.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Callable
from types import ModuleType
from typing import Any

from woodreeve.plant import boiler, layers, radiators
from woodreeve.season import column, fire, kernel, settle, slots

FORMULAS: tuple[Any, ...] = (
    radiators.mixing_share,
    radiators.radiator_factor,
    radiators.heating_curve,
    boiler.flue_loss_share,
    boiler.wet_fire_share,
    layers.limited_half_step,
)
MODULES: tuple[ModuleType, ...] = (column, fire, settle, kernel)
SKIPPED = ("_sweep_lanes",)
ENTRY = "advance"
OPERATORS: dict[type, str] = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.BitAnd: "&", ast.BitOr: "|",
    ast.FloorDiv: "/", ast.Mod: "%", ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=",
    ast.Eq: "==", ast.NotEq: "!=",
    ast.And: "&&", ast.Or: "||", ast.Not: "!", ast.USub: "-",
}  # fmt: skip
TYPES = {
    "Floats": "double *restrict",
    "Ints": "const long *restrict",
    "int": "long",
    "Lanes": "",
    "bool": "long",
}
WRITTEN_INTS = {"cursor"}


class Translator(ast.NodeVisitor):
    """One function from Python to C."""

    def __init__(self, function: ast.FunctionDef, returns: dict[str, str], constants: dict[str, int]) -> None:
        self.function, self.returns, self.constants = function, returns, constants
        self.types: dict[str, str] = {}
        self.sizes: set[str] = set()

    def header(self) -> str:
        """The signature."""
        parts = []
        for argument in self.function.args.args:
            kind = TYPES.get(ast.unparse(argument.annotation) if argument.annotation else "", "double")
            if not kind:
                continue
            if argument.arg in WRITTEN_INTS:
                kind = "long *restrict"
            self.types[argument.arg] = kind
            parts.append(f"{kind} {argument.arg}")
        storage = "" if self.function.name == ENTRY else "static inline "
        return f"{storage}{self.returns[self.function.name]} {self.function.name}({', '.join(parts)})"

    def text(self) -> str:
        """The whole function."""
        head = self.header()
        body = self.function.body[1:] if ast.get_docstring(self.function) else self.function.body
        for _ in range(3):
            for node in ast.walk(self.function):
                self._learn(node)
        lines = "\n".join(self.statement(node, 1) for node in body)
        own = {a.arg for a in self.function.args.args}
        declared = "".join(
            f"    {kind} {name};\n"
            for name, kind in self.types.items()
            if name not in own and kind in ("long", "double")
        )
        return f"{head} {{\n{declared}{lines}\n}}\n"

    def _learn(self, node: ast.AST) -> None:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            name, found = node.targets[0].id, self.kind(node.value)
            known = self.types.get(name)
            self.types[name] = "double" if "double" in (known, found) else found
        elif isinstance(node, ast.For):
            assert isinstance(node.target, ast.Name)
            self.types[node.target.id] = "long"

    def kind(self, node: ast.expr) -> str:
        """Whether an expression is a whole number or not."""
        match node:
            case ast.Constant(value=value):
                return "double" if isinstance(value, float) else "long"
            case ast.Name(id=name):
                return self.types.get(name, "long")
            case ast.Subscript(value=ast.Name(id=name)):
                return "double" if "double" in self.types.get(name, "double") else "long"
            case ast.BinOp(op=ast.Div()):
                return "double"
            case ast.BinOp(left=left, right=right):
                return "double" if "double" in (self.kind(left), self.kind(right)) else "long"
            case ast.UnaryOp(operand=operand):
                return self.kind(operand)
            case ast.IfExp(body=body, orelse=other):
                return "double" if "double" in (self.kind(body), self.kind(other)) else "long"
            case ast.Call(func=ast.Name(id=name), args=args):
                if name in ("abs", "max", "min"):
                    return self.kind(args[0])
                return {"float": "double", "int": "long", "len": "long"}.get(
                    name, self.returns.get(name, "double")
                )
            case ast.Attribute(attr=name) if name.isupper():
                return "double" if isinstance(getattr(slots, name), float) else "long"
        return "long"

    def statement(self, node: ast.stmt, depth: int) -> str:
        """One statement with what stands under it."""
        pad = "    " * depth

        def block(body: list[ast.stmt]) -> str:
            return "\n".join(self.statement(inner, depth + 1) for inner in body)

        match node:
            case ast.Assign(targets=[target], value=value):
                return f"{pad}{self.expression(target)} = {self.expression(value)};"
            case ast.AugAssign(target=target, op=op, value=value):
                return f"{pad}{self.expression(target)} {OPERATORS[type(op)]}= {self.expression(value)};"
            case ast.For(target=ast.Name(id=name), iter=ast.Call(args=args), body=body):
                ends = [self.expression(arg) for arg in args]
                first, last = ("0", ends[0]) if len(ends) == 1 else (ends[0], ends[1])
                down = len(ends) == 3
                step = f"{name}--" if down else f"{name}++"
                sign = ">" if down else "<"
                return f"{pad}for ({name} = {first}; {name} {sign} {last}; {step}) {{\n{block(body)}\n{pad}}}"
            case ast.While(test=test, body=body):
                return f"{pad}while ({self.expression(test)}) {{\n{block(body)}\n{pad}}}"
            case ast.If(test=test, body=body, orelse=other):
                text = f"{pad}if ({self.expression(test)}) {{\n{block(body)}\n{pad}}}"
                return text + (f" else {{\n{block(other)}\n{pad}}}" if other else "")
            case ast.Return(value=value):
                return f"{pad}return {self.expression(value)};" if value else f"{pad}return;"
            case ast.Expr(value=value):
                return f"{pad}{self.expression(value)};"
        raise NotImplementedError(ast.dump(node))

    def expression(self, node: ast.expr) -> str:
        """One expression."""
        match node:
            case ast.Constant(value=bool(value)):
                return str(int(value))
            case ast.Constant(value=value):
                return repr(value)
            case ast.Name(id=name):
                return str(self.constants.get(name, name))
            case ast.Attribute(value=ast.Name(id=array), attr="size"):
                self.sizes.add(array)
                return f"{array}_size"
            case ast.Attribute(attr=name):
                return repr(getattr(slots, name))
            case ast.Subscript(value=ast.Name(id=name), slice=ast.Tuple(elts=[weather, hour, place])):
                w, h, p = (self.expression(part) for part in (weather, hour, place))
                return f"{name}[(({w}) * hours_each + {h}) * {slots.HOUR_COLUMNS} + {p}]"
            case ast.Subscript(value=ast.Name(id=name), slice=place):
                return f"{name}[{self.expression(place)}]"
            case ast.BinOp(left=left, op=ast.Pow(), right=right):
                return f"pow({self.expression(left)}, {self.expression(right)})"
            case ast.BinOp(left=left, op=op, right=right):
                cast = "(double)" if isinstance(op, ast.Div) else ""
                return f"({cast}{self.expression(left)} {OPERATORS[type(op)]} {self.expression(right)})"
            case ast.UnaryOp(op=op, operand=operand):
                return f"({OPERATORS[type(op)]}{self.expression(operand)})"
            case ast.Compare(left=left, ops=[op], comparators=[right]):
                return f"({self.expression(left)} {OPERATORS[type(op)]} {self.expression(right)})"
            case ast.BoolOp(op=op, values=values):
                return "(" + f" {OPERATORS[type(op)]} ".join(self.expression(value) for value in values) + ")"
            case ast.IfExp(test=test, body=body, orelse=other):
                return f"({self.expression(test)} ? {self.expression(body)} : {self.expression(other)})"
            case ast.Call(func=ast.Name(id="len")):
                return "1"
            case ast.Call(func=ast.Name(id="float"), args=[value]):
                return f"((double){self.expression(value)})"
            case ast.Call(func=ast.Name(id="int"), args=[value]):
                return f"((long){self.expression(value)})"
            case ast.Call(func=ast.Name(id="max"), args=[a, b]):
                one, two = self.expression(a), self.expression(b)
                return f"({one} > {two} ? {one} : {two})"
            case ast.Call(func=ast.Name(id=name), args=args):
                given = [a for a in args if not (isinstance(a, ast.Name) and a.id == "lane")]
                return f"{name}({', '.join(self.expression(a) for a in given)})"
        raise NotImplementedError(ast.dump(node))


def _tree(function: Callable[..., Any]) -> ast.FunctionDef:
    found = ast.parse(textwrap.dedent(inspect.getsource(function))).body[0]
    assert isinstance(found, ast.FunctionDef)
    return found


def source() -> str:
    """The kernel for one run in C, with two functions to set the sizes of its arrays."""
    trees = [_tree(formula.__wrapped__) for formula in FORMULAS]
    constants = {
        name: value for name, value in vars(column).items() if name.isupper() and isinstance(value, int)
    }
    for module in MODULES:
        own = {name: f.py_func for name, f in vars(module).items() if hasattr(f, "py_func")}
        mine = [f for f in own.values() if f.__module__ == module.__name__ and f.__name__ not in SKIPPED]
        constants |= {
            name: value for name, value in vars(module).items() if name in ("ROWS", "HALF", "CARRIED", "FLUX")
        }
        trees += [_tree(f) for f in sorted(mine, key=lambda f: f.__code__.co_firstlineno)]
    returns = {}
    for tree in trees:
        stated = ast.unparse(tree.returns) if tree.returns else "None"
        returns[tree.name] = "void" if stated == "None" else TYPES.get(stated, "double")
    translators = [Translator(tree, returns, constants) for tree in trees]
    bodies = [translator.text() for translator in translators]
    sizes = sorted({name for translator in translators for name in translator.sizes})
    statics = "static long hours_each;\n" + "".join(f"static long {name}_size;\n" for name in sizes)
    setter = "void set_sizes(const long *sizes) {\n    hours_each = sizes[0];\n"
    setter += "".join(f"    {name}_size = sizes[{number}];\n" for number, name in enumerate(sizes, 1)) + "}\n"
    skipped = "".join(
        f"#define {name}(...) ((void)0) /* only for more lanes than one */\n" for name in SKIPPED
    )
    forward = skipped + "".join(f"{translator.header()};\n" for translator in translators)
    return f"/* sizes: hours_each {' '.join(sizes)} */\n#include <math.h>\n{statics}{forward}\n" + "\n".join(
        [*bodies, setter]
    )
