"""Full containers put on the scales: what they teach about every fill logged."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from woodreeve.diary.amounts import ASSUMED_MOISTURE, UNKNOWN_WOOD, ContainerSize
from woodreeve.diary.folded import Event
from woodreeve.diary.payloads_wood import Measured, Weighed
from woodreeve.diary.readings import readings_of
from woodreeve.errors import UnknownName
from woodreeve.wood.species import species

__all__ = ["Weighing", "place_key", "species_key", "weighed_containers"]

Weighing = tuple[str, float, float]
"""Species, net weight [kg] and moisture of one weighed fill."""


def place_key(name: str) -> str:
    """A name without what does not matter in it: capitals, underscores and spaces around it."""
    return " ".join(name.casefold().replace("_", " ").split())


def species_key(name: str | None) -> str | None:
    """The key of a species, or ``None`` where nobody has heard of it."""
    if name is None:
        return UNKNOWN_WOOD
    try:
        return species(name).key
    except UnknownName:
        return None


def weighed_containers(
    events: Sequence[Event], containers: Iterable[ContainerSize]
) -> dict[str, list[Weighing]]:
    """Gather the weighings of each container, over the whole diary.

    Wood weighed without its moisture is taken at the last reading of the place it came from, or else at
    20 %.

    Parameters
    ----------
    events : sequence of Event
        In the order of time.
    containers : iterable of ContainerSize
        As the holding spells them.

    Returns
    -------
    dict
        Weighings by the container's name.
    """
    weighed = [event.payload for event in events if isinstance(event.payload, Weighed)]
    if all(told.container is None for told in weighed):
        return {}
    spelled = {place_key(size.name): size.name for size in containers}
    last: dict[str, float] = {}
    found: dict[str, list[Weighing]] = {}
    for event in events:
        told = event.payload
        if isinstance(told, Measured):
            for reading in readings_of(event, told)[0]:
                if reading.moisture is not None:
                    last[place_key(told.place)] = reading.moisture
        elif isinstance(told, Weighed) and told.container is not None:
            name = spelled.setdefault(place_key(told.container), told.container)
            moisture = told.moisture
            if moisture is None:
                moisture = (
                    ASSUMED_MOISTURE
                    if told.place is None
                    else last.get(place_key(told.place), ASSUMED_MOISTURE)
                )
            kind = species_key(told.species) or UNKNOWN_WOOD
            found.setdefault(name, []).append((kind, told.gross_kg - told.empty_kg, moisture))
    return found
