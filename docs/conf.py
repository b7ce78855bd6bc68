# How the documentation is built. `make docs` runs it with warnings as errors.

import inspect
import sys
from importlib.metadata import version as version_of
from pathlib import Path
from types import GenericAlias
from typing import Any, TypeVar

from sphinx.application import Sphinx

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE / "_ext"), str(HERE.parent)]  # the extensions, and scripts that they call

project = "woodreeve"
author = "The woodreeve contributors"
copyright = "the woodreeve contributors, Apache License 2.0"
version = release = version_of("woodreeve")
language = "en_GB"

extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "sphinx.ext.apidoc",
    "sphinx.ext.viewcode",
    "numpydoc",
    "mathml",
    "reference_pages",
]
exclude_patterns = ["_build", "_tables", "reference/generated/modules.rst"]
html_theme = "furo"
html_title = f"woodreeve {release}"
html_static_path = ["_static"]
html_css_files = ["woodreeve.css"]
html_math_renderer = "mathml"
html_copy_source = False

myst_enable_extensions = ["deflist", "dollarmath", "fieldlist"]
myst_heading_anchors = 3

# The reference comes straight from the docstrings: one page for each module.
apidoc_modules = [
    {
        "path": str(HERE.parent / "src" / "woodreeve"),
        "destination": "reference/generated",
        "exclude_patterns": ["**/migrations/**", "**/templates/**", "**/static/**"],
        "separate_modules": True,
        "module_first": True,
        "include_private": False,
        "automodule_options": {"members", "show-inheritance", "ignore-module-all"},
    }
]
add_module_names = False
autodoc_member_order = "bysource"
autodoc_typehints = "none"  # the docstrings say the types, units and ranges in words
autodoc_preserve_defaults = True
numpydoc_show_class_members = False
numpydoc_xref_param_type = False

suppress_warnings = [
    "ref.footnote",  # a docstring's References list what the whole function rests on,
    "ref.citation",  # so an entry need not be called from the text
]


def _skip(app: Sphinx, what: str, name: str, thing: Any, skip: bool, options: Any) -> bool | None:
    """Leave out what is only notation, and what a package passes on from its modules."""
    if isinstance(thing, TypeVar | GenericAlias):
        return True
    page = app.env.current_document.docname.removeprefix("reference/generated/")
    passed_on = inspect.isclass(thing) or inspect.isroutine(thing)
    if what == "module" and passed_on and thing.__module__ != page:
        return True
    return None


def setup(app: Sphinx) -> None:
    """Called by the generator."""
    app.connect("autodoc-skip-member", _skip)
