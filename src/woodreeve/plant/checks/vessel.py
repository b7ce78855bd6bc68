"""The closed expansion vessel: its size, its gas, and the pressure the system stands under."""

from __future__ import annotations

from typing import Annotated

from woodreeve.units import Ge, Gt, Le, Litre, Unit
from woodreeve.workings import worked

__all__ = [
    "acceptance",
    "final_pressure",
    "least_fill_pressure",
    "least_gas_pressure",
    "vessel_by_table",
    "vessel_reserve",
    "vessel_size",
]

Gauge = Annotated[float, Unit("bar"), Ge(0.0), Le(10.0)]
System = Annotated[float, Unit("L"), Gt(0.0), Le(1e5)]
Expansion = Annotated[float, Unit("-"), Ge(0.0), Le(0.2)]


@worked
def vessel_reserve(system: System) -> Litre:
    r"""Water that a vessel holds in reserve for small losses.

    Parameters
    ----------
    system : System
        All the heating water, :math:`V`. [L] Above 0.

    Returns
    -------
    Litre
        Reserve. [L]

    Raises
    ------
    OutOfRange
        If the volume lies outside its range.

    Notes
    -----
    .. math:: V_{res} = \max(0.005\,V,\ 3\ \mathrm{L})

    References
    ----------
    .. [1] EN 12828, Annex D (from memory).

    Examples
    --------
    >>> vessel_reserve(2300.0)
    11.5
    """
    return max(0.005 * system, 3.0)


@worked
def acceptance(gas_pressure: Gauge, final: Gauge) -> Annotated[float, Unit("-"), Ge(0.0), Le(1.0)]:
    r"""Part of a vessel that can take up water before the highest pressure is reached.

    Parameters
    ----------
    gas_pressure : Gauge
        Gas pressure of the empty vessel, gauge, :math:`p_0`. [bar] From 0 to 10.
    final : Gauge
        Highest pressure wanted, gauge, :math:`p_e`. [bar] From 0 to 10.

    Returns
    -------
    float
        Share; 0 where the gas already stands higher. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: x = (p_e - p_0) / (p_e + 1)

    References
    ----------
    .. [1] Boyle's law; form of EN 12828, Annex D (from memory); row PL-ves04.

    Examples
    --------
    >>> round(acceptance(1.0, 2.5), 4)
    0.4286
    """
    return max((final - gas_pressure) / (final + 1.0), 0.0)


@worked
def final_pressure(safety_valve: Annotated[float, Unit("bar"), Ge(0.5), Le(10.0)]) -> Gauge:
    r"""Highest pressure to plan for, under the safety valve's.

    Parameters
    ----------
    safety_valve : float
        Pressure at which the valve opens, gauge. [bar] From 0.5 to 10.

    Returns
    -------
    Gauge
        Final pressure, gauge. [bar]

    Raises
    ------
    OutOfRange
        If the pressure lies outside its range.

    Notes
    -----
    .. math:: p_e = p_{sv} - 0.5\ \mathrm{bar}

    References
    ----------
    .. [1] Common practice, told in a user forum (holzheizer-forum.de 52175, read).

    Examples
    --------
    >>> final_pressure(3.0)
    2.5
    """
    return safety_valve - 0.5


@worked
def vessel_size(
    system: System, expansion: Expansion, reserve: Litre, gas_pressure: Gauge, final: Gauge
) -> Litre:
    r"""Closed expansion vessel that a system needs.

    Too small a vessel lets water out of the safety valve with each fire and draws air in as it cools.

    Parameters
    ----------
    system : System
        All the heating water, :math:`V`. [L] Above 0.
    expansion : Expansion
        How much it swells, :math:`e`. [-] From 0 to 0.2.
    reserve : Litre
        Water in reserve, :math:`V_{res}`. [L]
    gas_pressure : Gauge
        Gas pressure of the empty vessel, gauge, :math:`p_0`. [bar] From 0 to 10.
    final : Gauge
        Highest pressure wanted, gauge, above the gas pressure, :math:`p_e`. [bar] From 0 to 10.

    Returns
    -------
    Litre
        Nominal size of all vessels together. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V_n = (e\,V + V_{res})\,\frac{p_e + 1}{p_e - p_0}

    With no room between the two pressures no vessel is large enough; the formula then gives 1 000 000 litres.

    References
    ----------
    .. [1] Boyle's law; form of EN 12828, Annex D (from memory); row PL-ves03.

    Examples
    --------
    >>> round(vessel_size(2300.0, 0.0355, 11.5, 1.0, 2.5), 1)
    217.3
    """
    share = acceptance(gas_pressure, final)
    return min((expansion * system + reserve) / share, 1e6) if share > 0.0 else 1e6


@worked
def vessel_by_table(system: System, start: Annotated[float, Unit("bar"), Ge(1.0), Le(1.5)] = 1.0) -> Litre:
    r"""Closed vessel by the short table that installers of gas boilers use; too small for a hot store.

    Parameters
    ----------
    system : System
        All the heating water, :math:`V`. [L] Above 0.
    start : float
        Pressure when cold, gauge; the safety valve opens at 3 bar. [bar] From 1 to 1.5.

    Returns
    -------
    Litre
        Vessel of the table. [L]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range.

    Notes
    -----
    .. math:: V_n = V\,\bigl(0.109 + 0.094\,(p - 1)\bigr)

    Straight between the two printed factors, 0.109 at 1.0 bar and 0.156 at 1.5 bar.

    References
    ----------
    .. [1] Table of a gas boiler's installation manual, maker withheld (read); rows PL-ves05 and PL-ves06.

    Examples
    --------
    >>> round(vessel_by_table(100.0), 1)
    10.9
    """
    return system * (0.109 + 0.094 * (start - 1.0))


@worked
def least_gas_pressure(height: Annotated[float, Unit("m"), Ge(0.0), Le(60.0)]) -> Gauge:
    r"""Least gas pressure of a vessel below a certain height of water.

    Parameters
    ----------
    height : float
        Highest radiator above the vessel, :math:`h`. [m] From 0 to 60.

    Returns
    -------
    Gauge
        Gas pressure, gauge. [bar]

    Raises
    ------
    OutOfRange
        If the height lies outside its range.

    Notes
    -----
    .. math:: p_0 = \max(0.7,\ h/10 + 0.2)

    References
    ----------
    .. [1] EN 12828 (from memory): static height and 0.2 to 0.3 bar, not under about 0.7 to 1.0 bar.

    Examples
    --------
    >>> least_gas_pressure(5.5)
    0.75
    """
    return max(0.7, height / 10.0 + 0.2)


@worked
def least_fill_pressure(gas_pressure: Gauge) -> Annotated[float, Unit("bar"), Ge(0.0), Le(11.0)]:
    r"""Pressure to which a cold system is filled, so that the vessel holds its reserve.

    Parameters
    ----------
    gas_pressure : Gauge
        Gas pressure of the empty vessel, gauge. [bar] From 0 to 10.

    Returns
    -------
    float
        Filling pressure, gauge. [bar]

    Raises
    ------
    OutOfRange
        If the pressure lies outside its range.

    Notes
    -----
    .. math:: p_a = p_0 + 0.3\ \mathrm{bar}

    References
    ----------
    .. [1] Common practice, no published source: 0.3 to 0.5 bar above the gas pressure.

    Examples
    --------
    >>> least_fill_pressure(1.0)
    1.3
    """
    return gas_pressure + 0.3
