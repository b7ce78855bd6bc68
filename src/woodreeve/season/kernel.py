"""The season kernel: plant and house advanced together, step by step, for one run or many side by side."""

from __future__ import annotations

from woodreeve.season import slots as s
from woodreeve.season.column import Ints, Lanes, advance_column
from woodreeve.season.compiled import compiled, heating_curve, inlined, radiator_factor
from woodreeve.season.fire import burn, decide
from woodreeve.season.settle import heat_cylinder, look_up_radiators, settle_plant, settle_rooms
from woodreeve.units import Floats

__all__ = ["advance", "fill_radiator_tables"]


@compiled
def fill_radiator_tables(lane: Lanes, X: Floats, table_1: Floats, table_2: Floats) -> None:
    """Write the radiators' output factors down once, row by row of excess temperature."""
    L = len(lane)
    for row in range(s.RADIATOR_STEPS):
        for k in range(L):
            table_1[row * L + k] = radiator_factor(row / s.RADIATOR_PER_K, X[s.EXPONENT_1 * L + k])
            table_2[row * L + k] = radiator_factor(row / s.RADIATOR_PER_K, X[s.EXPONENT_2 * L + k])


@inlined
def begin_hour(
    lane: Lanes,
    X: Floats,
    T: Floats,
    layers: int,
    hours: Floats,
    weather_of: Ints,
    hour: int,
    hour_of_day: int,
) -> None:
    """Read the hour's weather and wishes, find the curves, and let a firing rule speak."""
    L = len(lane)
    for k in range(L):
        outdoor = hours[weather_of[k], hour, s.HOUR_OUTDOOR_C]
        X[s.OUTDOOR_C * L + k] = outdoor
        X[s.SUN_1_W * L + k] = hours[weather_of[k], hour, s.HOUR_SUN_1_W]
        X[s.SUN_2_W * L + k] = hours[weather_of[k], hour, s.HOUR_SUN_2_W]
        X[s.INSIDE_1_W * L + k] = hours[weather_of[k], hour, s.HOUR_INSIDE_1_W]
        X[s.INSIDE_2_W * L + k] = hours[weather_of[k], hour, s.HOUR_INSIDE_2_W]
        X[s.SET_1_C * L + k] = hours[weather_of[k], hour, s.HOUR_SET_1_C] + X[s.SHIFT_1_K * L + k]
        X[s.SET_2_C * L + k] = hours[weather_of[k], hour, s.HOUR_SET_2_C] + X[s.SHIFT_2_K * L + k]
        X[s.COLD_WATER_C * L + k] = hours[weather_of[k], hour, s.HOUR_COLD_WATER_C]
        X[s.TAP_NOW * L + k] = hours[weather_of[k], hour, s.HOUR_TAP_SHARE]
        X[s.CURVE_1_C * L + k] = heating_curve(
            outdoor, X[s.DESIGN_OUT_1_C * L + k], X[s.DESIGN_FLOW_1_C * L + k], X[s.MILD_OUT_1_C * L + k],
            X[s.MILD_FLOW_1_C * L + k], X[s.MOST_FLOW_1_C * L + k], X[s.EXPONENT_1 * L + k],
        )  # fmt: skip
        X[s.CURVE_2_C * L + k] = heating_curve(
            outdoor, X[s.DESIGN_OUT_2_C * L + k], X[s.DESIGN_FLOW_2_C * L + k], X[s.MILD_OUT_2_C * L + k],
            X[s.MILD_FLOW_2_C * L + k], X[s.MOST_FLOW_2_C * L + k], X[s.EXPONENT_2 * L + k],
        )  # fmt: skip
        X[s.HEATING_1 * L + k] = 1.0 if outdoor < X[s.MILD_OUT_1_C * L + k] else 0.0
        X[s.HEATING_2 * L + k] = 1.0 if outdoor < X[s.MILD_OUT_2_C * L + k] else 0.0
        asked = hour_of_day == X[s.RULE_HOUR_A * L + k] or hour_of_day == X[s.RULE_HOUR_B * L + k]
        if X[s.RULE * L + k] > 0.0 and asked and X[s.POWER * L + k] > 0.0:
            mean = 0.0
            for j in range(layers):
                mean += T[j * L + k]
            mean = mean / layers
            threshold = X[s.RULE_BELOW_C * L + k] - X[s.RULE_SLOPE * L + k] * outdoor
            if mean < threshold:
                kg = X[s.RULE_KG * L + k]
                if X[s.RULE_FIT * L + k] > 0.0:
                    room = (X[s.STORE_LIMIT_C * L + k] - mean) * X[s.STORE_LAYER_J_K * L + k] * layers
                    fits = (room + X[s.RULE_USE_J * L + k]) / X[s.RULE_YIELD * L + k]
                    fits = fits / X[s.RULE_J_PER_KG * L + k]
                    kg = kg if kg < fits else fits
                if kg >= X[s.RULE_LEAST_KG * L + k]:
                    X[s.LOAD_KG * L + k] = kg
                    X[s.LOAD_J_PER_KG * L + k] = X[s.RULE_J_PER_KG * L + k]
                    X[s.LOAD_MOISTURE * L + k] = X[s.RULE_MOISTURE * L + k]


@inlined
def read_ports(lane: Lanes, X: Floats, T: Floats, U: Floats, store: Ints, cylinder: Ints) -> None:
    """Copy the temperatures that controls look at."""
    L = len(lane)
    top = store[s.PLAN_AT + store[s.PLAN_INTO]] * L
    bottom = store[s.PLAN_AT + store[s.PLAN_OUT_OF]] * L
    hot = store[s.PLAN_AT + store[s.PLAN_OUT_OF + 1]] * L
    sensor = cylinder[s.PLAN_SENSOR] * L
    crown = (cylinder[s.PLAN_LAYERS] - 1) * L
    for k in range(L):
        X[s.TOP_C * L + k] = T[top + k]
        X[s.BOTTOM_C * L + k] = T[bottom + k]
        X[s.HOT_C * L + k] = T[hot + k]
        X[s.SENSOR_C * L + k] = U[sensor + k]
        X[s.CYLINDER_TOP_C * L + k] = U[crown + k]


@inlined
def record(
    lane: Lanes, X: Floats, T: Floats, U: Floats, layers: int, cylinder_layers: int, history: Floats, row: int
) -> None:
    """Copy everything into one row of the history."""
    L = len(lane)
    rows = s.SLOTS + layers + cylinder_layers
    start = row * rows * L
    for i in range(s.SLOTS * L):
        history[start + i] = X[i]
    start += s.SLOTS * L
    for i in range(layers * L):
        history[start + i] = T[i]
    start += layers * L
    for i in range(cylinder_layers * L):
        history[start + i] = U[i]


@compiled
def advance(
    lane: Lanes,
    first: int,
    last: int,
    dt: float,
    steps_per_hour: int,
    first_hour_of_day: int,
    X: Floats,
    T: Floats,
    U: Floats,
    store: Ints,
    cylinder: Ints,
    hours: Floats,
    weather_of: Ints,
    taps: Floats,
    event_step: Ints,
    event_row: Ints,
    event_value: Floats,
    cursor: Ints,
    record_step: Ints,
    history: Floats,
    table_1: Floats,
    table_2: Floats,
    work: Floats,
    net: Floats,
    drawn: Floats,
    warmth: Floats,
) -> None:
    """Advance all lanes from step `first` to before step `last`.

    ``cursor`` holds how far events and records have come, so that a span may be cut into pieces without
    changing a bit. ``history`` takes, before each step named in ``record_step``, all rows of the working
    array and all layers.
    """
    L = len(lane)
    layers = store[s.PLAN_LAYERS]
    cylinder_layers = cylinder[s.PLAN_LAYERS]
    steps_per_day = taps.size
    for step in range(first, last):
        while cursor[1] < record_step.size and record_step[cursor[1]] <= step:
            record(lane, X, T, U, layers, cylinder_layers, history, cursor[1])
            cursor[1] += 1
        if step % steps_per_hour == 0:
            hour = step // steps_per_hour
            begin_hour(lane, X, T, layers, hours, weather_of, hour, (first_hour_of_day + hour) % 24)
        while cursor[0] < event_step.size and event_step[cursor[0]] <= step:
            X[event_row[cursor[0]]] = event_value[cursor[0]]
            cursor[0] += 1
        wanted = taps[(step + first_hour_of_day * steps_per_hour) % steps_per_day]
        for k in range(L):
            X[s.TAP_W * L + k] = wanted * X[s.TAP_NOW * L + k] * X[s.TAP_SCALE * L + k]
        read_ports(lane, X, T, U, store, cylinder)
        look_up_radiators(lane, X, table_1, table_2)
        burn(lane, X, dt)
        decide(lane, X, dt)
        heat_cylinder(lane, X, U, cylinder, dt)
        advance_column(
            lane, X, U, work, net, drawn, cylinder, s.TAP_KG_S, s.CYLINDER_STEP, s.CYLINDER_COOLING,
            s.CYLINDER_CONDUCTION, s.CYLINDER_ROOM_C, warmth,
        )  # fmt: skip
        for k in range(L):
            excess = warmth[k] - cylinder_layers * cylinder[s.PLAN_SUBSTEPS] * X[s.CYLINDER_ROOM_C * L + k]
            cooled = X[s.CYLINDER_COOLING * L + k] * X[s.CYLINDER_LAYER_J_K * L + k]
            X[s.CYLINDER_LOSS_J * L + k] += cooled * excess
        advance_column(
            lane, X, T, work, net, drawn, store, s.CHARGE_KG_S, s.STORE_STEP, s.STORE_COOLING,
            s.STORE_CONDUCTION, s.STORE_ROOM_C, warmth,
        )  # fmt: skip
        settle_plant(lane, X, dt, float(layers), float(store[s.PLAN_SUBSTEPS]), warmth)
        settle_rooms(lane, X, dt)
    while cursor[1] < record_step.size and record_step[cursor[1]] <= last:
        record(lane, X, T, U, layers, cylinder_layers, history, cursor[1])
        cursor[1] += 1
