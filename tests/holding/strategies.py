"""Holdings at random, made from the field tree itself."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from woodreeve.holding.document import Holding
from woodreeve.holding.fields import Field, field_tree
from woodreeve.holding.reading import FAILED, build

_TEXT = st.text(st.characters(exclude_categories=("Cs",)), max_size=12).filter(lambda text: text != "unknown")
_NAME = st.from_regex(r"[a-z0-9][a-z0-9-]{0,20}", fullmatch=True)


def _value(field: Field) -> st.SearchStrategy[Any]:
    match field.kind:
        case "number":
            low, high = field.bounds.low, field.bounds.high
            return st.floats(
                low,
                high,
                allow_nan=False,
                allow_infinity=False,
                exclude_min=field.bounds.low_open,
                exclude_max=field.bounds.high_open,
            )
        case "whole_number":
            return st.integers(int(field.bounds.low or 0), int(field.bounds.high or 100))
        case "choice":
            return st.sampled_from(field.choices)
        case "yes_no":
            return st.booleans()
        case "date":
            return st.dates()
        case "time":
            return st.times()
        case "list":
            assert field.item is not None
            size = (
                {"min_size": field.length, "max_size": field.length}
                if field.length is not None
                else {"max_size": 3}
            )
            return st.lists(_value(field.item), **size)
        case "shares":
            assert field.item is not None
            return st.dictionaries(_TEXT, _value(field.item), max_size=3)
        case _:
            return _TEXT


@st.composite
def plain_sections(draw: st.DrawFn, section: Field) -> dict[str, Any]:
    """A section as a document would have it: some fields left out."""
    table: dict[str, Any] = {}
    for part in section.parts:
        if not part.required and draw(st.integers(0, 2)) > 1:
            continue
        if part.kind == "section":
            table[part.key] = draw(plain_sections(part))
        elif part.kind == "sections":
            members = draw(st.lists(plain_sections(part), max_size=2))
            for number, member in enumerate(members):
                if "name" in member:
                    member["name"] = f"{member['name']}{number}"
            table[part.key] = members
        elif part.path == "name":
            table[part.key] = draw(_NAME)
        else:
            table[part.key] = draw(_value(part))
    return table


def _built(table: dict[str, Any]) -> Holding | None:
    found = build(field_tree(Holding), table, "", [])
    return None if found is FAILED else found


def holdings() -> st.SearchStrategy[Holding]:
    """Any holding whose single fields are in order."""
    return plain_sections(field_tree(Holding)).map(_built).filter(lambda holding: holding is not None)
