"""Texts marked for translation, and the catalogue they are looked up in."""

from __future__ import annotations

import gettext
from contextvars import ContextVar
from importlib.resources import as_file, files

__all__ = ["N_", "_", "ngettext", "use_language"]

_ENGLISH = gettext.NullTranslations()
_catalogue: ContextVar[gettext.NullTranslations] = ContextVar("woodreeve_catalogue")


def use_language(language: str) -> None:
    """Look texts up in this language from now on in this thread or task; English where there is no catalogue.

    Parameters
    ----------
    language : str
        A language tag such as ``"en"`` or ``"de"``.
    """
    with as_file(files("woodreeve.wording")) as folder:
        _catalogue.set(gettext.translation("woodreeve", folder / "locale", [language], fallback=True))


def _(message: str) -> str:
    """Translate a text."""
    return _catalogue.get(_ENGLISH).gettext(message)


def ngettext(one: str, many: str, count: int) -> str:
    """Translate a text that depends on a count."""
    return _catalogue.get(_ENGLISH).ngettext(one, many, count)


def N_(message: str) -> str:  # noqa: N802 - the customary name of the marker
    """Mark a text for translation that is looked up later."""
    return message
