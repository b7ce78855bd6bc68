"""Answers whether to light the boiler tonight, when, with how much and from which stack."""

from woodreeve.answers.tonight.parts import (
    Charted,
    Cost,
    FireLine,
    StoreNow,
    TonightAnswer,
    Until,
    WayLine,
    WeatherUsed,
    WetStack,
)
from woodreeve.answers.tonight.planned import answer

__all__ = [
    "Charted",
    "Cost",
    "FireLine",
    "StoreNow",
    "TonightAnswer",
    "Until",
    "WayLine",
    "WeatherUsed",
    "WetStack",
    "answer",
]
