"""The second half of a step: heat that was moved is booked, and bodies, radiators and rooms follow."""

from __future__ import annotations

from woodreeve.season import slots as s
from woodreeve.season.column import Ints, Lanes, merge_inversions
from woodreeve.season.compiled import inlined
from woodreeve.units import Floats

__all__ = ["heat_cylinder", "look_up_radiators", "settle_plant", "settle_rooms"]


@inlined
def merge_column(lane: Lanes, k: int, U: Floats, plan: Ints) -> None:
    """Stir whatever the coil has put upside down."""
    L = len(lane)
    for j in range(plan[s.PLAN_LAYERS] - 1):
        if U[j * L + k] > U[(j + 1) * L + k]:
            merge_inversions(lane, k, j, U, plan)


@inlined
def heat_cylinder(lane: Lanes, X: Floats, U: Floats, plan: Ints, dt: float) -> None:
    """Let the coil's water cool from layer to layer, and the immersion heater warm its own."""
    L = len(lane)
    active = 0.0
    for k in range(L):
        X[s.COIL_W * L + k] = 0.0
        X[s.COIL_DROP_K * L + k] = 0.0
        active += X[s.COIL_FROM_STORE * L + k] + X[s.COIL_FROM_BACKUP * L + k] + X[s.IMMERSION_W * L + k]
    if active > 0.0:
        for j in range(plan[s.PLAN_COIL_HIGH], plan[s.PLAN_COIL_LOW] - 1, -1):
            for k in range(L):
                on = X[s.COIL_FROM_STORE * L + k] + X[s.COIL_FROM_BACKUP * L + k]
                carried = on * X[s.COIL_FLOW_KG_S * L + k] * X[s.WATER_J_KG_K * L + k]
                cooled = X[s.COIL_LAYER_EFFECT * L + k] * (X[s.COIL_WATER_C * L + k] - U[j * L + k])
                X[s.COIL_WATER_C * L + k] -= on * cooled
                X[s.COIL_W * L + k] += carried * cooled
                X[s.COIL_DROP_K * L + k] += on * cooled
                U[j * L + k] += carried * cooled * dt / X[s.CYLINDER_LAYER_J_K * L + k]
        heater = plan[s.PLAN_HEATER]
        for k in range(L):
            heat = X[s.IMMERSION_W * L + k] * dt
            U[heater * L + k] += heat / X[s.CYLINDER_LAYER_J_K * L + k]
            X[s.IMMERSION_J * L + k] += heat
            X[s.ELECTRIC_J * L + k] += heat
        for k in range(L):
            merge_column(lane, k, U, plan)


@inlined
def look_up_radiators(lane: Lanes, X: Floats, table_1: Floats, table_2: Floats) -> None:
    """Find how much of their rating the radiators give, by line between the rows of their tables."""
    L = len(lane)
    for k in range(L):
        place = (X[s.RADIATOR_1_C * L + k] - X[s.AIR_1_C * L + k]) * s.RADIATOR_PER_K
        place = place if place > 0.0 else 0.0
        place = place if place < s.RADIATOR_STEPS - 2.0 else s.RADIATOR_STEPS - 2.0
        row = int(place)
        low = table_1[row * L + k]
        X[s.FACTOR_1 * L + k] = low + (place - row) * (table_1[row * L + L + k] - low)
        place = (X[s.RADIATOR_2_C * L + k] - X[s.AIR_2_C * L + k]) * s.RADIATOR_PER_K
        place = place if place > 0.0 else 0.0
        place = place if place < s.RADIATOR_STEPS - 2.0 else s.RADIATOR_STEPS - 2.0
        row = int(place)
        low = table_2[row * L + k]
        X[s.FACTOR_2 * L + k] = low + (place - row) * (table_2[row * L + L + k] - low)


@inlined
def settle_plant(lane: Lanes, X: Floats, dt: float, layers: float, substeps: float, warmth: Floats) -> None:
    """Book what the loops moved, and give boiler, backup and radiators their new temperatures."""
    L = len(lane)
    for k in range(L):
        water = X[s.WATER_J_KG_K * L + k]
        body = X[s.BODY_C * L + k]
        back = X[s.BACK_C * L + k]

        flow = X[s.CHARGE_IN_C * L + k]
        charged = X[s.CHARGE_KG_S * L + k] * (flow - X[s.CHARGE_OUT_C * L + k]) * water * dt
        direct = X[s.DIRECT_KG_S * L + k] * (flow - back) * water * dt
        crept = X[s.CREEPING_KG_S * L + k] * (X[s.CREEPING_OUT_C * L + k] - body) * water * dt
        rooms_store = X[s.ROOMS_KG_S * L + k] * (X[s.ROOMS_OUT_C * L + k] - back) * water * dt
        coil = X[s.COIL_W * L + k] * dt
        coil_store = coil * X[s.COIL_FROM_STORE * L + k]
        coil_backup = coil * X[s.COIL_FROM_BACKUP * L + k]
        backup = X[s.BACKUP_C * L + k]
        backup_store = X[s.BACKUP_KG_S * L + k] * (backup - X[s.BACKUP_OUT_C * L + k]) * water * dt
        lost = X[s.STORE_COOLING * L + k] * X[s.STORE_LAYER_J_K * L + k]
        lost = lost * (warmth[k] - layers * substeps * X[s.STORE_ROOM_C * L + k])

        # The boiler's body; what would boil is blown off.
        heat = (X[s.TO_WATER_W * L + k] - X[s.DISCHARGE_W * L + k]) * dt - charged - direct + crept
        hot = body + heat / X[s.BODY_J_K * L + k]
        over = hot - X[s.BOILS_C * L + k]
        over = over if over > 0.0 else 0.0
        hot = hot - over

        # The rooms' water: from the backup, the store, or straight from the boiler.
        on_backup = X[s.ON_BACKUP * L + k]
        drawn_1 = X[s.DRAWN_1_KG_S * L + k]
        drawn_2 = X[s.DRAWN_2_KG_S * L + k]
        drawn = drawn_1 + drawn_2
        from_store = X[s.ROOMS_KG_S * L + k] * X[s.ROOMS_OUT_C * L + k] + X[s.DIRECT_KG_S * L + k] * flow
        source = backup if on_backup > 0.0 else from_store / (drawn if drawn > 1e-12 else 1e-12)
        radiator_1 = X[s.RADIATOR_1_C * L + k]
        radiator_2 = X[s.RADIATOR_2_C * L + k]
        heat_1 = drawn_1 * (source - radiator_1) * water * dt
        heat_2 = drawn_2 * (source - radiator_2) * water * dt
        given_1 = X[s.RATED_1_W * L + k] * X[s.FACTOR_1 * L + k] * dt
        given_2 = X[s.RATED_2_W * L + k] * X[s.FACTOR_2 * L + k] * dt
        backup_rooms = on_backup * (heat_1 + heat_2)

        backup_heat = X[s.BURNER_W * L + k] * dt
        casing = X[s.BACKUP_CASING_W_K * L + k] * (backup - X[s.ROOM_C * L + k]) * dt
        backup_net = backup_heat - casing - backup_rooms - coil_backup - backup_store

        tapped = X[s.TAP_KG_S * L + k] * (X[s.TAP_OUT_C * L + k] - X[s.COLD_WATER_C * L + k]) * water * dt
        wanted = X[s.TAP_W * L + k] * dt
        missing = wanted - tapped
        missing = missing if missing > 0.01 * wanted else 0.0

        X[s.BODY_C * L + k] = hot
        X[s.STEAM_J * L + k] += over * X[s.BODY_J_K * L + k]
        X[s.RADIATOR_1_C * L + k] = radiator_1 + (heat_1 - given_1) / X[s.RADIATOR_1_J_K * L + k]
        X[s.RADIATOR_2_C * L + k] = radiator_2 + (heat_2 - given_2) / X[s.RADIATOR_2_J_K * L + k]
        X[s.BACKUP_C * L + k] = backup + backup_net / X[s.BACKUP_J_K * L + k]
        X[s.STORE_LOSS_W * L + k] = lost / dt
        X[s.DISCHARGE_J * L + k] += X[s.DISCHARGE_W * L + k] * dt
        X[s.CHARGED_J * L + k] += charged
        X[s.DIRECT_J * L + k] += direct
        X[s.CREPT_J * L + k] += crept
        X[s.STORE_LOSS_J * L + k] += lost
        X[s.STORE_TO_ROOMS_J * L + k] += rooms_store
        X[s.STORE_TO_COIL_J * L + k] += coil_store
        X[s.BACKUP_TO_STORE_J * L + k] += backup_store
        X[s.BACKUP_FUEL_J * L + k] += backup_heat / X[s.BACKUP_EFFICIENCY * L + k]
        X[s.BACKUP_HEAT_J * L + k] += backup_heat
        X[s.BACKUP_CASING_J * L + k] += casing
        X[s.BACKUP_TO_ROOMS_J * L + k] += backup_rooms
        X[s.BACKUP_TO_COIL_J * L + k] += coil_backup
        X[s.BACKUP_S * L + k] += X[s.BURNER_ON * L + k] * dt
        X[s.TAPPED_J * L + k] += tapped
        X[s.TAP_SHORT_J * L + k] += missing
        X[s.TAP_SHORT_S * L + k] += dt if missing > 0.0 else 0.0
        X[s.RADIATED_1_J * L + k] += given_1
        X[s.RADIATED_2_J * L + k] += given_2
        X[s.ROOMS_J * L + k] += heat_1 + heat_2
        hottest = X[s.HOTTEST_BODY_C * L + k]
        X[s.HOTTEST_BODY_C * L + k] = hot if hot > hottest else hottest
        top = X[s.TOP_C * L + k]
        hottest = X[s.HOTTEST_STORE_C * L + k]
        X[s.HOTTEST_STORE_C * L + k] = top if top > hottest else hottest
        X[s.OVER_LIMIT_S * L + k] += dt if top > X[s.STORE_LIMIT_C * L + k] else 0.0


@inlined
def settle_rooms(lane: Lanes, X: Floats, dt: float) -> None:
    """Step the rooms exactly: their answer to heat that is steady through the step is known beforehand."""
    L = len(lane)
    for k in range(L):
        outdoor = X[s.OUTDOOR_C * L + k]
        air_1 = X[s.AIR_1_C * L + k]
        mass_1 = X[s.MASS_1_C * L + k]
        air_2 = X[s.AIR_2_C * L + k]
        mass_2 = X[s.MASS_2_C * L + k]
        sun = X[s.SUN_TO_MASS * L + k]
        inner = X[s.INSIDE_TO_MASS * L + k]
        radiant = X[s.RADIANT * L + k]
        airing = X[s.WINDOW_W_K * L + k]
        limit = X[s.WINDOW_ABOVE_C * L + k]
        window_1 = airing * (air_1 - outdoor) if (air_1 > limit) & (air_1 > outdoor) else 0.0
        window_2 = airing * (air_2 - outdoor) if (air_2 > limit) & (air_2 > outdoor) else 0.0
        radiator_1 = X[s.RATED_1_W * L + k] * X[s.FACTOR_1 * L + k]
        radiator_2 = X[s.RATED_2_W * L + k] * X[s.FACTOR_2 * L + k]
        store = X[s.STORE_IN_HOUSE * L + k] * X[s.STORE_LOSS_W * L + k]
        sun_1 = X[s.SUN_1_W * L + k]
        sun_2 = X[s.SUN_2_W * L + k]
        inside_1 = X[s.INSIDE_1_W * L + k] + store
        inside_2 = X[s.INSIDE_2_W * L + k]
        to_air_1 = sun_1 * (1.0 - sun) + inside_1 * (1.0 - inner) + radiator_1 * (1.0 - radiant) - window_1
        to_mass_1 = sun_1 * sun + inside_1 * inner + radiator_1 * radiant
        to_air_2 = sun_2 * (1.0 - sun) + inside_2 * (1.0 - inner) + radiator_2 * (1.0 - radiant) - window_2
        to_mass_2 = sun_2 * sun + inside_2 * inner + radiator_2 * radiant
        h = s.HOUSE
        X[s.AIR_1_C * L + k] = (
            (X[h * L + k] * air_1 + X[(h + 1) * L + k] * mass_1)
            + (X[(h + 2) * L + k] * air_2 + X[(h + 3) * L + k] * mass_2)
            + (X[(h + 16) * L + k] * outdoor + X[(h + 17) * L + k] * to_air_1)
            + (X[(h + 18) * L + k] * to_mass_1 + X[(h + 19) * L + k] * to_air_2)
            + X[(h + 20) * L + k] * to_mass_2
        )
        X[s.MASS_1_C * L + k] = (
            (X[(h + 4) * L + k] * air_1 + X[(h + 5) * L + k] * mass_1)
            + (X[(h + 6) * L + k] * air_2 + X[(h + 7) * L + k] * mass_2)
            + (X[(h + 21) * L + k] * outdoor + X[(h + 22) * L + k] * to_air_1)
            + (X[(h + 23) * L + k] * to_mass_1 + X[(h + 24) * L + k] * to_air_2)
            + X[(h + 25) * L + k] * to_mass_2
        )
        X[s.AIR_2_C * L + k] = (
            (X[(h + 8) * L + k] * air_1 + X[(h + 9) * L + k] * mass_1)
            + (X[(h + 10) * L + k] * air_2 + X[(h + 11) * L + k] * mass_2)
            + (X[(h + 26) * L + k] * outdoor + X[(h + 27) * L + k] * to_air_1)
            + (X[(h + 28) * L + k] * to_mass_1 + X[(h + 29) * L + k] * to_air_2)
            + X[(h + 30) * L + k] * to_mass_2
        )
        X[s.MASS_2_C * L + k] = (
            (X[(h + 12) * L + k] * air_1 + X[(h + 13) * L + k] * mass_1)
            + (X[(h + 14) * L + k] * air_2 + X[(h + 15) * L + k] * mass_2)
            + (X[(h + 31) * L + k] * outdoor + X[(h + 32) * L + k] * to_air_1)
            + (X[(h + 33) * L + k] * to_mass_1 + X[(h + 34) * L + k] * to_air_2)
            + X[(h + 35) * L + k] * to_mass_2
        )
        loss = (
            (X[(h + 36) * L + k] * air_1 + X[(h + 37) * L + k] * mass_1)
            + (X[(h + 38) * L + k] * air_2 + X[(h + 39) * L + k] * mass_2)
            + (X[(h + 40) * L + k] * outdoor + X[(h + 41) * L + k] * to_air_1)
            + (X[(h + 42) * L + k] * to_mass_1 + X[(h + 43) * L + k] * to_air_2)
            + X[(h + 44) * L + k] * to_mass_2
        )
        X[s.HOUSE_LOSS_J * L + k] += loss * dt
        X[s.SUN_J * L + k] += (sun_1 + sun_2) * dt
        X[s.INSIDE_J * L + k] += (inside_1 + inside_2) * dt
        X[s.WINDOW_J * L + k] += (window_1 + window_2) * dt
        cold_1 = X[s.SET_1_C * L + k] - 0.5 * X[s.VALVE_BAND_K * L + k] - air_1
        cold_2 = X[s.SET_2_C * L + k] - 0.5 * X[s.VALVE_BAND_K * L + k] - air_2
        X[s.COLD_ROOM_1_KS * L + k] += (cold_1 if cold_1 > 0.0 else 0.0) * dt
        X[s.COLD_ROOM_2_KS * L + k] += (cold_2 if cold_2 > 0.0 else 0.0) * dt
