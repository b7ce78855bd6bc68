"""The first half of a step: the fire burns, and every pump, valve and burner takes its place."""

from __future__ import annotations

from woodreeve.season import slots as s
from woodreeve.season.column import Lanes
from woodreeve.season.compiled import flue_loss_share, inlined, mixing_share, wet_fire_share
from woodreeve.units import Floats

__all__ = ["burn", "decide"]


@inlined
def burn(lane: Lanes, X: Floats, dt: float) -> None:
    """Take in wood, burn some of it, and share out its heat between water, flue, char and casing."""
    L = len(lane)
    for k in range(L):
        # Wood that is put in, as far as there is room for it.
        room_kg = X[s.SPACE_KG * L + k] - X[s.FUEL_KG * L + k]
        room_kg = room_kg if room_kg > 0.0 else 0.0
        offered = X[s.LOAD_KG * L + k]
        taken = offered if offered < room_kg else room_kg
        fuel_kg = X[s.FUEL_KG * L + k] + taken
        part = taken / (fuel_kg + 1e-9)
        moisture = X[s.FUEL_MOISTURE * L + k]
        moisture = moisture + part * (X[s.LOAD_MOISTURE * L + k] - moisture)
        loaded = taken * X[s.LOAD_J_PER_KG * L + k]
        fuel = X[s.FUEL_J * L + k] + loaded
        was_burning = X[s.BURNING * L + k]
        lit = 1.0 if taken > 0.0 else 0.0
        fresh = lit * (1.0 - was_burning)
        burning = 1.0 if lit > 0.0 else was_burning
        ramp = (1.0 - fresh) * X[s.RAMP * L + k] + dt / X[s.RAMP_S * L + k]
        ramp = ramp if ramp < 1.0 else 1.0

        # The burn: what the fire can do, and what the air lets it do.
        body = X[s.BODY_C * L + k]
        full = X[s.FULL_W * L + k] * wet_fire_share(moisture)
        dying = fuel * X[s.TAIL * L + k]
        able = full * (0.2 + 0.8 * ramp) * dt
        able = able if able < dying else dying
        air = (X[s.FAN_STOP_C * L + k] - body) / X[s.FAN_BAND_K * L + k]
        air = air if air < 1.0 else 1.0
        air = air if air > 0.0 else 0.0
        air = air * X[s.POWER * L + k]
        slumber = X[s.SLUMBER * L + k]
        air = air if air > slumber else slumber
        embers = fuel - X[s.CHAR_J * L + k]
        embers = (embers if embers > 0.0 else 0.0) * X[s.EMBERS * L + k]
        burnt = able * air if burning > 0.0 else embers
        fuel_left = fuel - burnt
        fuel_kg = fuel_kg * (fuel_left / (fuel + 1e-9))
        goes_on = 1.0 if (ramp < 1.0) | (able > X[s.END_W * L + k] * dt) else 0.0

        # Where the heat goes.
        unburnt = X[s.UNBURNT * L + k] + burning * X[s.SLUMBER_UNBURNT * L + k] * (1.0 - air)
        flue_c = body + X[s.FLUE_RISE_K * L + k] * burnt / (dt * X[s.FULL_W * L + k])
        flue = flue_loss_share(flue_c, X[s.ROOM_C * L + k], moisture, X[s.AIR_RATIO * L + k])
        casing = X[s.CASING_W_K * L + k] * (body - X[s.ROOM_C * L + k])

        X[s.FUEL_KG * L + k] = fuel_kg
        X[s.FUEL_J * L + k] = fuel_left
        X[s.FUEL_MOISTURE * L + k] = moisture
        X[s.RAMP * L + k] = ramp
        X[s.BURNING * L + k] = burning * goes_on
        X[s.LOAD_KG * L + k] = 0.0
        X[s.TO_WATER_W * L + k] = burnt * (1.0 - flue - unburnt) / dt - casing
        X[s.BURNT_J * L + k] += burnt
        X[s.LOADED_J * L + k] += loaded
        X[s.LOADED_KG * L + k] += taken
        X[s.REFUSED_KG * L + k] += offered - taken
        X[s.FLUE_J * L + k] += burnt * flue
        X[s.UNBURNT_J * L + k] += burnt * unburnt
        X[s.CASING_J * L + k] += casing * dt
        X[s.FIRES * L + k] += fresh
        X[s.REFILLS * L + k] += lit - fresh
        X[s.FIRE_S * L + k] += burning * dt
        X[s.ELECTRIC_J * L + k] += burning * X[s.POWER * L + k] * X[s.BURNING_W * L + k] * dt


@inlined
def decide(lane: Lanes, X: Floats, dt: float) -> None:
    """Set pumps, valves, backup and coil from the temperatures at the beginning of the step."""
    L = len(lane)
    for k in range(L):
        body = X[s.BODY_C * L + k]
        top = X[s.TOP_C * L + k]
        bottom = X[s.BOTTOM_C * L + k]
        hot = X[s.HOT_C * L + k]
        power = X[s.POWER * L + k]
        burning = X[s.BURNING * L + k]

        # Thermal discharge: opens by itself, needs no power.
        opens = X[s.DISCHARGE_AT_C * L + k]
        held = X[s.DISCHARGE_OPEN * L + k] if body > opens - 6.0 else 0.0
        discharge = 1.0 if body >= opens else held
        cold_water = X[s.COLD_WATER_C * L + k]
        excess = body - cold_water
        discharge_kg_s = discharge * X[s.DISCHARGE_KG_S * L + k]
        discharged = discharge_kg_s * X[s.WATER_J_KG_K * L + k] * X[s.DISCHARGE_EFFECT * L + k] * excess

        # Charging pump and the valve that keeps the return warm.
        kept = X[s.RETURN_C * L + k]
        wants = (burning > 0.0) | (body > top + X[s.AFTER_RUN_K * L + k])
        runs = wants & (body > kept) & (body > bottom + 1.0)
        pump = (1.0 if runs else 0.0) * power * X[s.PUMP_SOUND * L + k]
        # The boiler's water in the middle of the step, so that charging does not lag half a step behind.
        half = 0.5 * dt / X[s.BODY_J_K * L + k]
        pull = pump * X[s.PUMP_KG_S * L + k] * X[s.WATER_J_KG_K * L + k]
        floor = bottom if bottom > kept else kept
        gained = body + half * (X[s.TO_WATER_W * L + k] - discharged + pull * floor)
        middle = gained / (1.0 + half * pull) if pump > 0.0 else body
        opening = 1.0 - mixing_share(middle, bottom, kept)
        stuck = X[s.RETURN_STUCK * L + k]
        opening = stuck if stuck >= 0.0 else opening
        charge = pump * X[s.PUMP_KG_S * L + k] * opening
        creeps = (pump == 0.0) & (burning == 0.0) & (top > body + 1.0)
        creep = X[s.CREEP_KG_S * L + k] if creeps else 0.0

        # May the backup run?
        need_1 = X[s.CURVE_1_C * L + k] * X[s.HEATING_1 * L + k]
        need_2 = X[s.CURVE_2_C * L + k] * X[s.HEATING_2 * L + k]
        need = need_1 if need_1 > need_2 else need_2
        threshold = need if X[s.BACKUP_FOLLOWS_CURVE * L + k] > 0.0 else X[s.BACKUP_BELOW_C * L + k]
        waited = X[s.COLD_S * L + k] + (dt if hot < threshold else 0.0)
        waited = waited if hot < threshold + 5.0 else 0.0
        ready = (waited > X[s.BACKUP_DELAY_S * L + k]) & (X[s.BACKUP_ALLOWED * L + k] > 0.0)
        ready = ready & (burning * X[s.BACKUP_BLOCKED * L + k] == 0.0)
        free = (1.0 if ready else 0.0) * power
        heating = X[s.HEATING_1 * L + k] + X[s.HEATING_2 * L + k]
        on_backup = free * X[s.BACKUP_FOR_ROOMS * L + k] * (1.0 if heating > 0.0 else 0.0)

        # Hot water: coil from the store, else from the backup; the immersion heater last.
        sensor = X[s.SENSOR_C * L + k]
        goal = X[s.CYLINDER_SET_C * L + k]
        holds = X[s.COIL_CALLS * L + k] if sensor < goal else 0.0
        calls = 1.0 if sensor < goal - X[s.CYLINDER_HYSTERESIS_K * L + k] else holds
        by_backup = calls * free * X[s.BACKUP_FOR_TAPS * L + k]
        by_store = 1.0 if hot > sensor + X[s.COIL_MARGIN_K * L + k] else 0.0
        by_store = by_store * calls * (1.0 - by_backup) * power
        below = X[s.IMMERSION_BELOW_C * L + k]
        warming = X[s.IMMERSION_ON * L + k] if sensor < below + 5.0 else 0.0
        warming = 1.0 if sensor < below else warming
        immersion = warming * power * X[s.IMMERSION_RATED_W * L + k]

        # The backup's burner.
        backup = X[s.BACKUP_C * L + k]
        for_store = free * X[s.BACKUP_FOR_STORE * L + k]
        asked = (on_backup + by_backup + for_store) > 0.0
        target = X[s.BACKUP_SET_C * L + k]
        was_on = X[s.BURNER_ON * L + k]
        keeps_on = was_on if backup < target else 0.0
        burner = 1.0 if backup < target - X[s.BACKUP_HYSTERESIS_K * L + k] else keeps_on
        burner = burner if asked else 0.0
        to_store = (for_store > 0.0) & (backup > hot + 2.0)

        # Heating circuits: room valve, then mixing valve.
        source = backup if on_backup > 0.0 else hot
        band = X[s.VALVE_BAND_K * L + k]
        open_1 = (X[s.SET_1_C * L + k] - X[s.AIR_1_C * L + k]) / band + 0.5
        open_1 = open_1 if open_1 > 0.0 else 0.0
        open_1 = open_1 if open_1 < 1.0 else 1.0
        open_2 = (X[s.SET_2_C * L + k] - X[s.AIR_2_C * L + k]) / band + 0.5
        open_2 = open_2 if open_2 > 0.0 else 0.0
        open_2 = open_2 if open_2 < 1.0 else 1.0
        radiator_1 = X[s.RADIATOR_1_C * L + k]
        radiator_2 = X[s.RADIATOR_2_C * L + k]
        mix_1 = mixing_share(source, radiator_1, X[s.CURVE_1_C * L + k])
        mix_1 = mix_1 if X[s.MIXED_1 * L + k] > 0.0 else (1.0 if source > radiator_1 else 0.0)
        mix_1 = X[s.MIXING_1_STUCK * L + k] if X[s.MIXING_1_STUCK * L + k] >= 0.0 else mix_1
        mix_2 = mixing_share(source, radiator_2, X[s.CURVE_2_C * L + k])
        mix_2 = mix_2 if X[s.MIXED_2 * L + k] > 0.0 else (1.0 if source > radiator_2 else 0.0)
        mix_2 = X[s.MIXING_2_STUCK * L + k] if X[s.MIXING_2_STUCK * L + k] >= 0.0 else mix_2
        drawn_1 = X[s.FLOW_1_KG_S * L + k] * X[s.HEATING_1 * L + k] * open_1 * mix_1 * power
        drawn_2 = X[s.FLOW_2_KG_S * L + k] * X[s.HEATING_2 * L + k] * open_2 * mix_2 * power
        drawn = drawn_1 + drawn_2
        back = (drawn_1 * radiator_1 + drawn_2 * radiator_2) / (drawn if drawn > 1e-12 else 1e-12)
        from_store = drawn * (1.0 - on_backup)
        direct = (charge if charge < from_store else from_store) * X[s.DIRECT * L + k]

        # Taps: hot water mixed down, or all that the cylinder can give.
        crown = X[s.CYLINDER_TOP_C * L + k]
        spread = X[s.TAP_C * L + k] - cold_water
        wanted = X[s.TAP_W * L + k] / (X[s.WATER_J_KG_K * L + k] * spread)
        tapped = wanted * mixing_share(crown, cold_water, X[s.TAP_C * L + k])

        X[s.DISCHARGE_OPEN * L + k] = discharge
        X[s.DISCHARGE_W * L + k] = discharged
        X[s.DISCHARGE_KG * L + k] += discharge_kg_s * dt
        X[s.DISCHARGE_S * L + k] += discharge * dt
        X[s.CHARGE_KG_S * L + k] = charge - direct
        X[s.CHARGE_IN_C * L + k] = middle
        X[s.DIRECT_KG_S * L + k] = direct
        X[s.CREEPING_KG_S * L + k] = creep
        X[s.CREEPING_IN_C * L + k] = body
        X[s.COLD_S * L + k] = waited
        X[s.ON_BACKUP * L + k] = on_backup
        X[s.COIL_CALLS * L + k] = calls
        X[s.COIL_FROM_STORE * L + k] = by_store
        X[s.COIL_FROM_BACKUP * L + k] = by_backup
        X[s.COIL_KG_S * L + k] = by_store * X[s.COIL_FLOW_KG_S * L + k]
        X[s.COIL_WATER_C * L + k] = backup if by_backup > 0.0 else hot
        X[s.IMMERSION_ON * L + k] = warming
        X[s.IMMERSION_W * L + k] = immersion
        X[s.BACKUP_STARTS * L + k] += burner * (1.0 - was_on)
        X[s.BURNER_ON * L + k] = burner
        X[s.BURNER_W * L + k] = burner * X[s.BACKUP_W * L + k]
        X[s.BACKUP_KG_S * L + k] = X[s.BACKUP_PUMP_KG_S * L + k] if to_store else 0.0
        X[s.BACKUP_IN_C * L + k] = backup
        X[s.DRAWN_1_KG_S * L + k] = drawn_1
        X[s.DRAWN_2_KG_S * L + k] = drawn_2
        X[s.ROOMS_KG_S * L + k] = from_store - direct
        X[s.ROOMS_IN_C * L + k] = back
        X[s.BACK_C * L + k] = back
        X[s.TAP_KG_S * L + k] = tapped
        X[s.TAP_IN_C * L + k] = cold_water
        X[s.PUMP_S * L + k] += pump * dt
        pumps = pump * X[s.PUMP_W * L + k] + (1.0 if drawn > 0.0 else 0.0) * X[s.CIRCUIT_PUMP_W * L + k]
        X[s.ELECTRIC_J * L + k] += (pumps + burner * X[s.BACKUP_ELECTRIC_W * L + k]) * dt
