"""The drying models that were tried against each other, each with its priors; used by ``seasoning.py``."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from typing import Any

import numpy as np
from numba import njit

from woodreeve.units import Floats
from woodreeve.wood.seasoning import drying_course, drying_days
from woodreeve.wood.seasoning_fit import DryingParameters, Trial
from woodreeve.wood.seasoning_kernel import course
from woodreeve.wood.seasoning_stack import CoverSpell, DryingStack
from woodreeve.wood.seasoning_weather import DryingWeather, trial_climate

LOGARITHMIC = (
    "rate",
    "oak",
    "conifer",
    "bark",
    "block_or_pile",
    "sunny_top",
    "wrapped_tarp",
    "closed_shed",
)
"""Fitted as logarithms; the others as they are."""

PRIORS: dict[str, tuple[float, float]] = {
    "rate": (math.log(0.0224), 9.0),
    "thickness_exponent": (1.4, 0.25),
    "oak": (-0.2, 0.25),
    "conifer": (0.1, 0.25),
    "bark": (-0.3, 0.3),
    "block_or_pile": (-0.4, 0.4),
    "sunny_top": (0.4, 0.3),
    "wrapped_tarp": (-0.5, 0.3),
    "closed_shed": (-0.5, 0.4),
    "rain_wetting": (0.02, 0.02),
    "rain_hindrance": (0.1, 0.1),
    "slow_share": (0.5, 0.3),
    "density_exponent": (-0.5, 0.5),
}
"""Mean and standard deviation believed before the fit; set before any candidate was scored."""

NEUTRAL: dict[str, float] = {
    "rate": math.log(0.0224),
    "thickness_exponent": 1.0,
    "end_grain": 2.0,
    "oak": 0.0,
    "conifer": 0.0,
    "density_exponent": 0.0,
    "bark": 0.0,
    "block_or_pile": 0.0,
    "sunny_top": 0.0,
    "wrapped_tarp": 0.0,
    "closed_shed": 0.0,
    "rain_wetting": 0.0,
    "rain_hindrance": 0.0,
    "slow_share": 1.0,
    "log_rate_sd": 0.45,
}
"""What a figure is where a candidate does not have it (logarithms where it is fitted as one)."""

REFERENCE_FREE = (
    "rate",
    "thickness_exponent",
    "oak",
    "conifer",
    "bark",
    "block_or_pile",
    "sunny_top",
    "wrapped_tarp",
    "closed_shed",
    "rain_wetting",
)

Course = Callable[[float, Floats, Floats, Floats, Mapping[str, float]], Floats]


@dataclass(frozen=True)
class Candidate:
    """A model to be fitted: which figures are free, which are set, and its own law of drying if any."""

    name: str
    what: str
    free: tuple[str, ...]
    fixed: Mapping[str, float] = field(default_factory=dict)
    extra: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """Figures of its own, with their priors."""
    course: Course | None = None

    @property
    def names(self) -> tuple[str, ...]:
        """Everything fitted, in order."""
        return (*self.free, *self.extra)

    def prior(self, name: str) -> tuple[float, float]:
        """Mean and standard deviation believed of a figure."""
        return self.extra[name] if name in self.extra else PRIORS[name]

    def parameters(self, values: Mapping[str, float]) -> DryingParameters:
        """The drying figures for one set of fitted values."""
        merged = {**NEUTRAL, **self.fixed, **{k: v for k, v in values.items() if k in PRIORS}}
        plain = {name: math.exp(v) if name in LOGARITHMIC else v for name, v in merged.items()}
        plain["slow_share"] = min(max(plain["slow_share"], 0.02), 1.0)
        plain["rain_wetting"] = min(max(plain["rain_wetting"], 0.0), 0.5)
        plain["rain_hindrance"] = min(max(plain["rain_hindrance"], 0.0), 2.0)
        return DryingParameters(**{item.name: plain[item.name] for item in fields(DryingParameters)})


@dataclass(frozen=True)
class Replay:
    """A trial as the model sees it."""

    trial: Trial
    stack: DryingStack
    weather: DryingWeather

    @classmethod
    def of(cls, trial: Trial) -> Replay:
        """Set a trial up."""
        stack = DryingStack(
            name=trial.name,
            wood=trial.wood,
            start=trial.start,
            thickness_mm=trial.thickness_mm,
            length_mm=trial.length_mm,
            unsplit_bark=trial.unsplit_bark,
            covers=(CoverSpell(since=trial.start, cover=trial.cover),),
            place=trial.place,
            start_moisture=trial.start_moisture,
        )
        return cls(trial, stack, trial_climate(trial.climate, start=trial.start, days=max(trial.days, 730)))

    def course(
        self, candidate: Candidate, values: Mapping[str, float], days: int, log_rate: float = 0.0
    ) -> Floats:
        """Moisture at the end of each of so many days."""
        weather = self.weather.span(self.trial.start, days)
        parameters = candidate.parameters(values)
        if candidate.course is None:
            return drying_course(self.stack, weather, log_rate=log_rate, parameters=parameters)
        day = drying_days(self.stack, weather, parameters=parameters)
        first = self.trial.start_moisture / (1.0 - self.trial.start_moisture)
        own: dict[str, float] = {
            **candidate.fixed,
            **values,
            "thickness_mm": self.trial.thickness_mm,
            "latitude_deg": LATITUDES[self.trial.climate],
            "start_day": float(self.trial.start.timetuple().tm_yday - 1),
        }
        path = candidate.course(
            first, day.rate * math.exp(log_rate), day.equilibrium_dry_basis, weather.air_c, own
        )
        return path / (1.0 + path)


@njit(cache=True)
def _shell_and_core(first: float, rate: Any, equilibrium: Any, inner: Any) -> Any:
    """Two halves: the shell meets the air, the core only the shell; implicit half-day steps."""
    path = np.empty(rate.size)
    shell = core = first
    for day in range(rate.size):
        out, between = rate[day] / 0.5, inner[day] / 0.5
        for _ in range(2):
            a = 1.0 + 0.5 * (out + between)
            b = -0.5 * between
            c = 1.0 + 0.5 * between
            right = shell + 0.5 * out * equilibrium[day]
            det = a * c - b * b
            shell, core = (right * c - b * core) / det, (a * core - b * right) / det
        path[day] = 0.5 * (shell + core)
    return path


@njit(cache=True)
def _diffusion(first: float, rate: Any, equilibrium: Any, inner: Any) -> Any:
    """Diffusion through half a slab of eight layers with a film at its face; implicit one-day steps."""
    layers = 8
    path = np.empty(rate.size)
    moisture = np.full(layers, first)
    upper, right = np.empty(layers), np.empty(layers)
    for day in range(rate.size):
        between = inner[day] * layers * layers
        half = 2.0 * between
        film = rate[day] * layers
        face = film * half / (film + half)
        for k in range(layers):
            low = between if k > 0 else 0.0
            high = between if k < layers - 1 else 0.0
            main = 1.0 + low + high
            value = moisture[k]
            if k == layers - 1:
                main += face
                value += face * equilibrium[day]
            if k > 0:
                main += low * upper[k - 1]
                value += low * right[k - 1]
            upper[k] = -high / main
            right[k] = value / main
        moisture[layers - 1] = right[layers - 1]
        for k in range(layers - 2, -1, -1):
            moisture[k] = right[k] - upper[k] * moisture[k + 1]
        path[day] = moisture.mean()
    return path


def _inner(air_c: Floats, own: Mapping[str, float]) -> Floats:
    """Rate of exchange inside: falls with the square of the thickness, grows with warmth."""
    warm: Floats = np.exp(own["inner"] + 0.02 * (air_c - 15.0)) * (100.0 / own["thickness_mm"]) ** 2
    return warm


def shell_and_core(
    first: float, rate: Floats, equilibrium: Floats, air_c: Floats, own: Mapping[str, float]
) -> Floats:
    """Course of the shell-and-core model."""
    path: Floats = _shell_and_core(first, rate, equilibrium, _inner(air_c, own))
    return path


def diffusion(
    first: float, rate: Floats, equilibrium: Floats, air_c: Floats, own: Mapping[str, float]
) -> Floats:
    """Course of the diffusion equation with surface resistance."""
    path: Floats = _diffusion(first, rate, equilibrium, _inner(air_c, own))
    return path


def _days_of_sun(start_day: int, days: int, latitude_deg: float) -> Floats:
    """Sun on level ground outside the air, in MJ/m2 (FAO 56, equation 21; from memory)."""
    latitude = math.radians(latitude_deg)
    angle = 2.0 * math.pi * ((start_day + np.arange(days)) % 365 + 1) / 365.0
    declination = 0.409 * np.sin(angle - 1.39)
    sunset = np.arccos(np.clip(-np.tan(latitude) * np.tan(declination), -1.0, 1.0))
    height = sunset * np.sin(latitude) * np.sin(declination) + np.cos(latitude) * np.cos(
        declination
    ) * np.sin(sunset)
    sun: Floats = np.maximum(37.6 * (1.0 + 0.033 * np.cos(angle)) * height, 0.5)
    return sun


def falling_pace_in_sun(
    first: float, rate: Floats, equilibrium: Floats, air_c: Floats, own: Mapping[str, float]
) -> Floats:
    """Course of the chosen law with the sun of latitude and season on top."""
    sun = _days_of_sun(int(own["start_day"]), rate.size, own["latitude_deg"])
    path: Floats = course(first, rate * (sun / 25.0) ** own["sun_exponent"], equilibrium, _share(own))
    return path


def falling_pace_no_frost(
    first: float, rate: Floats, equilibrium: Floats, air_c: Floats, own: Mapping[str, float]
) -> Floats:
    """Course of the chosen law, slower on frosty days."""
    path: Floats = course(
        first, np.where(air_c < 0.0, rate * math.exp(-own["frost"]), rate), equilibrium, _share(own)
    )
    return path


def _share(own: Mapping[str, float]) -> float:
    return min(max(own["slow_share"], 0.02), 1.0)


LATITUDES = {
    "As (Norway)": 59.7,
    "Denmark": 55.8,
    "Straubing": 48.9,
    "Fairbanks": 64.8,
    "Canterbury NZ": -43.5,
    "Southland NZ": -46.2,
    "Poznan": 52.4,
    "central Finland": 62.2,
    "Galesburg IL": 40.9,
    "south New Hampshire": 42.9,
    "Pittsburgh": 40.4,
    "Hakushu (Japan)": 35.8,
    "south West Virginia": 37.5,
    "south England": 51.3,
}
"""Latitudes of the trials' places, from memory. [deg]"""

_SURFACE = tuple(name for name in REFERENCE_FREE if name != "thickness_exponent")
_OWN = (*_SURFACE, "rain_hindrance", "slow_share")


def _without(*names: str) -> tuple[str, ...]:
    return tuple(name for name in _OWN if name not in names)


REFERENCE = Candidate(
    "reference",
    "first order, thickness exponent fitted, no fall of pace, no hindrance by rain",
    REFERENCE_FREE,
)
CHOSEN = Candidate("chosen", "thickness exponent 1, pace falls near equilibrium, rain hinders", _OWN)

CANDIDATES: tuple[Candidate, ...] = (
    REFERENCE,
    Candidate("surface limited", "reference with the thickness exponent set to 1", _SURFACE),
    Candidate(
        "inside limited",
        "reference with the thickness exponent set to 2",
        _SURFACE,
        {"thickness_exponent": 2.0},
    ),
    Candidate("with falling pace", "surface limited, pace falls near equilibrium", (*_SURFACE, "slow_share")),
    Candidate(
        "with rain hindrance", "surface limited, rain slows uncovered wood", (*_SURFACE, "rain_hindrance")
    ),
    CHOSEN,
    Candidate("chosen, exponent fitted", "its thickness exponent free", (*_OWN, "thickness_exponent")),
    Candidate("chosen with density", "dense wood slower", (*_OWN, "density_exponent")),
    Candidate(
        "chosen with density for kinds",
        "density in place of oak and conifer",
        (*_without("oak", "conifer"), "density_exponent"),
    ),
    Candidate(
        "chosen with sun",
        "sun by latitude and season",
        _OWN,
        extra={"sun_exponent": (0.1, 0.15)},
        course=falling_pace_in_sun,
    ),
    Candidate(
        "chosen with frost",
        "slower on frosty days",
        _OWN,
        extra={"frost": (0.3, 0.3)},
        course=falling_pace_no_frost,
    ),
    Candidate("chosen without rain wetting", "", _without("rain_wetting")),
    Candidate("chosen without oak", "", _without("oak")),
    Candidate("chosen without conifer", "", _without("conifer")),
    Candidate("chosen without bark", "", _without("bark")),
    Candidate("chosen without pile", "", _without("block_or_pile")),
    Candidate("chosen without sunny top", "", _without("sunny_top")),
    Candidate("chosen without end grain", "length does not matter", _OWN, {"end_grain": 0.0}),
    Candidate("chosen, end grain 1", "", _OWN, {"end_grain": 1.0}),
    Candidate("chosen, end grain 4", "", _OWN, {"end_grain": 4.0}),
    Candidate(
        "shell and core",
        "two states, exchange inside by the square of the thickness",
        (*_SURFACE, "rain_hindrance"),
        extra={"inner": (math.log(0.05), 0.7)},
        course=shell_and_core,
    ),
    Candidate(
        "diffusion",
        "eight layers with a film at the face",
        (*_SURFACE, "rain_hindrance"),
        extra={"inner": (math.log(0.05), 0.7)},
        course=diffusion,
    ),
)
