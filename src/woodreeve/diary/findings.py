"""What in the diary the owner should look at: told, kept, and never in the way of the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

__all__ = ["Finding", "FindingKind"]

FindingKind = Literal[
    "not_understood",
    "unknown_target",
    "two_corrections",
    "same_id_other_content",
    "more_than_held",
    "place_not_given",
    "unknown_place",
    "unknown_container",
    "unknown_species",
    "moisture_assumed",
    "counted_more",
    "fires_exceed_total",
    "no_usual_rate",
    "happens_after_entered",
    "oven_drying_incomplete",
    "reading_out_of_range",
]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to look at, as data; the words are made elsewhere.

    Parameters
    ----------
    kind : str
        What it is:

        - ``not_understood``: the entry is kept, but says what this program cannot read; see ``sentence``.
        - ``unknown_target``: a correction of an entry that is not here (``others``: the id it names).
        - ``two_corrections``: two corrections did not know of each other (``others``: both; the last stands).
        - ``same_id_other_content``: two entries carry one id.
        - ``more_than_held``: more was taken than was there (``figures``: ``taken_m3``, ``held_m3``).
        - ``place_not_given``: it does not say where the wood is from, so no stack got smaller.
        - ``unknown_place``: something was done to a stack the diary has no wood in.
        - ``unknown_container``: nobody has said how much it holds (``name``), so the amount is not known.
        - ``unknown_species``: not on the list (``name``); reckoned as a mixture of broadleaves.
        - ``moisture_assumed``: a weight without moisture was turned into volume (``figures``: ``moisture``).
        - ``counted_more``: the stock-take found more (``figures``: ``counted_m3``, ``expected_m3``).
        - ``fires_exceed_total``: the fires logged meanwhile used more than the total told.
        - ``no_usual_rate``: "as usual", but nothing was logged before from which to know.
        - ``happens_after_entered``: it was written down before it happened.
        - ``oven_drying_incomplete``: a sample lost more weight when dried again.
        - ``reading_out_of_range``: a value that is no moisture of wood (``figures``: ``shown_percent``).
    entry : str or None
        The id of the entry it is about; of the first, where several do the same at one place.
    place : str
        The stack or other place, if it is about one.
    name : str
        The container or species that is not known.
    others : tuple of str
        Ids of other entries involved, or of those that do the same.
    figures : mapping
        Numbers that belong to it.
    sentence : str
        Why an entry could not be read.
    """

    kind: FindingKind
    entry: str | None = None
    place: str = ""
    name: str = ""
    others: tuple[str, ...] = ()
    figures: Mapping[str, float] = field(default_factory=dict)
    sentence: str = ""
