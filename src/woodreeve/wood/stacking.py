"""How much solid wood a stack or a heap holds, by how it is cut and piled."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Annotated, Literal, get_args

from woodreeve.units import Gt, Le, Unit
from woodreeve.wood import tables
from woodreeve.wood.kinds import Group, Wood, group_shares
from woodreeve.workings import worked

__all__ = [
    "FORMS",
    "LOOSE_FORMS",
    "FactorSet",
    "Form",
    "LooseForm",
    "SolidShare",
    "loose_solid_share",
    "share_source",
    "stacked_solid_share",
]

Form = Literal["rounds_100cm", "split_100cm_crossed", "split_100cm", "split_50cm", "split_33cm", "split_25cm"]
"""How wood is cut and stacked: rounds or splits of a length; ``crossed`` is piled crosswise."""
LooseForm = Literal["split_50cm", "split_33cm", "split_25cm"]
"""How wood tipped in a loose heap is cut."""
FactorSet = Literal["tfz_2006", "flat_trade"]
"""Whose conversion factors: those measured at Straubing, or the flat ones of the German trade."""

FORMS: tuple[Form, ...] = get_args(Form)
LOOSE_FORMS: tuple[LooseForm, ...] = get_args(LooseForm)

SolidShare = Annotated[float, Unit("-"), Gt(0.0), Le(1.0)]
"""Solid wood over the volume of the stack or heap."""

_LENGTH_CM: Mapping[str, float] = MappingProxyType(
    {"split_100cm": 100.0, "split_33cm": 33.0, "split_50cm": 50.0, "split_25cm": 25.0}
)
_MEASURED_ON: Mapping[Group, str] = MappingProxyType({"broadleaf": "beech", "conifer": "spruce"})


@lru_cache(maxsize=1)
def _printed() -> Mapping[tuple[str, str, str, str], float]:
    return {(x["set"], x["wood"], x["per"], x["of"]): float(x["value"]) for x in tables.lines("stacking")}


@lru_cache(maxsize=64)
def _stacked(form: Form, group: Group, factors: FactorSet) -> float:
    printed = _printed()
    if factors == "flat_trade":
        return 1.0 / printed["flat_trade", "any", "solid", "stacked"]
    wood = _MEASURED_ON[group]
    in_metre_splits = printed["tfz_2006", wood, "split_100cm", "solid"]
    in_short_splits = printed["tfz_2006", wood, "split_33cm", "solid"]
    if form in ("rounds_100cm", "split_100cm_crossed"):
        return in_metre_splits / printed["tfz_2006", wood, "split_100cm", form]
    along = (_LENGTH_CM[form] - _LENGTH_CM["split_33cm"]) / (
        _LENGTH_CM["split_100cm"] - _LENGTH_CM["split_33cm"]
    )
    return in_short_splits + along * (in_metre_splits - in_short_splits)


@lru_cache(maxsize=64)
def _loose(group: Group, factors: FactorSet) -> float:
    printed = _printed()
    if factors == "flat_trade":
        ends = (
            printed["flat_trade", "any", "solid", "loose_low"],
            printed["flat_trade", "any", "solid", "loose_high"],
        )
        return 2.0 / sum(ends)
    wood = _MEASURED_ON[group]
    return (
        printed["tfz_2006", wood, "split_33cm", "solid"]
        / printed["tfz_2006", wood, "split_33cm", "loose_split_33cm"]
    )


def share_source(form: Form, wood: Wood, *, loose: bool = False, factors: FactorSet = "tfz_2006") -> str:
    """Say in words where the solid share of a stack or heap comes from, and what of it is a guess.

    Parameters
    ----------
    form : str
        How it is cut and stacked.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    loose : bool
        Whether it is tipped loose.
    factors : str
        Whose conversion factors.

    Returns
    -------
    str
        One or two sentences.

    Examples
    --------
    >>> share_source("split_25cm", "beech").split(".")[1]
    ' No factor was read for 25 cm: a guess on the line through 33 cm and 1 m'
    """
    if factors == "flat_trade":
        return f"Flat factor of the trade, disputed by measurement; {tables.source_text('R16')}."
    measured = " and ".join(_MEASURED_ON[group] for group, share in group_shares(wood).items() if share > 0.0)
    source = tables.source_text("R14")
    if form not in ("split_50cm", "split_25cm"):
        return f"Measured on {measured}; {source}."
    how = "a guess, the figure of 33 cm" if loose else "a guess on the line through 33 cm and 1 m"
    length = f"{_LENGTH_CM[form]:.0f} cm"
    return f"Measured on {measured}. No factor was read for {length}: {how}. Those two: {source}."


@worked
def stacked_solid_share(form: Form, wood: Wood, factors: FactorSet = "tfz_2006") -> SolidShare:
    r"""Solid wood in a stacked cubic metre.

    The rest is air between the logs. Factors differ a lot between sets, so write down which set was used.

    Parameters
    ----------
    form : str
        How it is cut and stacked.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        ``tfz_2006``, measured, or ``flat_trade``, one factor for all.

    Returns
    -------
    SolidShare
        Solid over stacked volume. [-]

    Raises
    ------
    UnknownName
        If the form, the species or the set of factors is not known.

    Notes
    -----
    Beech stands for broadleaved, spruce for coniferous wood; a mixture with volume shares :math:`s_i`:

    .. math:: \frac{1}{f} = \sum_i \frac{s_i}{f_i}

    Measured for 33 cm and 1 m only. For 50 cm and 25 cm the straight line through those two is taken, which
    is a guess; :func:`share_source` says so. The two halves of the printed table agree within 0.02.

    References
    ----------
    .. [1] TFZ Straubing, conversion table, January 2006, read as reproduced at
       a firewood retailer's page (name withheld); 0.62, 0.64 and 1.16 also at oberland-kurier.de.
    .. [2] waldhilfe.de/masseinheiten-fuer-holz, flat factor 1.4.

    Examples
    --------
    >>> stacked_solid_share("split_33cm", "beech")
    0.62
    """
    inverse = sum(share / _stacked(form, group, factors) for group, share in group_shares(wood).items())
    return 1.0 / inverse


@worked
def loose_solid_share(form: LooseForm, wood: Wood, factors: FactorSet = "tfz_2006") -> SolidShare:
    r"""Solid wood in a cubic metre of logs tipped loose.

    Parameters
    ----------
    form : str
        How it is cut.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        ``tfz_2006``, measured, or ``flat_trade``, one factor for all.

    Returns
    -------
    SolidShare
        Solid over loose volume. [-]

    Raises
    ------
    UnknownName
        If the form, the species or the set of factors is not known.

    Notes
    -----
    Quotient of two printed factors; a mixture with volume shares :math:`s_i`:

    .. math:: f_i = \frac{0.62}{1.48}\ \text{or}\ \frac{0.64}{1.62}, \qquad
              \frac{1}{f} = \sum_i \frac{s_i}{f_i}

    Measured for 33 cm only; other lengths take the same figure, which is a guess.

    References
    ----------
    .. [1] TFZ Straubing, conversion table, January 2006, read as reproduced at
       a firewood retailer's page (name withheld).
    .. [2] waldhilfe.de/masseinheiten-fuer-holz, flat factors 2.0 to 2.2.

    Examples
    --------
    >>> round(loose_solid_share("split_33cm", "beech"), 3)
    0.419
    """
    inverse = sum(share / _loose(group, factors) for group, share in group_shares(wood).items())
    return 1.0 / inverse
