//! Results of a day's energy: of the plan, of each load.

use super::fact::{Many, facts, many};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::budget::load::LoadBudget;
use crate::quantity::*;

facts! { Budget, "budget", "a day's energy", |_, _| Subject::Budget;
    CHARGE: AmpHours = "charge_ah", "Charge a day", "all of it a day, standing draws included", |b, _| b.charge, "charge a day";
    ENERGY: WattHours = "energy_wh", "Energy a day", "the same as energy", |b, _| b.energy, "energy a day";
    BY_DAY: AmpHours = "by_day_ah", "By day", "from 06:00 to 18:00", |b, _| b.by_day, "charge by day";
    BY_NIGHT: AmpHours = "by_night_ah", "By night", "the rest of the day", |b, _| b.by_night, "charge by night";
    DRIVING: AmpHours = "driving_ah", "While driving", "while driving", |b, _| b.driving, "charge while driving";
    PARKED: AmpHours = "parked_ah", "While parked", "while parked", |b, _| b.parked, "charge while parked";
    STANDING: AmpHours = "standing_ah", "Standing draws", "standing draws a day", |b, _| b.standing, "standing";
    INVERTER_IDLE: AmpHours = "inverter_idle_ah", "Inverter idle", "idle draw of the inverter a day", |b, _| b.inverter_idle, "inverter idle";
    HEATER_USUAL: AmpHours = "heater_usual_ah", "Heater on a usual day", "its pad on a day as warm as the mean; 0 where it has none", |b, _| b.heater_usual;
    HEATER: AmpHours = "heater_ah", "Battery's heater", "its pad on a day as cold as any; 0 where it has none", |b, _| b.heater, "heater";
    PEAK: Amps = "peak_a", "All that can be on", "all that can be on together", |b, _| b.peak, "peak current";
    SURGE: Amps = "surge_a", "Worst start on top", "the worst start on top of the rest", |b, _| b.surge, "surge current";
    SURGE_LOAD: Option<String> = "surge_load", "Whose start", "whose start that is; null when no load has one", |b, at| at.site.loads.get(b.surge_load?).map(|l| l.name.clone());
    USUAL: Amps = "usual_a", "Usual current", "mean while parked, by night or by day, whichever is more", |b, _| b.usual, "usual current";
    LIGHT: Amps = "light_a", "Least that flows", "the least that flows", |b, _| b.light, "light current";
    SUMMER_DAY: AmpHours = "summer_day_ah", "Warmest month", "a day at the mean air of the warmest month", |b, _| b.summer_day, "charge of a summer day";
    HOT_DAY: AmpHours = "hot_day_ah", "Hottest day", "the hottest day", |b, _| b.hot_day, "charge of a hot day";
    LOADS: Many<LoadBudget> = "loads", "Loads", "one for each load, in the plan's order", |b, at| many(&b.loads, at);
}

facts! { LoadBudget, "load-budget", "a day of one load", |_, at| Subject::Load(at.index);
    NAME: Option<String> = "name", "Load", "the load", |_, at| at.site.loads.get(at.index).map(|l| l.name.clone());
    HOURS: Hours = "hours_h", "On", "hours a day switched on", |b, _| b.hours, "hours";
    SHARE: Share = "share_on", "Mean duty", "share of that time it draws, at the mean air", |b, _| b.share, "share";
    RUNNING: Amps = "running_a", "Running", "current while it draws, at 12 V", |b, _| b.running, "running current";
    STARTING: Amps = "starting_a", "Start", "highest current at its start", |b, _| b.starting, "start current";
    CHARGE: AmpHours = "charge_ah", "Charge", "a day", |b, _| b.charge, "charge a day";
    ENERGY: WattHours = "energy_wh", "Energy", "a day", |b, _| b.energy, "energy a day";
    BY_NIGHT: AmpHours = "by_night_ah", "By night", "of it by night", |b, _| b.by_night, "charge by night";
    DRIVING: AmpHours = "driving_ah", "Driving", "of it while driving", |b, _| b.driving, "charge while driving";
}
