"""Sun on tilted panels under a clear sky, month by month, by pvlib.

    python -m venv venv && venv/bin/pip install pvlib==0.16.1
    venv/bin/python sun_tilted.py > ../data/sun_tilted.csv

The 15th of each month of 2025 at three latitudes, longitude 0, sea level, by one-minute steps: kWh/m² of the day
on a panel by Haurwitz' clear sky parted into beam and diffuse by Erbs, diffuse as bright from all of the sky, a
quarter of what falls on the ground thrown back; and, as another model, by Ineichen's own beam and diffuse
with Linke turbidity 3 and the sky of Hay and Davies. Tilt from the level and the direction it faces by the compass.
"""
import pandas as pd
import pvlib

print(f"# pvlib {pvlib.__version__}, longitude 0, sea level, the 15th of each month of 2025")
print("latitude,tilt,faces,month,day_of_year,haurwitz_erbs_h,ineichen_hay_davies_h")
for latitude in (-34.0, 28.0, 51.5):
    equator = 0.0 if latitude < 0 else 180.0
    for tilt, faces in ((20.0, equator), (50.0, equator), (90.0, equator), (35.0, 90.0)):
        for month in range(1, 13):
            day = pd.Timestamp(year=2025, month=month, day=15, tz="UTC")
            t = pd.date_range(day, periods=1440, freq="1min") + pd.Timedelta("30s")
            sun = pvlib.solarposition.get_solarposition(t, latitude, 0.0, 0.0)
            extra = pvlib.irradiance.get_extra_radiation(t)
            ghi = pvlib.clearsky.haurwitz(sun["apparent_zenith"])["ghi"]
            parted = pvlib.irradiance.erbs(ghi, sun["zenith"], t)
            on = pvlib.irradiance.get_total_irradiance(
                tilt, faces, sun["apparent_zenith"], sun["azimuth"], parted["dni"], ghi, parted["dhi"],
                albedo=0.25, model="isotropic")["poa_global"]
            mass = pvlib.atmosphere.get_absolute_airmass(
                pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"]))
            sky = pvlib.clearsky.ineichen(
                sun["apparent_zenith"], mass, linke_turbidity=3.0, altitude=0.0, dni_extra=extra)
            other = pvlib.irradiance.get_total_irradiance(
                tilt, faces, sun["apparent_zenith"], sun["azimuth"], sky["dni"], sky["ghi"], sky["dhi"],
                dni_extra=extra, albedo=0.25, model="haydavies")["poa_global"]
            of = [float(g.fillna(0).sum()) / 60 / 1000 for g in (on, other)]
            print(f"{latitude},{tilt},{faces},{month},{day.day_of_year},{of[0]:.4f},{of[1]:.4f}")
