"""Which figure is used for a species: its own, else its genus, else broadleaved or coniferous wood."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from statistics import fmean, stdev
from types import MappingProxyType

from woodreeve.errors import Unknown
from woodreeve.wood.kinds import (
    GROUP_WORDS,
    SPECIES,
    Quantity,
    Species,
    SpeciesFigure,
    default_of_group,
    species,
)
from woodreeve.workings import worked

__all__ = ["figure_source", "species_figure"]

_UNITS: Mapping[str, str] = MappingProxyType(
    {
        "basic_density": "kg/m3",
        "net_heat_dry": "MJ/kg",
        "heat_basis_unknown": "MJ/kg",
    }
)
_QUANTITY_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "basic_density": "basic density",
        "green_moisture": "green moisture",
        "shrinkage": "shrinkage",
        "net_heat_dry": "dry net heat",
        "ash_share": "ash",
        "bark_share": "bark",
    }
)


def _own(kind: Species, quantity: Quantity) -> SpeciesFigure | None:
    """The preferred figure of a species itself; for green moisture also from its heartwood and sapwood."""
    for figure in kind.figures:
        if figure.quantity == quantity:
            return figure
        if quantity == "green_moisture" and figure.quantity == "green_moisture_dry_basis":
            return _on_wet_basis(figure)
    return _between_heart_and_sap(kind) if quantity == "green_moisture" else None


def _wet(moisture_dry_basis: float) -> float:
    return moisture_dry_basis / (1.0 + moisture_dry_basis)


def _on_wet_basis(figure: SpeciesFigure) -> SpeciesFigure:
    return SpeciesFigure(
        of=figure.of,
        quantity="green_moisture",
        value=_wet(figure.value),
        unit="-",
        status=figure.status,
        source=figure.source,
        low=None if figure.low is None else _wet(figure.low),
        high=None if figure.high is None else _wet(figure.high),
        note=f"printed as {figure.value:.0%} of dry mass" + (f"; {figure.note}" if figure.note else ""),
    )


def _between_heart_and_sap(kind: Species) -> SpeciesFigure | None:
    parts = [
        f for f in kind.figures if f.quantity in ("green_heartwood_dry_basis", "green_sapwood_dry_basis")
    ]
    if len(parts) < 2:
        return None
    low, high = sorted(part.value for part in parts)
    return SpeciesFigure(
        of=kind.english,
        quantity="green_moisture",
        value=_wet((low + high) / 2.0),
        unit="-",
        status="fall_back",
        source=parts[0].source,
        low=_wet(low),
        high=_wet(high),
        note="half way between heartwood and sapwood, whose shares depend on the diameter",
    )


def _mean_of(kinds: list[Species], quantity: Quantity, of: str, why: str) -> SpeciesFigure | None:
    own = [figure for kind in kinds if (figure := _own(kind, quantity)) is not None]
    if not own:
        return None
    values = [figure.value for figure in own]
    spread = stdev(values) if len(values) > 1 else None
    listed = (
        f"{len(own)} species" if len(own) > 6 else " and ".join(", ".join(f.of for f in own).rsplit(", ", 1))
    )
    return SpeciesFigure(
        of=of,
        quantity=quantity,
        value=fmean(values),
        unit=_UNITS.get(quantity, "-"),
        status="fall_back",
        source=" ".join(dict.fromkeys(code for figure in own for code in figure.source.split())),
        low=None if spread is None else min(values),
        high=None if spread is None else max(values),
        spread=spread,
        note=f"{why}: {listed}",
    )


@worked
@lru_cache(maxsize=1024)
def species_figure(name: str, quantity: Quantity) -> SpeciesFigure:
    r"""The figure that is used for a species, after any fall-back.

    A figure of the species itself comes first. For dry heat and ash the typical value of broadleaved or
    coniferous wood follows; for all else the mean of the genus, then of the group.

    Parameters
    ----------
    name : str
        A species or group.
    quantity : str
        What is asked for.

    Returns
    -------
    SpeciesFigure
        The figure with its source and, in ``words``, how it was come by.

    Raises
    ------
    UnknownName
        If the species or the quantity is not known.
    Unknown
        If neither the species nor its group has a figure.

    Notes
    -----
    A species without its own figure takes the plain mean of the :math:`n` species that have one:

    .. math:: x = \frac{1}{n} \sum_i x_i

    Figures read at a source go before remembered ones where both exist, even where the read one is that of
    an American relative; :func:`figures_of` lists all.

    References
    ----------
    .. [1] Each figure names its own source; see :func:`figure_source`.

    Examples
    --------
    >>> species_figure("beech", "basic_density").value
    597.0
    """
    kind = species(name)
    own = _own(kind, quantity)
    if own is None:
        own = default_of_group(kind, quantity)
    if own is None and kind.genus:
        relatives = [other for other in SPECIES.values() if other.genus == kind.genus]
        own = _mean_of(
            relatives, quantity, kind.english, f"nothing found for it, so the mean of its genus {kind.genus}"
        )
    if own is None:
        group = [
            k for k in SPECIES.values() if k.group == kind.group and (kind.genus or k.region == kind.region)
        ]
        if kind.genus:
            why = f"nothing found for it or its genus, so the mean of all {GROUP_WORDS[kind.group]} species"
        else:
            why = f"the mean of all {GROUP_WORDS[kind.group]} European species"
        own = _mean_of(group, quantity, kind.english, why)
    if own is None:
        raise Unknown(f"Nothing was found on the {_QUANTITY_WORDS[quantity]} of {kind.english} or its group.")
    return own


def figure_source(name: str, quantity: Quantity) -> str:
    """Say in words where a figure of a species comes from, fall-backs included.

    Parameters
    ----------
    name : str
        A species or group.
    quantity : str
        ``basic_density``, ``green_moisture``, ``shrinkage``, ``net_heat_dry``, ``ash_share``, ``bark_share``.

    Returns
    -------
    str
        One sentence.

    Examples
    --------
    >>> figure_source("ash", "green_moisture")[:42]
    'ash: read at the source; Forest Research, '
    """
    return species_figure(name, quantity).words
