# SPDX-License-Identifier: MPL-2.0
"""Writes units.csv: what python's pint makes of one of each unit, in coherent SI (kg, m, s, K, mol).

    /usr/bin/python3 make_units.py > units.csv

pint calls the international-table calorie and Btu by longer names; its own "cal" and "Btu" are others.
"""
import pint

ureg = pint.UnitRegistry()
SAME = {  # ours: pint's
    "kg": "kg", "g": "g", "mg": "mg", "µg": "microgram", "t": "tonne", "lb": "lb", "oz": "oz", "grain": "grain",
    "m": "m", "cm": "cm", "mm": "mm", "µm": "micrometer", "nm": "nm", "km": "km", "in": "inch", "ft": "ft", "yd": "yard",
    "L": "liter", "mL": "milliliter", "gal": "gallon", "ft³": "ft**3", "in²": "inch**2",
    "s": "s", "min": "minute", "h": "hour", "d": "day", "week": "week", "mol": "mol", "kmol": "kmol",
    "Pa": "Pa", "hPa": "hPa", "kPa": "kPa", "MPa": "MPa", "bar": "bar", "mbar": "mbar", "atm": "atm",
    "psi": "psi", "mmHg": "mmHg", "inHg": "inHg", "Torr": "torr",
    "J": "J", "kJ": "kJ", "MJ": "MJ", "Wh": "watt*hour", "kWh": "kWh", "MWh": "MW*hour",
    "Btu": "international_british_thermal_unit", "cal": "international_calorie",
    "kcal": "1000*international_calorie", "W": "W", "kW": "kW", "MW": "MW", "hp": "horsepower",
    "CFM": "ft**3/minute", "m³/h": "m**3/hour", "L/s": "liter/s", "kg/m³": "kg/m**3", "lb/ft³": "lb/ft**3",
    "m³/kg": "m**3/kg", "ft³/lb": "ft**3/lb", "kJ/kg": "kJ/kg",
    "Btu/lb": "international_british_thermal_unit/lb", "kg/m²": "kg/m**2", "lb/ft²": "lb/ft**2",
    "g/(m2 day kPa)": "g/(m**2*day*kPa)", "g/(m²·day)": "g/(m**2*day)", "g/(100 in²·day)": "g/(100*inch**2*day)",
    "g/(m²·day·mmHg)": "g/(m**2*day*mmHg)", "kJ/(kg K)": "kJ/(kg*K)", "kcal/h": "1000*international_calorie/hour",
    "Btu/h": "international_british_thermal_unit/hour", "m²/s": "m**2/s", "mm2/s": "mm**2/s", "kJ/mol": "kJ/mol",
    "ft/min": "ft/minute", "km/h": "km/hour", "kg/(m²·h)": "kg/(m**2*hour)", "kg/kg/h": "1/hour", "1/h": "1/hour",
    "g/kg": "g/kg", "grain/lb": "grain/lb", "kWh/kg": "kWh/kg",
}
TEMPERATURES = {"°C": "degC", "°F": "degF", "K": "kelvin"}

print(f"# Source: python3-pint {pint.__version__}, written by make_units.py. Columns: unit;reading;value in coherent SI")
for ours, theirs in SAME.items():
    print(f"{ours};1;{ureg.parse_expression(theirs).to_base_units().magnitude!r}")
for ours, theirs in TEMPERATURES.items():
    for reading in (-40.0, 0.5, 60.0, 212.0):
        if reading > 0 or theirs != "kelvin":
            print(f"{ours};{reading};{ureg.Quantity(reading, theirs).to('kelvin').magnitude!r}")
