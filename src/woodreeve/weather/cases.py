"""The weather ahead as cases to plan against, and as many courses thrown with dice for studies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Annotated, Any, Literal, TypeAlias

import numpy as np

from woodreeve.errors import OutOfRange
from woodreeve.units import Floats, Ge, Gt, Le, Unit
from woodreeve.weather.forecast import DAY_CORRELATION, Forecast, Outlook, forecast_error
from woodreeve.weather.series import SERIES_BOUNDS, Hourly
from woodreeve.weather.synthesis import normal_dice
from woodreeve.weather.usual import whole_hour
from woodreeve.workings import worked

__all__ = ["Case", "forecast_from_truth", "weather_case", "weather_paths"]

TEN_IN_A_HUNDRED = 1.2815515655446004
"""So many standard deviations from the middle lies what is undercut once in ten times. [-]"""

Case: TypeAlias = Literal["cold", "central", "mild"]

SIGNS: Mapping[Case, float] = {"cold": -1.0, "central": 0.0, "mild": 1.0}


@worked
def weather_case(outlook: Outlook, case: Case) -> Hourly:
    r"""One of three courses to plan against: the central one, a cold and a mild one.

    Parameters
    ----------
    outlook : Outlook
        What lies ahead and how sure it is.
    case : str
        ``cold``, ``central`` or ``mild``.

    Returns
    -------
    Hourly
        The weather of that case; only its temperature differs.

    Raises
    ------
    UnknownName
        If there is no such case.

    Notes
    -----
    .. math:: T_\text{cold} = T - 1.28\,\sigma(l), \quad T_\text{mild} = T + 1.28\,\sigma(l)

    Each hour is colder than the cold case once in ten times. A whole week as cold as that is rarer, as
    errors do not all fall on one side: the cold case is on the careful side for a week's heat.

    References
    ----------
    .. [1] Quantiles of the normal distribution; see :func:`forecast_error`.
    """
    shift = SIGNS[case] * TEN_IN_A_HUNDRED * outlook.error_k
    return replace(outlook.central, temperature_c=np.clip(outlook.central.temperature_c + shift, -60.0, 60.0))


@worked
def weather_paths(
    outlook: Outlook,
    paths: Annotated[int, Unit("-"), Ge(1), Le(10000)],
    *,
    seed: Annotated[int, Unit("-"), Ge(0), Le(2**31)] = 0,
    day_correlation: Annotated[float, Unit("-"), Gt(0.0), Le(0.99)] = DAY_CORRELATION,
) -> Annotated[Floats, Unit("degC"), Ge(-60.0), Le(60.0)]:
    r"""Many courses of temperature that the weather may take, thrown with dice that fall alike each time.

    Parameters
    ----------
    outlook : Outlook
        What lies ahead and how sure it is.
    paths : int
        How many. [-] From 1 to 10000.
    seed : int
        Number of the throw; the same gives the same everywhere. [-]
    day_correlation : float
        Correlation of an error with the error a day on. [-] More than 0, up to 0.99.

    Returns
    -------
    Floats
        Temperatures, one row for each path. [degC]

    Raises
    ------
    OutOfRange
        If a value lies outside its range.

    Notes
    -----
    .. math:: T_i(l) = T(l) + \sigma(l)\, z_i(l), \quad \operatorname{corr}(z(l), z(l + 24)) = \varphi

    References
    ----------
    .. [1] First-order autoregressive noise of unit spread; own choice of its persistence.
    """
    hours = outlook.central.hours
    noise = np.stack([_persistent_noise(seed, 100 + row, hours, day_correlation) for row in range(paths)])
    return np.clip(outlook.central.temperature_c + outlook.error_k * noise, -60.0, 60.0)


def forecast_from_truth(
    truth: Hourly,
    moment: datetime,
    hours: int,
    *,
    seed: int = 0,
    issue: int = 0,
    steadiness: float = 0.7,
    climate_sd_k: float = 3.0,
) -> Forecast:
    """A forecast with a realistic error, made from weather that is known: for studies only.

    Parameters
    ----------
    truth : Hourly
        What will happen.
    moment : datetime
        When the forecast is made.
    hours : int
        How many hours it covers; fewer where the truth ends.
    seed : int
        Number of the throw of dice.
    issue : int
        Number of the forecast in its row: the part of the error that is new each time.
    steadiness : float
        Share of the error's variance that stays from issue to issue for one and the same hour
        (judgement: real forecasts come near the truth by steps, not by fresh dice).
    climate_sd_k : float
        Spread of daily means. [K]

    Returns
    -------
    Forecast
        The forecast; only its temperature is in error.

    Raises
    ------
    OutOfRange
        If the moment lies outside the truth.
    """
    first = whole_hour(moment)
    at = round((first - truth.start) / timedelta(hours=1))
    if not 0 <= at < truth.hours:
        raise OutOfRange("moment", moment.isoformat(), "within the weather given")
    hours = min(hours, truth.hours - at)
    lasting = _persistent_noise(seed, 50, truth.hours, DAY_CORRELATION)[at : at + hours]
    fresh = _persistent_noise(seed, 1000 + issue, hours, DAY_CORRELATION)
    noise = np.sqrt(steadiness) * lasting + np.sqrt(1.0 - steadiness) * fresh
    error = forecast_error(np.arange(hours, dtype=np.float64) + 0.5, climate_sd_k) * noise
    cut: dict[str, Any] = {
        name: values[at : at + hours]
        for name in SERIES_BOUNDS
        if (values := getattr(truth, name)) is not None
    }
    cut["temperature_c"] = np.clip(cut["temperature_c"] + error, -60.0, 60.0)
    hourly = replace(truth, start=first, source="made from known weather", **cut)
    return Forecast(source="made", fetched=moment, issued=moment, hourly=hourly, attribution="")


def _persistent_noise(seed: int, stream: int, hours: int, day_correlation: float) -> Floats:
    """Noise of unit spread whose values a day apart are correlated as told."""
    keep = day_correlation ** (1.0 / 24.0)
    fresh = float(np.sqrt(1.0 - keep**2))
    steps = normal_dice(seed, stream, hours).tolist()
    state = steps[0]
    series = [state]
    for step in steps[1:]:
        state = keep * state + fresh * step
        series.append(state)
    return np.array(series)
