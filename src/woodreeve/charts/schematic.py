"""The hydraulic circuit drawn from what is told of the plant, each part numbered and listed in words."""

from __future__ import annotations

from dataclasses import dataclass, field

from woodreeve.charts.symbols import Pen
from woodreeve.plant.fields import Circuit, HeatEscape, Plant
from woodreeve.wording.installing import installing_words
from woodreeve.wording.numbers import number
from woodreeve.wording.plant import words
from woodreeve.wording.translate import _

__all__ = ["DrawnPart", "Schematic", "schematic"]

WIDTH = 1080.0
STORE_X, STORE_TOP, STORE_WIDTH, STORE_HEIGHT = 400.0, 140.0, 110.0, 370.0
STORE_FOOT = STORE_TOP + STORE_HEIGHT
BOILER_X, BOILER_TOP, BOILER_WIDTH, BOILER_FOOT = 70.0, 320.0, 130.0, 510.0
FLOW_HEADER, RETURN_HEADER = 590.0, 625.0
FIRST_CIRCUIT, CIRCUIT_STEP, CIRCUIT_DROP = 90.0, 104.0, 50.0
RETURN_Y = 496.0

MOST_CIRCUITS = 4
"""So many circuits are drawn; the list names all."""


@dataclass(frozen=True, slots=True)
class DrawnPart:
    """One part of the drawing in words."""

    number: int
    name: str
    told: str
    known: bool


@dataclass(frozen=True, slots=True)
class Schematic:
    """The drawing and the list that belongs to it."""

    svg: str
    parts: tuple[DrawnPart, ...]
    title: str
    description: str


@dataclass(slots=True)
class _Sheet:
    """The drawing as it grows, with its list."""

    pen: Pen
    plant: Plant
    parts: list[DrawnPart] = field(default_factory=list)

    def part(
        self, x: float, y: float, name: str, told: list[str], *, known: bool, beside: bool = False
    ) -> None:
        """Put a number on the drawing and a line on the list; say "not told", under it or beside."""
        number = len(self.parts) + 1
        self.pen.number(x, y, number)
        said = ", ".join(one for one in told if one)
        if not known:
            said = f"{said}; {_('not told')}" if said else _("not told")
            if beside:
                self.pen.text(x + 15, y + 4, _("not told"), size=10)
            else:
                self.pen.text(x, y + 22, _("not told"), anchor="middle", size=10)
        self.parts.append(DrawnPart(number, name, said, known))


def schematic(plant: Plant, *, ink: str = "#000") -> Schematic:
    """Draw a plant's circuit.

    Parameters
    ----------
    plant : Plant
        The plant as told; what is not told is drawn dashed.
    ink : str
        Colour of the drawing; ``currentColor`` takes the page's.

    Returns
    -------
    Schematic
        SVG, and each numbered part in words.
    """
    sheet = _Sheet(Pen(ink), plant)
    _boiler(sheet)
    _charging(sheet)
    _discharge(sheet)
    _pressure(sheet)
    _store(sheet)
    rows = _circuits(sheet)
    lower = max(rows, STORE_TOP + 240.0)
    _cylinder(sheet, lower)
    foot = _backup(sheet, lower + 160.0)
    title = _("Circuit of the heating plant")
    description = _(
        "Log boiler on the left, store in the middle, heating circuits, cylinder and backup on the right; "
        "the list names every number."
    )
    return Schematic(
        svg=sheet.pen.svg(WIDTH, max(foot, 650.0), title, description),
        parts=tuple(sheet.parts),
        title=title,
        description=description,
    )


def _of(value: float | None, unit: str) -> str:
    return "" if value is None else f"{number(value)} {unit}"


def _with(template: str, value: float | None, per: float = 1.0) -> str:
    """A figure in its words; nothing where it is not told."""
    return "" if value is None else template.format(n=number(value / per))


def _port(height: float) -> float:
    return STORE_FOOT - height * STORE_HEIGHT


def _boiler(sheet: _Sheet) -> None:
    pen, boiler, flue = sheet.pen, sheet.plant.boiler, sheet.plant.flue
    known = boiler.output_kw is not None
    pen.box(BOILER_X, BOILER_TOP, BOILER_WIDTH, BOILER_FOOT - BOILER_TOP, known=known)
    pen.flame(BOILER_X + 95, BOILER_TOP + 75)
    sheet.part(
        BOILER_X + 24,
        BOILER_TOP + 26,
        _("Log boiler"),
        [
            _of(boiler.output_kw, "kW"),
            _with(_("fuel space {n} l"), boiler.fuel_space_litres),
            _with(_("{n} l of water"), boiler.water_litres),
        ],
        known=known,
    )
    told = flue.height_m is not None and flue.bore_mm is not None
    for x in (BOILER_X + 22, BOILER_X + 46):
        pen.line((x, BOILER_TOP), (x, 90), width=1.8, known=told)
    if flue.draught_stabiliser == "yes":
        pen.line((BOILER_X + 46, 268), (BOILER_X + 58, 250), (BOILER_X + 46, 240), width=1.2)
    sheet.part(
        BOILER_X + 34,
        72,
        _("Flue"),
        [
            _with(_("bore {n} mm"), flue.bore_mm),
            _with(_("{n} m high"), flue.height_m),
            _("draught stabiliser") if flue.draught_stabiliser == "yes" else "",
        ],
        known=told,
        beside=True,
    )


def _charging(sheet: _Sheet) -> None:
    """Pipes between boiler and store, with return protection and pump."""
    pen, plant = sheet.pen, sheet.plant
    right = BOILER_X + BOILER_WIDTH
    y_in, y_out, flow_y = _port(plant.store.charge_in_height), _port(plant.store.charge_out_height), 344.0
    pen.pipe("flow", (right, flow_y), (350, flow_y), (350, y_in), (STORE_X, y_in))
    pen.arrow(350, (flow_y + y_in) / 2, "up")
    level = RETURN_Y if abs(y_out - RETURN_Y) < 8.0 else y_out
    pen.pipe("return", (STORE_X, level), (372, level), (372, RETURN_Y), (right, RETURN_Y))
    pen.pipe("return", (300, flow_y), (300, RETURN_Y - 12))
    pen.joint(300, flow_y)
    told = plant.boiler.return_c is not None
    pen.three_way(300, RETURN_Y, "up", letter="T", known=told)
    pen.pump(244, RETURN_Y, "left", known=True)
    flaps = plant.water.non_return_flaps
    if flaps != "no":
        pen.non_return(344, RETURN_Y, "left", known=flaps is not None)
    pen.gauge(262, flow_y - 22, "T")
    pen.line((262, flow_y - 12), (262, flow_y), width=1)
    sheet.part(
        327,
        RETURN_Y + 40,
        _("Return protection"),
        [_with(_("keeps {n} °C"), plant.boiler.return_c)],
        known=told,
    )
    bore, length = plant.water.charge_pipe_bore_mm, plant.water.charge_pipe_m
    sheet.part(
        244,
        RETURN_Y + 30,
        _("Charging pump and pipe"),
        [
            _of(plant.boiler.charge_flow_kg_h, "kg/h"),
            _with(_("bore {n} mm"), bore),
            _with(_("{n} m there and back"), length),
        ],
        known=bore is not None,
    )
    sheet.part(
        364 if flaps == "no" else 344,
        RETURN_Y - 26,
        _("Non-return flaps"),
        [words(flaps) if flaps else ""],
        known=flaps is not None,
        beside=True,
    )


def _discharge(sheet: _Sheet) -> None:
    """The ways out for heat, the thermal discharge with its supply."""
    pen = sheet.pen
    escapes = sheet.plant.heat_escapes
    discharge = next((one for one in escapes if one.kind == "thermal_discharge"), None)
    others = [one for one in escapes if one.kind not in (None, "thermal_discharge")]
    if discharge is not None or not escapes:
        known = discharge is not None
        pipe_known = known and discharge is not None and discharge.supply is not None
        pen.coil(BOILER_X + 66, 428, 52, 54, 2, known=known)
        pen.pipe(
            "cold",
            (28, 600),
            (28, 454),
            (BOILER_X + 50, 454),
            (BOILER_X + 50, 428),
            (BOILER_X + 66, 428),
            known=pipe_known,
        )
        pen.pipe("cold", (BOILER_X + 66, 482), (BOILER_X + 50, 482), (BOILER_X + 50, 590), known=known)
        pen.arrow(28, 590, "up")
        pen.valve(28, 552, upright=True, known=known)
        pen.pipe("signal", (37, 552), (56, 552), (56, 470), (BOILER_X + 30, 400))
        pen.joint(BOILER_X + 30, 400)
        pen.funnel(BOILER_X + 50, 590)
        _escape_part(sheet, discharge)
    for at, one in enumerate(others):
        sheet.part(215 + 30 * at, 620, words(str(one.kind)).capitalize(), _escape_words(one), known=True)


def _escape_part(sheet: _Sheet, discharge: HeatEscape | None) -> None:
    told = [] if discharge is None else _escape_words(discharge)
    known = discharge is not None and discharge.supply is not None
    sheet.part(54, 618, _("Thermal discharge"), told, known=known)


def _escape_words(one: HeatEscape) -> list[str]:
    return [
        _("opens at {c} °C").format(c=number(one.opens_at_c)) if one.opens_at_c else "",
        _("supplied {how}").format(how=words(one.supply)) if one.supply else "",
    ]


def _pressure(sheet: _Sheet) -> None:
    """Safety valve and gauge; expansion vessel, or open vent and cistern."""
    pen, water = sheet.pen, sheet.plant.water
    told = water.safety_valve_bar is not None
    x = BOILER_X + 105
    if water.system != "open" or told:
        pen.line((x, BOILER_TOP), (x, 282), known=told)
        pen.safety_valve(x, 269, known=told)
        pen.line((x + 13, 269), (x + 44, 269), (x + 44, 286), known=told)
        pen.funnel(x + 44, 286)
        sheet.part(
            x,
            228,
            _("Safety valve"),
            [
                _of(water.safety_valve_bar, "bar"),
                _with(_("good for {n} kW"), water.safety_valve_kw),
            ],
            known=told,
            beside=True,
        )
    pen.gauge(x - 28, 290, "P", known=water.fill_bar is not None)
    pen.line((x - 28, 300), (x - 28, BOILER_TOP), width=1)
    if water.system == "open":
        vent_known, cistern_known = water.vent_free is not None, water.feed_cistern_fit is not None
        pen.pipe("flow", (228, 344), (228, 60), (250, 60), (250, 72), known=vent_known)
        pen.joint(228, 344)
        pen.box(236, 72, 84, 46, known=cistern_known)
        pen.line((240, 92), (316, 92), width=1)
        pen.pipe("return", (278, 118), (278, 330), (278, RETURN_Y), known=cistern_known)
        pen.joint(278, RETURN_Y)
        sheet.part(
            340,
            92,
            _("Open vent and feed cistern"),
            [
                _("vent pipe free: {said}").format(said=words(water.vent_free)) if water.vent_free else "",
                _("cistern bears boiling water: {said}").format(said=words(water.feed_cistern_fit))
                if water.feed_cistern_fit
                else "",
            ],
            known=vent_known and cistern_known,
        )
        return
    known = water.vessel_litres is not None
    pen.line((216, RETURN_Y), (216, 570), known=known)
    pen.joint(216, RETURN_Y)
    pen.vessel(216, 596, 26, known=known)
    sheet.part(
        262,
        600,
        _("Expansion vessel"),
        [
            _of(water.vessel_litres, "l"),
            _with(_("gas {n} bar"), water.vessel_charge_bar),
            _with(_("filled to {n} bar"), water.fill_bar),
            "" if water.system else _("open or closed not told"),
        ],
        known=known,
    )


def _store(sheet: _Sheet) -> None:
    pen, store = sheet.pen, sheet.plant.store
    known = store.litres is not None
    pen.box(STORE_X, STORE_TOP, STORE_WIDTH, STORE_HEIGHT, known=known, round_by=22)
    for sensor in store.sensors:
        y = _port(sensor.height)
        pen.joint(STORE_X + STORE_WIDTH / 2 - 22, y)
        pen.text(STORE_X + STORE_WIDTH / 2 - 14, y + 4, f"T {sensor.name}", size=11)
    tanks = (
        _("{n} tanks, {how}").format(n=store.tanks, how=installing_words(store.arrangement))
        if store.tanks > 1
        else ""
    )
    y = STORE_TOP - 22
    ports = _("ports from the foot: {ports}").format(
        ports="; ".join(
            f"{name} {number(100 * high, 2.0)} %"
            for name, high in (
                (_("charging"), store.charge_in_height),
                (_("to boiler"), store.charge_out_height),
                (_("heating"), store.heating_out_height),
                (_("back"), store.heating_back_height),
                (_("cylinder"), store.hot_water_out_height),
                (_("back"), store.hot_water_back_height),
            )
        )
    )
    sheet.part(
        STORE_X + STORE_WIDTH / 2,
        y,
        _("Store"),
        [
            _of(store.litres, "l"),
            _of(store.height_m, _("m high")),
            tanks,
            _("at most {c} °C").format(c=number(store.limit_c)),
            ports,
        ],
        known=known,
        beside=True,
    )


def _circuits(sheet: _Sheet) -> float:
    """The heating circuits one under the other; gives the height at which they end."""
    pen, store = sheet.pen, sheet.plant.store
    told = sheet.plant.circuits
    circuits = told[:MOST_CIRCUITS] or (Circuit(name=_("heating")),)
    right = STORE_X + STORE_WIDTH
    y_out, y_back = _port(store.heating_out_height), _port(store.heating_back_height)
    last = FIRST_CIRCUIT + CIRCUIT_STEP * (len(circuits) - 1)
    pen.pipe("flow", (right, y_out), (FLOW_HEADER, y_out))
    pen.pipe("flow", (FLOW_HEADER, min(FIRST_CIRCUIT, y_out)), (FLOW_HEADER, max(last, y_out)))
    pen.pipe("return", (right, y_back), (RETURN_HEADER, y_back))
    pen.pipe("return", (RETURN_HEADER, FIRST_CIRCUIT + CIRCUIT_DROP), (RETURN_HEADER, y_back))
    pen.joint(FLOW_HEADER, y_out)
    for at, circuit in enumerate(circuits):
        _circuit(sheet, circuit, FIRST_CIRCUIT + CIRCUIT_STEP * at, bool(told))
    for circuit in told[MOST_CIRCUITS:]:
        sheet.part(1040, last + 60, circuit.name, [_("one more circuit, not drawn")], known=True)
    return last + 110.0


def _circuit(sheet: _Sheet, circuit: Circuit, y: float, known: bool) -> None:
    pen, back = sheet.pen, y + CIRCUIT_DROP
    pen.joint(FLOW_HEADER, y)
    pen.joint(RETURN_HEADER, back)
    pen.pipe("flow", (FLOW_HEADER, y), (880, y), known=known)
    pen.pipe("return", (880, back), (RETURN_HEADER, back), known=known)
    if circuit.mixed == "yes":
        pen.pipe("return", (690, y + 12), (690, back), known=known)
        pen.joint(690, back)
        pen.three_way(690, y, "down", letter="M", known=known)
    pen.pump(750, y, "right", known=known)
    pen.gauge(806, y - 22, "T")
    pen.line((806, y - 12), (806, y), width=1)
    pen.arrow(790, back, "left")
    if circuit.emitter == "underfloor":
        pen.floor(880, y - 8, 100, CIRCUIT_DROP + 16, known=known)
    else:
        pen.radiator(880, y - 8, 100, CIRCUIT_DROP + 16, known=known)
    sized = circuit.design_flow_c is not None
    sheet.part(
        1010,
        y + CIRCUIT_DROP / 2,
        _("Circuit {name}").format(name=circuit.name),
        [
            _with(_("{n} kW at 75/65/20 °C"), circuit.rated_w, 1000.0),
            _("flow {flow} °C at {outdoor} °C outdoors").format(
                flow=number(circuit.design_flow_c), outdoor=number(circuit.design_outdoor_c)
            )
            if circuit.design_flow_c is not None and circuit.design_outdoor_c is not None
            else "",
            _("mixing valve") if circuit.mixed == "yes" else _("no mixing valve"),
            _("high limit: {said}").format(said=words(circuit.high_limit)) if circuit.high_limit else "",
        ],
        known=known and sized,
    )


def _cylinder(sheet: _Sheet, top: float) -> None:
    pen, store, cylinder = sheet.pen, sheet.plant.store, sheet.plant.cylinder
    known = cylinder.litres is not None
    right = STORE_X + STORE_WIDTH
    y_out, y_back = _port(store.hot_water_out_height), _port(store.hot_water_back_height)
    flow_y, back_y, x = top + 34.0, top + 100.0, 850.0
    if abs(y_out - _port(store.heating_out_height)) < 14.0:
        y_out = _port(store.heating_out_height)
        pen.joint(540, y_out)
    pen.pipe("flow", (right, y_out), (540, y_out), (540, flow_y), (x, flow_y), known=known)
    pen.pipe("return", (x, back_y), (562, back_y), (562, y_back), (right, y_back), known=known)
    pen.pump(750, flow_y, "right", known=known)
    pen.box(x, top, 100, 140, known=known, round_by=18)
    pen.coil(x, flow_y, 74, back_y - flow_y, 3, known=cylinder.coil_kw is not None)
    if cylinder.coils == 2:
        pen.coil(x + 22, top + 12, 56, 14, 1, known=cylinder.second_coil != "none")
    if cylinder.immersion_kw:
        pen.line((x + 100, top + 70), (x + 60, top + 70), (x + 60, top + 78), (x + 100, top + 78), width=1.2)
        pen.text(x + 108, top + 78, "E", size=12)
    _taps(sheet, x + 100, top)
    sheet.part(
        x + 50,
        top - 16,
        _("Hot-water cylinder"),
        [
            _of(cylinder.litres, "l"),
            _with(_("coil {n} kW"), cylinder.coil_kw) or _("coil not told"),
            _("two coils") if cylinder.coils == 2 else "",
            _with(_("electric heater {n} kW"), cylinder.immersion_kw),
            _("unvented: {said}").format(said=words(cylinder.unvented)) if cylinder.unvented else "",
        ],
        known=known,
        beside=True,
    )


def _taps(sheet: _Sheet, x: float, top: float) -> None:
    """The drinking-water side: cold feed, valve at the taps, vessel and relief of an unvented cylinder."""
    pen, cylinder = sheet.pen, sheet.plant.cylinder
    mixed = cylinder.mixing_valve
    pen.pipe("cold", (x, top + 126), (1060, top + 126))
    pen.arrow(1040, top + 126, "left")
    pen.pipe("cold", (x, top + 14), (1060, top + 14))
    pen.arrow(1052, top + 14, "right")
    if mixed != "no":
        pen.three_way(1010, top + 14, "down", letter="T", known=mixed is not None)
        pen.pipe("cold", (1010, top + 26), (1010, top + 126), known=mixed is not None)
        pen.joint(1010, top + 126)
    sheet.part(
        1040,
        top + 40,
        _("Mixing valve at the taps"),
        [words(mixed) if mixed else ""],
        known=mixed is not None,
    )
    if cylinder.unvented != "no":
        known = cylinder.unvented == "yes" and cylinder.water_vessel_litres is not None
        pen.line((980, top + 126), (980, top + 144), known=known)
        pen.vessel(980, top + 160, 16, known=known)
        sheet.part(
            1014,
            top + 162,
            _("Vessel and relief on the drinking water"),
            [
                _of(cylinder.water_vessel_litres, "l"),
                _("two safety devices: {said}").format(said=words(cylinder.relief_devices))
                if cylinder.relief_devices
                else "",
                _("cut-out on the coil's flow: {said}").format(said=words(cylinder.cut_out))
                if cylinder.cut_out
                else "",
            ],
            known=known and cylinder.relief_devices is not None and cylinder.cut_out is not None,
        )


def _backup(sheet: _Sheet, top: float) -> float:
    """The backup and where its heat goes; gives the height at which it ends."""
    pen, backup, store = sheet.pen, sheet.plant.backup, sheet.plant.store
    if backup.fuel == "none":
        return top
    known = backup.fuel is not None and backup.output_kw is not None
    x, y = 690.0, top + 10.0
    pen.box(x, y, 120, 84, known=known)
    if backup.fuel != "electricity":
        pen.flame(x + 88, y + 66)
    flow_y, back_y = y + 20.0, y + 64.0
    if backup.feeds == "store":
        right = STORE_X + STORE_WIDTH
        y_in, y_out = _port(0.75), _port(0.25)
        pen.pipe("flow", (x, flow_y), (576, flow_y), (576, y_in), (right, y_in), known=known)
        pen.pipe("return", (x, back_y), (608, back_y), (608, y_out), (right, y_out), known=known)
    elif backup.feeds == "hot_water_only":
        pen.pipe("flow", (x, flow_y), (670, flow_y), (670, top - 126.0), known=known)
        pen.pipe("return", (x, back_y), (655, back_y), (655, top - 60.0), known=known)
        pen.joint(670, top - 126.0)
        pen.joint(655, top - 60.0)
    else:
        pen.pipe(
            "flow",
            (x, flow_y),
            (FLOW_HEADER, flow_y),
            (FLOW_HEADER, _port(store.heating_out_height)),
            known=known,
        )
        pen.pipe(
            "return",
            (x, back_y),
            (RETURN_HEADER, back_y),
            (RETURN_HEADER, _port(store.heating_back_height)),
            known=known,
        )
        pen.joint(RETURN_HEADER, _port(store.heating_back_height))
        if backup.feeds == "heating_and_hot_water":
            pen.pipe("flow", (660, flow_y), (660, top - 126.0), known=known)
            pen.pipe("return", (675, back_y), (675, top - 60.0), known=known)
            for place in ((660, flow_y), (660, top - 126.0), (675, back_y), (675, top - 60.0)):
                pen.joint(*place)
    pen.non_return(642, flow_y, "left", known=known)
    sheet.part(
        x + 26,
        y + 42,
        _("Backup"),
        [
            installing_words(backup.fuel) if backup.fuel else "",
            _of(backup.output_kw, "kW"),
            installing_words(backup.feeds),
        ],
        known=known,
    )
    return y + 100.0
