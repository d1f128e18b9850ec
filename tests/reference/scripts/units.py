"""Values with units as people write them, converted by the public package pint.

    python -m venv venv && venv/bin/pip install pint==0.25.3
    venv/bin/python units.py > ../data/units.csv

Printed: what is typed, the unit it is wanted in, the value there.
"""
import pint

U = pint.UnitRegistry()
Q = U.Quantity
# Typed, unit of the program, the same for pint, unit for pint.
ROWS = [
    ("850 mV", "Volt", Q(850, "mV"), "V"), ("12.8 V", "Volt", Q(12.8, "V"), "V"),
    ("350 mA", "Amp", Q(350, "mA"), "A"), ("2.5 kA", "Amp", Q(2.5, "kA"), "A"),
    ("3.2 mohm", "Ohm", Q(3.2, "mohm"), "ohm"), ("0.047 ohm", "Milliohm", Q(0.047, "ohm"), "mohm"),
    ("3.3 mohm/m", "OhmPerKm", Q(3.3, "mohm/m"), "ohm/km"), ("1.2 kW", "Watt", Q(1.2, "kW"), "W"),
    ("750 mW", "Watt", Q(750, "mW"), "W"), ("1.28 kWh", "WattHour", Q(1.28, "kWh"), "Wh"),
    ("2600 mAh", "AmpHour", Q(2600, "mA*h"), "A*h"), ("20 ft", "Metre", Q(20, "foot"), "m"),
    ("7 in", "Metre", Q(7, "inch"), "m"), ("40 in", "Metre", Q(40, "inch"), "m"),
    ("72 in", "Metre", Q(72, "inch"), "m"), ("107 feet", "Metre", Q(107, "foot"), "m"),
    ("85 cm", "Metre", Q(85, "cm"), "m"), ("450 mm", "Metre", Q(450, "mm"), "m"),
    ("20 ft 4 in", "Metre", Q(20, "foot") + Q(4, "inch"), "m"), ("6'7\"", "Metre", Q(6, "foot") + Q(7, "inch"), "m"),
    ("13 in", "Millimetre", Q(13, "inch"), "mm"), ("33 cm", "Millimetre", Q(33, "cm"), "mm"),
    ("0.172 m", "Millimetre", Q(0.172, "m"), "mm"), ("0.375 in", "Millimetre", Q(0.375, "inch"), "mm"),
    ("10380 cmil", "SquareMillimetre", Q(10380, "circular_mil"), "mm^2"),
    ("211.6 kcmil", "SquareMillimetre", Q(211600, "circular_mil"), "mm^2"),
    ("1537 cmil", "SquareMillimetre", Q(1537, "circular_mil"), "mm^2"),
    ("23 °F", "Celsius", Q(23, "degF"), "degC"), ("-40 F", "Celsius", Q(-40, "degF"), "degC"),
    ("104 °F", "Celsius", Q(104, "degF"), "degC"), ("77 °F", "Celsius", Q(77, "degF"), "degC"),
    ("0 °F", "Celsius", Q(0, "degF"), "degC"), ("18 °F diff", "Kelvin", Q(18, "delta_degF"), "delta_degC"),
    ("90 min", "Hour", Q(90, "minute"), "hour"), ("45 s", "Hour", Q(45, "second"), "hour"),
    ("1.5 d", "Hour", Q(1.5, "day"), "hour"), ("1h30", "Hour", Q(1, "hour") + Q(30, "minute"), "hour"),
    ("2:45", "Hour", Q(2, "hour") + Q(45, "minute"), "hour"), ("500 ms", "Second", Q(500, "ms"), "s"),
    ("2 min", "Second", Q(2, "minute"), "s"), ("0.25 h", "Second", Q(0.25, "hour"), "s"),
    ("40%", "Share", Q(40, "percent"), ""), ("12.5 percent", "Share", Q(12.5, "percent"), ""),
    ("1.2 %/K", "SharePerKelvin", Q(1.2, "percent/delta_degC"), "1/delta_degC"),
    ("90 lb", "Kilogram", Q(90, "pound"), "kg"), ("850 g", "Kilogram", Q(850, "g"), "kg"),
    ("62 lbs", "Kilogram", Q(62, "pound"), "kg"), ("11.6 kN", "Newton", Q(11.6, "kN"), "N"),
    ("18 lbf ft", "NewtonMetre", Q(18, "lbf*foot"), "N*m"), ("640 N/mm2", "Megapascal", Q(640, "N/mm^2"), "MPa"),
    ("-5 mV/K", "VoltPerKelvin", Q(-5, "mV/delta_degC"), "V/delta_degC"),
]
print(f"# pint {pint.__version__}")
print("typed;unit;value")
for typed, unit, quantity, to in ROWS:
    print(f"{typed};{unit};{float(quantity.to(to).magnitude):.12g}")
