"""The one way kernels are compiled, and the plant's formulas compiled from their one text."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from numba import config, njit

from woodreeve.plant.boiler import flue_loss_share as _flue_loss_share
from woodreeve.plant.boiler import wet_fire_share as _wet_fire_share
from woodreeve.plant.layers import limited_half_step as _limited_half_step
from woodreeve.plant.radiators import heating_curve as _heating_curve
from woodreeve.plant.radiators import mixing_share as _mixing_share
from woodreeve.plant.radiators import radiator_factor as _radiator_factor
from woodreeve.season.cache import host_processor, kernel_cache_name

__all__ = [
    "CACHED",
    "compiled",
    "flue_loss_share",
    "heating_curve",
    "inlined",
    "limited_half_step",
    "mixing_share",
    "radiator_factor",
    "wet_fire_share",
]

_folder = str(getattr(config, "CACHE_DIR", ""))
CACHED = bool(_folder) and _folder.endswith(kernel_cache_name(host_processor()))
"""Whether machine code is kept: only in a folder named by the hash of all that goes into it."""

compiled: Callable[[Callable[..., Any]], Callable[..., Any]] = njit(
    cache=CACHED, nogil=True, error_model="numpy"
)
"""Compile for one thread, without the interpreter's lock, in strict IEEE arithmetic.

No fast-math: a run must give the same bits alone and in a batch.
"""


inlined: Callable[[Callable[..., Any]], Callable[..., Any]] = njit(
    nogil=True, error_model="numpy", forceinline=True
)
"""The same for a part of a kernel, which becomes one piece with the kernel that calls it."""


def _bare(worked: Any) -> Callable[..., Any]:
    """The formula under its checks, compiled."""
    return inlined(worked.__wrapped__)


flue_loss_share = _bare(_flue_loss_share)
heating_curve = _bare(_heating_curve)
limited_half_step = _bare(_limited_half_step)
mixing_share = _bare(_mixing_share)
radiator_factor = _bare(_radiator_factor)
wet_fire_share = _bare(_wet_fire_share)
