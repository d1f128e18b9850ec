"""Sun on the level under a clear sky, month by month and hour by hour, by pvlib.

    python -m venv venv && venv/bin/pip install pvlib==0.16.1
    venv/bin/python sun_months.py > ../data/sun_months.csv

The 15th of each month of 2025 at five latitudes, longitude 0, sea level, by
one-minute steps: kWh/m² of the day by Haurwitz and by Ineichen with Linke
turbidity 3. Then cosines of the zenith angle (NREL SPA) at whole hours of solar
time, which is the clock moved by the equation of time.
"""
import numpy as np
import pandas as pd
import pvlib

print(f"# pvlib {pvlib.__version__}, longitude 0, sea level, the 15th of each month of 2025")
print("latitude,month,day_of_year,haurwitz_h,ineichen_tl3_h")
LATITUDES = (-34.0, 28.0, 40.0, 51.5, 60.0)
for latitude in LATITUDES:
    for month in range(1, 13):
        day = pd.Timestamp(year=2025, month=month, day=15, tz="UTC")
        t = pd.date_range(day, periods=1440, freq="1min") + pd.Timedelta("30s")
        sun = pvlib.solarposition.get_solarposition(t, latitude, 0.0, 0.0)
        haurwitz = pvlib.clearsky.haurwitz(sun["apparent_zenith"])["ghi"]
        mass = pvlib.atmosphere.get_absolute_airmass(pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"]))
        extra = pvlib.irradiance.get_extra_radiation(t)
        ineichen = pvlib.clearsky.ineichen(
            sun["apparent_zenith"], mass, linke_turbidity=3.0, altitude=0.0, dni_extra=extra)["ghi"]
        of = [float(g.fillna(0).sum()) / 60 / 1000 for g in (haurwitz, ineichen)]
        print(f"{latitude},{month},{day.day_of_year},{of[0]:.4f},{of[1]:.4f}")
print("latitude,month,day_of_year,solar_hour,cos_zenith")
for latitude in LATITUDES:
    for month in (3, 6, 9, 12):
        day = pd.Timestamp(year=2025, month=month, day=21, tz="UTC")
        for hour in (8, 12, 15):
            noon = pvlib.solarposition.get_solarposition(
                pd.DatetimeIndex([day + pd.Timedelta(hours=hour)]), latitude, 0.0, 0.0)
            moved = pd.Timedelta(minutes=float(noon["equation_of_time"].iloc[0]))
            at = pd.DatetimeIndex([day + pd.Timedelta(hours=hour) - moved])
            zenith = pvlib.solarposition.get_solarposition(at, latitude, 0.0, 0.0)["zenith"].iloc[0]
            print(f"{latitude},{month},{day.day_of_year},{hour},{np.cos(np.radians(zenith)):.6f}")
