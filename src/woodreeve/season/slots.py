"""Where each figure of one run stands in the kernel's working array.

A run is one lane of a working array whose rows are these numbers: row ``BODY_C`` holds the boiler's
temperature of every run that is advanced at the same time. SI units throughout: J, W, kg, s, °C.
"""

from __future__ import annotations

# What changes by itself.
(
    FUEL_J,  # net heat left in the fuel space
    FUEL_KG,  # wood left in it
    FUEL_MOISTURE,  # its moisture, wet basis
    BURNING,  # 1 while a fire burns
    RAMP,  # 0 just lit, 1 fully alight
    BODY_C,  # boiler water and steel
    DISCHARGE_OPEN,  # 1 while the thermal discharge runs
    BACKUP_C,  # water in the backup
    BURNER_ON,  # 1 while its burner runs
    COLD_S,  # how long the store has been too cold
    COIL_CALLS,  # 1 while the cylinder asks for heat
    IMMERSION_ON,  # 1 while the immersion heater runs
    RADIATOR_1_C,  # mean water of the radiators
    RADIATOR_2_C,
    AIR_1_C,  # rooms
    MASS_1_C,  # walls and floors
    AIR_2_C,
    MASS_2_C,
) = range(18)

# What the hour, the events and the flows set.
(
    OUTDOOR_C,
    SUN_1_W,
    SUN_2_W,
    INSIDE_1_W,
    INSIDE_2_W,
    SET_1_C,
    SET_2_C,
    COLD_WATER_C,
    CURVE_1_C,
    CURVE_2_C,
    HEATING_1,  # 1 while it is cold enough outdoors
    HEATING_2,
    TAP_W,  # heat wanted at the taps
    TAP_NOW,  # share of the usual day's draws in this hour
    LOAD_KG,  # wood put in at this step
    LOAD_J_PER_KG,
    LOAD_MOISTURE,
    POWER,  # 0 in a power cut
    PUMP_SOUND,  # 0 when the charging pump has failed
    RETURN_STUCK,  # share at which the return valve sticks, -1 when sound
    MIXING_1_STUCK,
    MIXING_2_STUCK,
    CREEP_KG_S,  # unwanted circulation through the cold boiler
    BACKUP_ALLOWED,  # 1 when the owner lets the backup run
    FACTOR_1,  # output of the radiators over their rating
    FACTOR_2,
    TOP_C,  # store at the ports
    BOTTOM_C,
    HOT_C,  # store where the heating draws
    SENSOR_C,  # cylinder's thermostat
    CYLINDER_TOP_C,
    ON_BACKUP,  # 1 while the rooms are fed by the backup
    COIL_FROM_STORE,
    COIL_FROM_BACKUP,
    TO_WATER_W,  # fire's heat into the boiler's body
    DISCHARGE_W,
    DRAWN_1_KG_S,
    DRAWN_2_KG_S,
    DIRECT_KG_S,  # boiler water that goes straight to the rooms
    BACK_C,  # return of the rooms
    BURNER_W,
    COIL_W,
    COIL_WATER_C,  # water in the coil, layer by layer
    IMMERSION_W,
    STORE_LOSS_W,
    # Loops through the store: flow, temperature fed in, drop asked of it, outlet over the step.
    CHARGE_KG_S,
    CHARGE_IN_C,
    CHARGE_DROP_K,
    CHARGE_OUT_C,
    ROOMS_KG_S,
    ROOMS_IN_C,
    ROOMS_DROP_K,
    ROOMS_OUT_C,
    COIL_KG_S,
    COIL_IN_C,
    COIL_DROP_K,
    COIL_OUT_C,
    BACKUP_KG_S,
    BACKUP_IN_C,
    BACKUP_DROP_K,
    BACKUP_OUT_C,
    CREEPING_KG_S,
    CREEPING_IN_C,
    CREEPING_DROP_K,
    CREEPING_OUT_C,
    # The one loop through the cylinder: the taps.
    TAP_KG_S,
    TAP_IN_C,
    TAP_DROP_K,
    TAP_OUT_C,
) = range(18, 87)

# What stays the same through a run.
(
    WATER_J_KG_K,
    SPACE_KG,
    FULL_W,
    RAMP_S,
    TAIL,  # share of the fuel that a dying fire burns in one step
    EMBERS,  # the same for embers after the fan has stopped
    CHAR_J,  # left unburnt
    END_W,  # below this the fan stops
    FAN_STOP_C,
    FAN_BAND_K,
    SLUMBER,  # share that goes on burning without air from the fan
    UNBURNT,
    SLUMBER_UNBURNT,
    FLUE_RISE_K,
    AIR_RATIO,
    CASING_W_K,
    ROOM_C,
    BODY_J_K,
    RETURN_C,
    AFTER_RUN_K,
    PUMP_KG_S,
    DIRECT,
    BOILS_C,
    DISCHARGE_AT_C,
    DISCHARGE_KG_S,
    DISCHARGE_EFFECT,
    BURNING_W,  # electricity of fan and controls
    PUMP_W,
    STORE_ROOM_C,
    STORE_STEP,  # step over heat capacity of one layer's water: s/kg
    STORE_COOLING,  # share of its excess that a layer loses in one (sub)step
    STORE_CONDUCTION,  # share of a difference that neighbours exchange
    STORE_LAYER_J_K,
    STORE_LIMIT_C,
    STORE_IN_HOUSE,
    BACKUP_W,
    BACKUP_EFFICIENCY,
    BACKUP_SET_C,
    BACKUP_HYSTERESIS_K,
    BACKUP_J_K,
    BACKUP_CASING_W_K,
    BACKUP_FOR_ROOMS,
    BACKUP_FOR_TAPS,
    BACKUP_FOR_STORE,
    BACKUP_BELOW_C,
    BACKUP_FOLLOWS_CURVE,
    BACKUP_DELAY_S,
    BACKUP_BLOCKED,  # 1 when a fire keeps the backup off
    BACKUP_PUMP_KG_S,
    BACKUP_ELECTRIC_W,
    CYLINDER_SET_C,
    CYLINDER_HYSTERESIS_K,
    CYLINDER_ROOM_C,
    CYLINDER_STEP,
    CYLINDER_COOLING,
    CYLINDER_CONDUCTION,
    CYLINDER_LAYER_J_K,
    COIL_FLOW_KG_S,
    COIL_LAYER_EFFECT,
    COIL_MARGIN_K,
    IMMERSION_RATED_W,
    IMMERSION_BELOW_C,
    TAP_C,
    TAP_SCALE,
    FLOW_1_KG_S,
    FLOW_2_KG_S,
    RATED_1_W,
    RATED_2_W,
    RADIATOR_1_J_K,
    RADIATOR_2_J_K,
    EXPONENT_1,
    EXPONENT_2,
    MIXED_1,
    MIXED_2,
    DESIGN_OUT_1_C,
    DESIGN_OUT_2_C,
    DESIGN_FLOW_1_C,
    DESIGN_FLOW_2_C,
    MILD_OUT_1_C,
    MILD_OUT_2_C,
    MILD_FLOW_1_C,
    MILD_FLOW_2_C,
    MOST_FLOW_1_C,
    MOST_FLOW_2_C,
    SHIFT_1_K,  # change of the room's set temperature
    SHIFT_2_K,
    VALVE_BAND_K,
    RADIANT,
    SUN_TO_MASS,
    INSIDE_TO_MASS,
    WINDOW_W_K,
    WINDOW_ABOVE_C,
    CIRCUIT_PUMP_W,
    RULE,  # 1 when fires follow a rule
    RULE_HOUR_A,
    RULE_HOUR_B,
    RULE_BELOW_C,
    RULE_SLOPE,
    RULE_KG,
    RULE_LEAST_KG,
    RULE_J_PER_KG,
    RULE_MOISTURE,
    RULE_FIT,
    RULE_USE_J,
    RULE_YIELD,
) = range(87, 192)

HOUSE = 192
"""First of the numbers that step the house: 16 for its state, 20 for its inputs, 9 for its loss."""
HOUSE_END = HOUSE + 45

# What adds up; in J where not said otherwise.
(
    BURNT_J,
    LOADED_J,
    LOADED_KG,
    REFUSED_KG,
    FLUE_J,
    UNBURNT_J,
    CASING_J,
    DISCHARGE_J,
    DISCHARGE_KG,
    DISCHARGE_S,
    STEAM_J,
    CHARGED_J,
    DIRECT_J,
    CREPT_J,
    STORE_LOSS_J,
    STORE_TO_ROOMS_J,
    STORE_TO_COIL_J,
    BACKUP_TO_STORE_J,
    BACKUP_FUEL_J,
    BACKUP_HEAT_J,
    BACKUP_CASING_J,
    BACKUP_TO_ROOMS_J,
    BACKUP_TO_COIL_J,
    BACKUP_S,
    BACKUP_STARTS,
    IMMERSION_J,
    TAPPED_J,
    TAP_SHORT_J,
    TAP_SHORT_S,
    CYLINDER_LOSS_J,
    RADIATED_1_J,
    RADIATED_2_J,
    ROOMS_J,
    SUN_J,
    INSIDE_J,
    WINDOW_J,
    HOUSE_LOSS_J,
    COLD_ROOM_1_KS,
    COLD_ROOM_2_KS,
    FIRE_S,
    PUMP_S,
    ELECTRIC_J,
    FIRES,
    REFILLS,
    OVER_LIMIT_S,
    HOTTEST_BODY_C,
    HOTTEST_STORE_C,
) = range(237, 284)

SLOTS = 284
TOTALS = 237
"""First of the sums."""

# Columns of the hourly input.
(
    HOUR_OUTDOOR_C,
    HOUR_SUN_1_W,
    HOUR_SUN_2_W,
    HOUR_INSIDE_1_W,
    HOUR_INSIDE_2_W,
    HOUR_SET_1_C,
    HOUR_SET_2_C,
    HOUR_COLD_WATER_C,
    HOUR_TAP_SHARE,
) = range(9)
HOUR_COLUMNS = 9

RADIATOR_STEPS = 481
RADIATOR_PER_K = 4.0
"""The table of radiator factors: every quarter of a degree up to 120 K."""

# How a column is laid out, in its integer array.
PLAN_LAYERS = 0
PLAN_PORTS = 1
PLAN_LOOPS = 2
PLAN_SUBSTEPS = 3
PLAN_COIL_LOW = 4  # cylinder: lowest and highest layer of its coils
PLAN_COIL_HIGH = 5
PLAN_HEATER = 6  # layer of the immersion heater
PLAN_SENSOR = 7  # layer of the thermostat
PLAN_AT = 8  # layer of each port, from the lowest up
PLAN_INTO = 24  # port by which each loop feeds
PLAN_OUT_OF = 32  # port by which each loop draws
PLAN_BY_DROP = 40  # 1 when a loop feeds back what it drew less a drop, 0 when at a stated temperature
PLAN_SEGMENT = 48  # for each face between layers, the last port at or below it
MOST_LAYERS = 400
PLAN_JOINT = PLAN_SEGMENT + MOST_LAYERS  # 1 where a face lies between two tanks in series
PLAN_SIZE = PLAN_JOINT + MOST_LAYERS
"""Length of the integer array."""
