"""The season's equations as a system of differential equations, for a general solver to step.

The same formulas, flows and heat balances as the kernel's, in continuous time. What a solver cannot take
as it stands is smoothed or held: who feeds the rooms is settled at the beginning of each stretch; burner,
coil and the pump's after-run work in proportion instead of by hysteresis; layers that stand upside down
exchange heat quickly instead of being stirred at once; and the layers' faces take the limited slope
without the step's own length in it.
"""

from __future__ import annotations

import numpy as np
from numba import njit

from woodreeve.season import slots as s
from woodreeve.season.compiled import (
    flue_loss_share,
    limited_half_step,
    mixing_share,
    radiator_factor,
    wet_fire_share,
)
from woodreeve.units import Floats

FUEL, BODY, BACKUP, RADIATOR_1, RADIATOR_2, ROOMS, STORE = 0, 1, 2, 3, 4, 5, 9
STIR_1_S = 0.02
"""How fast layers upside down exchange their heat. [1/s]"""


@njit(nogil=True, error_model="numpy")
def slopes(t, y, dy, X, store, cylinder, conductance, capacity, outward, tap_w, burning, on_backup) -> None:  # noqa: ANN001  # the compiler reads no annotations
    """How fast every state changes at a moment."""
    layers = store[s.PLAN_LAYERS]
    taps_at = STORE + layers
    cylinder_layers = cylinder[s.PLAN_LAYERS]
    water = X[s.WATER_J_KG_K]
    body, backup = y[BODY], y[BACKUP]
    at = store[s.PLAN_AT : s.PLAN_AT + 8]
    into, out = store[s.PLAN_INTO : s.PLAN_INTO + 5], store[s.PLAN_OUT_OF : s.PLAN_OUT_OF + 5]
    top, bottom, hot = y[STORE + at[into[0]]], y[STORE + at[out[0]]], y[STORE + at[out[1]]]
    full = X[s.FULL_W] * wet_fire_share(X[s.FUEL_MOISTURE])
    dying = max(y[FUEL], 0.0) / 3960.0
    air = min(max((X[s.FAN_STOP_C] - body) / X[s.FAN_BAND_K], X[s.SLUMBER]), 1.0)
    burnt = min(full, dying) * air if burning else max(y[FUEL] - X[s.CHAR_J], 0.0) / 10800.0
    flue_c = body + X[s.FLUE_RISE_K] * burnt / X[s.FULL_W]
    lost = flue_loss_share(flue_c, X[s.ROOM_C], X[s.FUEL_MOISTURE], X[s.AIR_RATIO]) + X[s.UNBURNT]
    casing = X[s.CASING_W_K] * (body - X[s.ROOM_C])
    runs = 1.0 if burning else min(max(body - top - X[s.AFTER_RUN_K] + 1.0, 0.0), 1.0)
    charge = runs * X[s.PUMP_KG_S] * (1.0 - mixing_share(body, bottom, X[s.RETURN_C]))
    charge = charge if body > bottom else 0.0
    heating = X[s.HEATING_1] > 0.0
    burner = (
        min(max((X[s.BACKUP_SET_C] - backup) / X[s.BACKUP_HYSTERESIS_K], 0.0), 1.0)
        * on_backup
        * X[s.BACKUP_W]
    )
    source = backup if on_backup > 0.0 else hot
    drawn, back, into_rooms = 0.0, 0.0, 0.0
    for z in range(2):
        radiator, room = y[RADIATOR_1 + z], y[ROOMS + 2 * z]
        valve = min(max((X[s.SET_1_C + z] - room) / X[s.VALVE_BAND_K] + 0.5, 0.0), 1.0)
        flow = X[s.FLOW_1_KG_S + z] * valve * mixing_share(source, radiator, X[s.CURVE_1_C + z]) * heating
        given = X[s.RATED_1_W + z] * radiator_factor(max(radiator - room, 0.0), X[s.EXPONENT_1 + z])
        dy[RADIATOR_1 + z] = (flow * water * (source - radiator) - given) / X[s.RADIATOR_1_J_K + z]
        drawn += flow
        back += flow * radiator
        into_rooms += flow * water * (source - radiator)
        sun, inside = X[s.SUN_1_W + z], X[s.INSIDE_1_W + z]
        dy[ROOMS + 2 * z] = (
            sun * (1.0 - X[s.SUN_TO_MASS])
            + inside * (1.0 - X[s.INSIDE_TO_MASS])
            + given * (1.0 - X[s.RADIANT])
        )
        dy[ROOMS + 2 * z + 1] = sun * X[s.SUN_TO_MASS] + inside * X[s.INSIDE_TO_MASS] + given * X[s.RADIANT]
    for i in range(4):
        flow_out = outward[i] * (y[ROOMS + i] - X[s.OUTDOOR_C])
        for j in range(4):
            flow_out += conductance[i, j] * y[ROOMS + j]
        dy[ROOMS + i] = (dy[ROOMS + i] - flow_out) / capacity[i]
    back = back / max(drawn, 1e-12)
    sensor = y[taps_at + cylinder[s.PLAN_SENSOR]]
    calls = min(max((X[s.CYLINDER_SET_C] - sensor) / X[s.CYLINDER_HYSTERESIS_K], 0.0), 1.0)
    calls *= min(max(0.5 * (source - sensor - X[s.COIL_MARGIN_K]), 0.0), 1.0)
    for j in range(cylinder_layers):
        dy[taps_at + j] = 0.0
    coil_flow, coil_water, coil = calls * X[s.COIL_FLOW_KG_S], source, 0.0
    for j in range(cylinder[s.PLAN_COIL_HIGH], cylinder[s.PLAN_COIL_LOW] - 1, -1):
        cooled = X[s.COIL_LAYER_EFFECT] * (coil_water - y[taps_at + j])
        coil_water -= cooled
        coil += coil_flow * water * cooled
        dy[taps_at + j] += coil_flow * water * cooled / X[s.CYLINDER_LAYER_J_K]
    crown = y[taps_at + cylinder_layers - 1]
    tapped = (
        tap_w
        / (water * (X[s.TAP_C] - X[s.COLD_WATER_C]))
        * mixing_share(crown, X[s.COLD_WATER_C], X[s.TAP_C])
    )
    mass = X[s.CYLINDER_LAYER_J_K] / water
    for j in range(cylinder_layers):
        below = y[taps_at + j - 1] if j else X[s.COLD_WATER_C]
        dy[taps_at + j] += tapped / mass * (below - y[taps_at + j])
        dy[taps_at + j] -= X[s.CYLINDER_COOLING] / 60.0 * (y[taps_at + j] - X[s.CYLINDER_ROOM_C])
        if j and y[taps_at + j - 1] > y[taps_at + j]:
            stirred = STIR_1_S * (y[taps_at + j - 1] - y[taps_at + j])
            dy[taps_at + j] += stirred
            dy[taps_at + j - 1] -= stirred
    mass = X[s.STORE_LAYER_J_K] / water
    for j in range(layers):
        dy[STORE + j] = -X[s.STORE_COOLING] / 60.0 * (y[STORE + j] - X[s.STORE_ROOM_C])
    rooms_flow = drawn * (1.0 - on_backup)
    coil_store = coil_flow * (1.0 - on_backup)
    flows = (charge, rooms_flow, coil_store)
    fed = (body, back, coil_water)
    for q in range(3):
        dy[STORE + at[into[q]]] += flows[q] / mass * fed[q]
        dy[STORE + at[out[q]]] -= flows[q] / mass * y[STORE + at[out[q]]]
    up = 0.0
    for j in range(layers - 1):
        for q in range(3):
            up += flows[q] * ((at[into[q]] == j) * 1.0 - (at[out[q]] == j) * 1.0)
        a, b = y[STORE + j], y[STORE + j + 1]
        if up > 0.0:
            carried = a + (limited_half_step(y[STORE + j - 1], a, b) if j else 0.0)
        else:
            carried = b - (limited_half_step(a, b, y[STORE + j + 2]) if j < layers - 2 else 0.0)
        moved = up / mass * carried + X[s.STORE_CONDUCTION] / 60.0 * (a - b)
        if a > b:
            moved += STIR_1_S * (a - b)
        dy[STORE + j] -= moved
        dy[STORE + j + 1] += moved
    dy[FUEL] = -burnt
    dy[BODY] = (burnt * (1.0 - lost) - casing - charge * water * (body - bottom)) / X[s.BODY_J_K]
    given = on_backup * (into_rooms + coil) + X[s.BACKUP_CASING_W_K] * (backup - X[s.ROOM_C])
    dy[BACKUP] = (burner - given) / X[s.BACKUP_J_K]


@njit(nogil=True, error_model="numpy")
def right_side(t, y, X, store, cylinder, conductance, capacity, outward, tap_w, burning, on_backup) -> Floats:  # noqa: ANN001  # as above
    """The same in the form that the solver asks for."""
    dy = np.empty_like(y)
    slopes(t, y, dy, X, store, cylinder, conductance, capacity, outward, tap_w, burning, on_backup)
    return dy
