"""A worked function's docstring taken apart for showing: equation, units, notes and sources."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from docstring_parser import DocstringStyle, parse

from woodreeve.workings.registry import registry

__all__ = ["WorkedText", "text_of"]


@dataclass(frozen=True, slots=True)
class WorkedText:
    """The parts of a docstring; texts are reStructuredText as written."""

    summary: str
    description: str
    parameters: dict[str, str]
    returns: str
    raises: tuple[tuple[str, str], ...]
    notes: str
    equations: tuple[str, ...]
    references: str
    examples: str

    @property
    def from_memory(self) -> bool:
        """Whether a source says of itself that it was not re-read."""
        return "from memory" in self.references.lower()


@lru_cache(maxsize=1024)
def text_of(name: str) -> WorkedText:
    """Take the docstring of a worked function apart.

    Parameters
    ----------
    name : str
        The function's registered name.

    Returns
    -------
    WorkedText
        Its parts.

    Raises
    ------
    UnknownName
        If no function has this name.
    """
    doc = parse(registry[name].doc, style=DocstringStyle.NUMPYDOC)
    sections: dict[str, list[str]] = {}
    for meta in doc.meta:
        sections.setdefault(meta.args[0], []).append(meta.description or "")
    notes = "\n".join(sections.get("notes", ()))
    return WorkedText(
        summary=doc.short_description or "",
        description=doc.long_description or "",
        parameters={name.strip(): p.description or "" for p in doc.params for name in p.arg_name.split(",")},
        returns=(doc.returns.description or "") if doc.returns else "",
        raises=tuple((r.type_name or "", r.description or "") for r in doc.raises),
        notes=notes,
        equations=tuple(_equations(notes)),
        references=_section(registry[name].doc, "References"),
        examples=_section(registry[name].doc, "Examples"),
    )


def _section(doc: str, title: str) -> str:
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n-{{3,}}\n|\Z)", doc, re.MULTILINE | re.DOTALL)
    return found[1].strip() if found else ""


def _equations(notes: str) -> list[str]:
    """The labelled equations of the notes, as LaTeX."""
    found = re.findall(r"\.\. math::[ ]*([^\n]*(?:\n(?:[ \t]+[^\n]*|[ \t]*(?=\n[ \t])))*)", notes)
    return [re.sub(r"\s+", " ", text).strip() for text in found]
