"""Symbols of a heating plant's circuit drawing, as plain SVG: pipes, pumps, valves, vessels, coils.

After the forms of ISO 14617 and EN 1861 (from memory). No style attributes, so that the drawing may stand in
any page; a part that nobody has told is drawn dashed.
"""

from __future__ import annotations

from html import escape
from typing import Literal, TypeAlias

__all__ = ["Flow", "Pen"]

Flow: TypeAlias = Literal["flow", "return", "cold", "signal"]
"""Hot water out, cooler water back, cold drinking water, and a sensor's line."""

_WIDTHS: dict[Flow, float] = {"flow": 2.8, "return": 1.4, "cold": 1.4, "signal": 0.8}
_DASHES: dict[Flow, str] = {"flow": "", "return": "", "cold": "9 3 2 3", "signal": "2 2"}

UNKNOWN = "5 4"
UNKNOWN_FINE = "2.4 1.8"
"""Dashes of what nobody has told, and of its small symbols."""

_TURNS = {"right": 0, "down": 90, "left": 180, "up": 270}


def _n(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")


class Pen:
    """Collects the parts of one drawing.

    Parameters
    ----------
    ink : str
        Colour of every line and letter; ``currentColor`` takes the page's.
    """

    def __init__(self, ink: str) -> None:
        self.ink = ink
        self._parts: list[str] = []

    def svg(self, width: float, height: float, title: str, description: str) -> str:
        """The whole drawing.

        Parameters
        ----------
        width, height : float
            Its size, in its own units.
        title, description : str
            Its name, and what it shows in a sentence, for those who cannot see it.
        """
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(width)} {_n(height)}" role="img" '
            f'aria-label="{escape(title)}" fill="none" stroke="{self.ink}" stroke-width="1.4" '
            f'stroke-linejoin="round" font-family="DejaVu Sans Condensed, DejaVu Sans, sans-serif" '
            f'font-size="13"><title>{escape(title)}</title><desc>{escape(description)}</desc>'
            + "".join(self._parts)
            + "</svg>"
        )

    def _shape(self, markup: str, known: bool = True, dashes: str = UNKNOWN) -> None:
        dashed = "" if known else f' stroke-dasharray="{dashes}"'
        self._parts.append(markup.replace("/>", f"{dashed}/>", 1) if dashed else markup)

    def line(self, *points: tuple[float, float], width: float = 1.4, known: bool = True) -> None:
        """A thin line through points."""
        text = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
        self._shape(f'<polyline points="{text}" stroke-width="{_n(width)}"/>', known)

    def pipe(self, kind: Flow, *points: tuple[float, float], known: bool = True) -> None:
        """A pipe through points: flow thick, return thin, drinking water in dashes and dots."""
        text = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
        dash = (
            f' stroke-dasharray="{_DASHES[kind] if known else UNKNOWN}"' if _DASHES[kind] or not known else ""
        )
        self._parts.append(f'<polyline points="{text}" stroke-width="{_n(_WIDTHS[kind])}"{dash}/>')

    def arrow(self, x: float, y: float, to: str) -> None:
        """A small arrow head on a pipe."""
        self._parts.append(
            f'<path d="M-6,-4 L5,0 L-6,4 Z" transform="translate({_n(x)} {_n(y)}) rotate({_TURNS[to]})" '
            f'fill="{self.ink}" stroke="none"/>'
        )

    def joint(self, x: float, y: float) -> None:
        """A dot where pipes join; lines that cross without one do not."""
        self._parts.append(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="3.2" fill="{self.ink}" stroke="none"/>')

    def box(
        self, x: float, y: float, width: float, height: float, *, known: bool = True, round_by: float = 0.0
    ) -> None:
        """A vessel's or machine's outline."""
        self._shape(
            f'<rect x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}" rx="{_n(round_by)}" '
            'stroke-width="2"/>',
            known,
        )

    def text(self, x: float, y: float, words: str, *, anchor: str = "start", size: float = 13) -> None:
        """Words; ``anchor`` is start, middle or end."""
        self._parts.append(
            f'<text x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" font-size="{_n(size)}" '
            f'fill="{self.ink}" stroke="none">{escape(words)}</text>'
        )

    def number(self, x: float, y: float, number: int) -> None:
        """A part's number in a circle, by which the list under the drawing names it."""
        self._parts.append(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="10.5" stroke-width="1"/>')
        self.text(x, y + 4.5, str(number), anchor="middle", size=12.5)

    def pump(self, x: float, y: float, to: str, *, known: bool = True) -> None:
        """A pump: a circle with a triangle that points the way of the water."""
        self._shape(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="12" stroke-width="1.6"/>', known)
        self._parts.append(
            f'<path d="M-6,-10.4 L12,0 L-6,10.4" transform="translate({_n(x)} {_n(y)}) rotate({_TURNS[to]})" '
            'stroke-width="1.4"/>'
        )

    def valve(self, x: float, y: float, *, upright: bool = False, known: bool = True) -> None:
        """A valve: two triangles tip to tip."""
        turn = 90 if upright else 0
        self._shape(
            '<path d="M-11,-7 L11,7 L11,-7 L-11,7 Z" '
            f'transform="translate({_n(x)} {_n(y)}) rotate({turn})"/>',
            known,
            UNKNOWN_FINE,
        )

    def three_way(self, x: float, y: float, side: str, *, letter: str = "", known: bool = True) -> None:
        """A three-way valve, third mouth ``up`` or ``down``, drive opposite: M motor, T thermostat."""
        sign = -1 if side == "up" else 1
        self.valve(x, y, known=known)
        self._shape(
            f'<path d="M0,0 L-7,{11 * sign} L7,{11 * sign} Z" transform="translate({_n(x)} {_n(y)})"/>',
            known,
            UNKNOWN_FINE,
        )
        if letter:
            self.line((x, y), (x, y - 17 * sign))
            self._parts.append(f'<circle cx="{_n(x)}" cy="{_n(y - 26 * sign)}" r="9" stroke-width="1.2"/>')
            self.text(x, y - 26 * sign + 4, letter, anchor="middle", size=11)

    def non_return(self, x: float, y: float, to: str, *, known: bool = True) -> None:
        """A non-return flap: a triangle against a bar."""
        self._shape(
            f'<path d="M-8,-8 L-8,8 L8,0 Z M8,-8 L8,8" transform="translate({_n(x)} {_n(y)}) '
            f'rotate({_TURNS[to]})"/>',
            known,
            UNKNOWN_FINE,
        )

    def safety_valve(self, x: float, y: float, *, known: bool = True) -> None:
        """A safety valve on a pipe from below: an angle valve with its spring, its way out to the right."""
        self._shape(
            f'<path d="M0,0 L-8,13 L8,13 Z M0,0 L13,-8 L13,8 Z" transform="translate({_n(x)} {_n(y)})"/>',
            known,
            UNKNOWN_FINE,
        )
        self._parts.append(
            f'<path d="M0,0 L0,-6 M-6,-8 L6,-12 M-6,-13 L6,-17 M-6,-18 L6,-22" '
            f'transform="translate({_n(x)} {_n(y)})" stroke-width="1.2"/>'
        )

    def funnel(self, x: float, y: float) -> None:
        """An open drain that can be seen."""
        self._parts.append(
            f'<path d="M-10,0 L-3,10 L3,10 L10,0 M0,10 L0,20" transform="translate({_n(x)} {_n(y)})"/>'
        )

    def vessel(self, x: float, y: float, radius: float, *, known: bool = True) -> None:
        """An expansion vessel: a circle with its membrane."""
        self._shape(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" stroke-width="1.8"/>', known)
        r = radius
        self._parts.append(
            f'<path d="M{_n(-r)},0 Q{_n(-r / 2)},{_n(-r / 2)} 0,0 T{_n(r)},0" '
            f'transform="translate({_n(x)} {_n(y)})"/>'
        )

    def gauge(self, x: float, y: float, letter: str, *, known: bool = True) -> None:
        """A thermometer (T) or pressure gauge (P)."""
        self._shape(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="9.5" stroke-width="1.2"/>', known)
        self.text(x, y + 4, letter, anchor="middle", size=11)

    def coil(
        self, x: float, y: float, width: float, height: float, turns: int = 3, *, known: bool = True
    ) -> None:
        """A heat exchanger's coil between two mouths on the left, one over the other."""
        step = height / (2 * turns)
        path = f"M0,0 L{_n(width)},0"
        at, right = 0.0, True
        for _ in range(2 * turns):
            at += step
            right = not right
            path += f" L{_n(width if right else width * 0.25)},{_n(at)}"
        path += f" L0,{_n(at)}"
        self._shape(f'<path d="{path}" transform="translate({_n(x)} {_n(y)})" stroke-width="1.6"/>', known)

    def radiator(self, x: float, y: float, width: float, height: float, *, known: bool = True) -> None:
        """A radiator: a box with upright lines."""
        self.box(x, y, width, height, known=known)
        for part in range(1, 6):
            at = x + width * part / 6
            self.line((at, y + 5), (at, y + height - 5), width=1)

    def floor(self, x: float, y: float, width: float, height: float, *, known: bool = True) -> None:
        """Pipes in a floor: a box with a winding line."""
        self.box(x, y, width, height, known=known)
        step = width / 8
        path = f"M{_n(x + step)},{_n(y + 7)}"
        for part in range(1, 7):
            at, end = x + step * part, y + (height - 7 if part % 2 else 7)
            path += f" L{_n(at)},{_n(end)} L{_n(at + step)},{_n(end)}"
        self._parts.append(f'<path d="{path}" stroke-width="1.2"/>')

    def flame(self, x: float, y: float) -> None:
        """A fire."""
        self._parts.append(
            f'<path d="M0,0 C-14,-8 -8,-18 0,-30 C2,-20 14,-14 8,-3 Q5,0 0,0 Z" '
            f'transform="translate({_n(x)} {_n(y)})" stroke-width="1.4"/>'
        )
