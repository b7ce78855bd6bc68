"""Short words for codes and figures: dryness, reasons, species, fields of answers."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from woodreeve.holding.document import Holding
from woodreeve.holding.fields import field_tree
from woodreeve.wording.translate import N_, _

__all__ = ["assumed_words", "figure_label", "label", "mix_words"]

_LABELS: Mapping[str, str] = {
    "ideal": N_("dry, ideal"),
    "fine": N_("dry enough"),
    "damp": N_("damp, let it dry"),
    "wet": N_("too wet to burn"),
    "not_known": N_("not measured yet"),
    "dry": N_("dry"),
    "dry_and_spoils": N_("dry, and rots soonest"),
    "too_wet": N_("too wet"),
    "not_measured": N_("measure it first"),
    "boiler_room": N_("by the boiler"),
    "stack": N_("stack"),
    "fabric": N_("From walls, windows and air"),
    "past_fuel": N_("From past fuel"),
    "put_right": N_("put right since"),
    "struck_out": N_("struck out since"),
}

_FIGURES: Mapping[str, str] = {
    "heat_kwh": N_("Heat"),
    "space_heat_kwh": N_("Heat of the rooms"),
    "hot_water_kwh": N_("Hot water"),
    "plant_loss_kwh": N_("Standing losses"),
    "wood_t": N_("Wood by weight"),
    "wood_stacked_m3": N_("Wood stacked"),
    "stacked_m3": N_("Stacked volume"),
    "solid_m3": N_("Solid volume"),
    "mass_kg": N_("Weight"),
    "moisture": N_("Moisture"),
    "dry_share": N_("Share dry enough"),
    "dry_heat_kwh": N_("Heat in dry wood"),
    "cover": N_("Winters covered"),
    "split_by": N_("Split by"),
}


def label(code: str) -> str:
    """A code in words."""
    return _(_LABELS.get(code, code.replace("_", " ")))


def figure_label(question: str, path: str) -> str:
    """What a figure of an answer is called, from the last part of its path."""
    last = path.rsplit(".", 1)[-1]
    return _(_FIGURES.get(last, last.replace("_", " ").capitalize()))


def mix_words(mix: Mapping[str, float]) -> str:
    """A mixture of species in words, the largest share first, traces left out: "ash 60 %, birch 40 %"."""
    parts = [part for part in sorted(mix.items(), key=lambda part: -part[1]) if part[1] >= 0.02]
    if len(parts) == 1:
        return parts[0][0].replace("_", " ")
    return ", ".join(f"{name.replace('_', ' ')} {round(100 * share)} %" for name, share in parts)


def assumed_words(code: str) -> str:
    """What was left open and so assumed: a field's name, perhaps with its section's before it, in words."""
    section, colon, field = code.rpartition(": ")
    named = _field_labels().get(field)
    label = _(named) if named else field.replace("_", " ")
    words = f"{label[:1].lower()}{label[1:]}"
    return f"{section}{colon}{words}"


@lru_cache(maxsize=1)
def _field_labels() -> dict[str, str]:
    """What each field of the holding is called; the first of a name stands for all of them."""
    labels: dict[str, str] = {}
    for field in field_tree(Holding).walk():
        labels.setdefault(field.key, field.label)
    return labels
