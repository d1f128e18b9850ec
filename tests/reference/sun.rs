//! The sun on a level roof against pvlib: whole days by month, single hours, and where the sun stands.

use crate::check::{Source, check, independent};
use crate::program::SunDay;
use crate::stored::tables;
use loomwright::quantity::*;

crate::tests![days_of_each_month, tilted_panels, where_the_sun_stands, longest_and_shortest_day, each_hour];

const HAURWITZ: Source = independent("pvlib 0.16.1, Haurwitz clear sky: days of twelve months at five latitudes");
const INEICHEN: Source = independent("pvlib 0.16.1, Ineichen, turbidity 3: days of twelve months at five latitudes");
const ERBS: Source = independent("pvlib 0.16.1, Haurwitz parted by Erbs: tilted panels at three latitudes");
const HAY_DAVIES: Source = independent("pvlib 0.16.1, Ineichen and Hay-Davies: tilted panels at three latitudes");
const ZENITH: Source = independent("pvlib 0.16.1, NREL SPA: cosine of the zenith angle");
const HOURS: Source = independent("pvlib 0.16.1, Haurwitz clear sky: hours of 21 June and 21 December at 40° N");
const HOURS_INEICHEN: Source =
    independent("pvlib 0.16.1, Ineichen, turbidity 3: hours of 21 June and 21 December at 40° N");

fn months() -> Vec<Vec<Vec<f64>>> {
    tables(include_str!("data/sun_months.csv"))
}

/// The 15th of each month. The series for the declination is that of a mean year, which moves the days of
/// spring and autumn by up to 0.12 h. The other model of a clear sky stays within 0.55 h.
fn days_of_each_month() {
    for row in &months()[0] {
        let [latitude, month, day, haurwitz, ineichen] = row[..] else { panic!("{row:?}") };
        let got = SunDay::new(day, Degrees::new(latitude)).clear_hours(1440).get();
        check(HAURWITZ, &format!("{latitude}°, month {month}, sun hours"), haurwitz, got, 0.12);
        check(INEICHEN, &format!("{latitude}°, month {month}, sun hours"), ineichen, got, 0.55);
    }
}

/// The 15th of each month at three latitudes, panels tilted to the equator and to the east. The other model takes
/// beam and diffuse by themselves and a sky that is brighter around the sun.
fn tilted_panels() {
    for row in &tables(include_str!("data/sun_tilted.csv"))[0] {
        let [latitude, tilt, faces, month, day, erbs, other] = row[..] else { panic!("{row:?}") };
        let sun = SunDay::new(day, Degrees::new(latitude)).tilted(Degrees::new(tilt), Degrees::new(faces));
        let got = sun.clear_hours(1440).get();
        let what = format!("{latitude}°, tilted {tilt}° to {faces}°, month {month}, sun hours");
        check(ERBS, &what, erbs, got, 0.15);
        check(HAY_DAVIES, &what, other, got, 1.0);
    }
}

fn where_the_sun_stands() {
    for row in &months()[1] {
        let [latitude, month, day, hour, expected] = row[..] else { panic!("{row:?}") };
        let got = SunDay::new(day, Degrees::new(latitude)).cos_zenith(hour);
        check(ZENITH, &format!("{latitude}°, 21st of month {month}, {hour} h"), expected, got, 0.01);
    }
}

fn longest_and_shortest_day() {
    for (day, haurwitz, ineichen) in [(172.0, 8.796, 8.434), (355.0, 2.426, 2.292)] {
        let got = SunDay::new(day, Degrees::new(40.0)).clear_hours(1440).get();
        check(HOURS, &format!("sun hours of day {day}"), haurwitz, got, 0.01 * haurwitz);
        check(HOURS_INEICHEN, &format!("sun hours of day {day}"), ineichen, got, 0.065 * ineichen);
    }
}

/// Each hour with sun of both days, as pvlib averaged it over minutes of UTC at longitude 0. Solar time runs
/// up to 2 minutes off UTC on these days, which is 9 W/m² where the sun climbs fastest; the other model of a
/// clear sky stays within 60 W/m².
fn each_hour() {
    let rows = tables(include_str!("data/solar_day.csv")).remove(0);
    assert_eq!(rows.len(), 24);
    for (column, day) in [(1, 172.0), (3, 355.0)] {
        let sun = SunDay::new(day, Degrees::new(40.0));
        for row in rows.iter().filter(|row| row[column] > 0.0) {
            let minutes = (0..60).map(|m| 1000.0 * sun.clear(row[0] + (f64::from(m) + 0.5) / 60.0));
            let got = minutes.sum::<f64>() / 60.0;
            let what = format!("day {day}, hour {}, W/m²", row[0]);
            check(HOURS, &what, row[column], got, 9.0);
            check(HOURS_INEICHEN, &what, row[column + 1], got, 60.0);
        }
    }
}
