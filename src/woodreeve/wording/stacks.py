"""Words about stacks: why a turn, what may be wrong with a reading, where to take pieces from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from woodreeve.wording.numbers import number
from woodreeve.wording.translate import N_, _
from woodreeve.workings import Figure
from woodreeve.yard.sampling import SamplePiece

__all__ = [
    "DOUBTS",
    "NOTES",
    "REASONS",
    "assumed_of_stack",
    "cover_words",
    "doubt_words",
    "half_range_words",
    "known_by_words",
    "note_words",
    "pieces_words",
    "reason_words",
    "sample_words",
]

REASONS: Mapping[str, str] = {
    "dry": N_("dry"),
    "too_wet": N_("too wet as yet"),
    "not_measured": N_("not measured"),
    "promised": N_("some of it is kept for a neighbour"),
    "spoils": N_("rots soonest"),
    "light_for_mild": N_("light wood for mild days"),
    "dense_for_frost": N_("dense wood for frost"),
    "too_long": N_("logs too long for the boiler"),
    "not_needed": N_("not needed before summer"),
}
"""Why a stack has its turn."""

DOUBTS: Mapping[str, str] = {
    "wet_surface": N_(
        "Rain had reached the wood: split a piece and read the fresh face, or wait for dry days."
    ),
    "wrong_basis": N_(
        "It would fit if the meter showed the other basis: look it up in the meter's handbook."
    ),
    "species_setting": N_(
        "The meter's species setting may not suit this wood: two to three points are common."
    ),
    "cold_wood": N_("Cold wood reads too dry: let a piece warm indoors for a day, split it, read again."),
    "decay": N_("Wood that has begun to rot holds water: look for soft, light or discoloured pieces."),
    "one_spot": N_("All pieces came from one spot: take some from top, middle and bottom."),
    "truly_so": N_("The stack may truly be so: read again in a week, and the forecast will follow."),
}
"""Likely causes of a reading far from what was expected, and what to do."""

NOTES: Sequence[str] = (
    N_("The wood's temperature is not known: 20 °C was taken; cold wood reads too dry."),
    N_("Read on an old face: the outside is drier, or wet from rain. Split pieces for it."),
    N_(
        "The meter's basis is not known: both readings are shown, and the wetter one counts against "
        "a limit. Its handbook says whether the figure is a share of dry or of wet mass."
    ),
    N_("Above about 30 % of dry mass a pin meter only knows that the wood is wetter than that."),
    N_("Below about 7 % of dry mass a pin meter only knows that the wood is drier than that."),
    N_("The wood was colder or warmer than the meter assumes: 0.10 to 0.15 points for each kelvin."),
    N_("Weigh once more after an hour in the oven: one weighing cannot tell if it is dry."),
    N_("It still loses mass: the true moisture is higher than this. Dry on."),
)
"""Remarks that a reading may carry, listed here so that they are translated."""

_KNOWN_BY: Mapping[str, str] = {
    "measured": N_("measured"),
    "reckoned": N_("reckoned"),
    "above_meter": N_("beyond the meter"),
    "not_known": N_("not known"),
}

_ASSUMED: Mapping[str, str] = {
    "thickness": N_("how thick the pieces are (10 cm)"),
    "length": N_("how long the logs are (33 cm)"),
    "start_moisture": N_("how wet it was when split (green, as usual for the species)"),
    "start_day": N_("on which day it was split"),
}

_COVERS: Mapping[str, str] = {
    "none": N_("nothing over it"),
    "top_sheet": N_("a sheet on top"),
    "sheet": N_("a sheet on top"),
    "roof": N_("a roof"),
    "shed": N_("a shed"),
}

_HEIGHTS: Mapping[str, str] = {"top": N_("top"), "middle": N_("middle"), "bottom": N_("bottom")}


def reason_words(reasons: Iterable[str]) -> str:
    """Why a stack has its turn, in a few words."""
    return "; ".join(_(REASONS[reason]) for reason in reasons)


def doubt_words(cause: str) -> str:
    """A likely cause of an odd reading, and what to do."""
    return _(DOUBTS[cause])


def note_words(note: str) -> str:
    """A remark on a reading, in the reader's language."""
    return _(note)


def known_by_words(code: str) -> str:
    """Whether a moisture was measured or is reckoned."""
    return _(_KNOWN_BY[code])


def assumed_of_stack(codes: Iterable[str]) -> str:
    """What nobody told of a stack and was taken as usual."""
    return ", ".join(_(_ASSUMED[code]) for code in codes)


def cover_words(cover: str) -> str:
    """What keeps the rain off."""
    return _(_COVERS.get(cover, cover.replace("_", " ")))


def half_range_words(half: Figure) -> str:
    """Half a range in points of moisture: "± 2.1 points"."""
    return _("± {n} points").format(n=number(100.0 * half.value, 20.0 * half.value))


def sample_words(pieces: Sequence[SamplePiece]) -> str:
    """Where the pieces are to be taken from: "2 from the top, 2 from the middle, 1 from the bottom"."""
    parts = []
    for height, name in _HEIGHTS.items():
        count = sum(piece.height == height for piece in pieces)
        if count:
            parts.append(_("{n} from the {where}").format(n=count, where=_(name)))
    return ", ".join(parts)


def pieces_words(pieces: Sequence[SamplePiece]) -> str:
    """Whether some of them come from inside the stack; empty for one row."""
    deep = sum(piece.depth == "core" for piece in pieces)
    return _("{n} of them from inside the stack, not its face").format(n=deep) if deep else ""
