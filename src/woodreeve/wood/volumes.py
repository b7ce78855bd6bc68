"""From one volume of wood to another: solid, stacked, tipped loose."""

from __future__ import annotations

from woodreeve.units import CubicMetre
from woodreeve.wood.kinds import Wood
from woodreeve.wood.stacking import FactorSet, Form, LooseForm, loose_solid_share, stacked_solid_share
from woodreeve.workings import worked

__all__ = [
    "loose_from_solid",
    "loose_from_stacked",
    "restacked",
    "solid_from_loose",
    "solid_from_stacked",
    "stacked_from_loose",
    "stacked_from_solid",
]


@worked
def solid_from_stacked(
    stacked_m3: CubicMetre, form: Form, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Solid wood in a stack.

    Parameters
    ----------
    stacked_m3 : CubicMetre
        Volume of the stack, air included, :math:`V_s`. [m3]
    form : str
        How it is cut and stacked.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Solid wood, as measured green. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V = f V_s

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> solid_from_stacked(1.0, "split_33cm", "beech")
    0.62
    """
    return stacked_m3 * stacked_solid_share(form, wood, factors)


@worked
def stacked_from_solid(
    solid_m3: CubicMetre, form: Form, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Stack that solid wood fills.

    Parameters
    ----------
    solid_m3 : CubicMetre
        Solid wood, as measured green, :math:`V`. [m3]
    form : str
        How it is cut and stacked.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the stack, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_s = V / f

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(stacked_from_solid(1.0, "split_33cm", "beech"), 2)
    1.61
    """
    return solid_m3 / stacked_solid_share(form, wood, factors)


@worked
def solid_from_loose(
    loose_m3: CubicMetre, form: LooseForm, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Solid wood in a heap of logs tipped loose.

    Parameters
    ----------
    loose_m3 : CubicMetre
        Volume of the heap, air included, :math:`V_l`. [m3]
    form : str
        How it is cut.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Solid wood, as measured green. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V = f V_l

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(solid_from_loose(1.0, "split_33cm", "beech"), 2)
    0.42
    """
    return loose_m3 * loose_solid_share(form, wood, factors)


@worked
def loose_from_solid(
    solid_m3: CubicMetre, form: LooseForm, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Heap that solid wood makes when cut, split and tipped loose.

    Parameters
    ----------
    solid_m3 : CubicMetre
        Solid wood, as measured green, :math:`V`. [m3]
    form : str
        How it is cut.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the heap, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_l = V / f

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(loose_from_solid(1.0, "split_33cm", "beech"), 1)
    2.4
    """
    return solid_m3 / loose_solid_share(form, wood, factors)


@worked
def loose_from_stacked(
    stacked_m3: CubicMetre, form: LooseForm, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Heap that a stack makes when it is tipped loose.

    Parameters
    ----------
    stacked_m3 : CubicMetre
        Volume of the stack, air included, :math:`V_s`. [m3]
    form : str
        How it is cut.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the heap, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_l = V_s \frac{f_s}{f_l}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(loose_from_stacked(1.0, "split_33cm", "beech"), 2)
    1.48
    """
    return stacked_m3 * stacked_solid_share(form, wood, factors) / loose_solid_share(form, wood, factors)


@worked
def stacked_from_loose(
    loose_m3: CubicMetre, form: LooseForm, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Stack that a loose heap fills when it is stacked.

    Parameters
    ----------
    loose_m3 : CubicMetre
        Volume of the heap, air included, :math:`V_l`. [m3]
    form : str
        How it is cut.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the stack, air included. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_s = V_l \frac{f_l}{f_s}

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(stacked_from_loose(1.48, "split_33cm", "beech"), 2)
    1.0
    """
    return loose_m3 * loose_solid_share(form, wood, factors) / stacked_solid_share(form, wood, factors)


@worked
def restacked(
    stacked_m3: CubicMetre, form: Form, into: Form, wood: Wood, factors: FactorSet = "tfz_2006"
) -> CubicMetre:
    r"""Stack that another stack fills when it is cut, split or piled anew.

    Parameters
    ----------
    stacked_m3 : CubicMetre
        Volume of the stack as it is, :math:`V_1`. [m3]
    form : str
        How it is cut and stacked.
    into : str
        How it will be cut and stacked.
    wood : str or mapping
        A species, a group, or a mixture by solid volume.
    factors : str
        Whose conversion factors: ``tfz_2006`` or ``flat_trade``.

    Returns
    -------
    CubicMetre
        Volume of the new stack. [m3]

    Raises
    ------
    OutOfRange
        If a number lies outside the range of its unit.
    UnknownName
        If the species, the form or the set of factors is not known.

    Notes
    -----
    .. math:: V_2 = V_1 \frac{f_1}{f_2}

    Sawdust is not taken off.

    References
    ----------
    .. [1] As :func:`woodreeve.wood.stacking.stacked_solid_share` and
       :func:`woodreeve.wood.stacking.loose_solid_share`.

    Examples
    --------
    >>> round(restacked(1.0, "split_100cm", "split_33cm", "beech"), 2)
    0.81
    """
    return stacked_m3 * stacked_solid_share(form, wood, factors) / stacked_solid_share(into, wood, factors)
