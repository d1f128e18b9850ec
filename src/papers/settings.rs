//! What is set on each device before it is switched on?

use super::document::Table;
use super::facts::Columns;
use super::job::Job;
use crate::catalogue::Chemistry;
use crate::plan::{ChargerKind, CutOffBy};
use crate::quantity::{Amps, Figure, Volts, Watts};

/// One setting.
struct Setting {
    device: &'static str,
    what: &'static str,
    planned: String,
}

/// Every setting of every device, with room for what was found and set.
pub fn table(job: &Job) -> Table {
    let mut all = cut_off(job);
    let bank = job.design.battery.bank.as_ref();
    let chemistry = bank.and_then(|b| job.catalogue.chemistry(&b.chemistry));
    all.extend(charger(job, chemistry));
    if job.plan.solar.array > Watts::ZERO {
        all.extend(chemistry.into_iter().flat_map(|c| charging("solar controller", c, c.charge.absorption)));
    }
    if job.plan.mains.current > Amps::ZERO {
        all.push(of("mains charger", "output current, at most", job.plan.mains.current.to_string()));
        all.extend(chemistry.into_iter().flat_map(|c| charging("mains charger", c, c.charge.absorption)));
    }
    if job.plan.inverter.rating > Watts::ZERO {
        all.push(of("inverter", "switches itself off below", job.plan.inverter.own_cut.to_string()));
        all.push(of("inverter", "mains voltage and frequency", "those of what is plugged in".into()));
    }
    Columns::new()
        .text("device", "Device", |s: &Setting| s.device)
        .text("what", "Setting", |s| s.what)
        .text("planned", "Planned", |s| &s.planned)
        .blank("found", "Set to")
        .list("settings", "", &all)
}

fn of(device: &'static str, what: &'static str, planned: String) -> Setting {
    Setting { device, what, planned }
}

fn cut_off(job: &Job) -> Vec<Setting> {
    let set = &job.design.cut_off;
    if set.cut == Volts::ZERO {
        return Vec::new();
    }
    let mut all = vec![of("cut-off", "opens at", set.opens()), of("cut-off", "closes at", set.closes())];
    if let (Some(counter), Some(bank)) = (set.counter, &job.design.battery.bank) {
        all.push(of("counter", "capacity", (bank.capacity * counter.counts_on.get()).to_string()));
        let full = format!("{} and little current for minutes", job.design.charger.output);
        all.push(of("counter", "takes the battery for full at", full));
    }
    if job.plan.cut_off.acts_by == CutOffBy::Signal {
        all.push(of("cut-off", "its remote wire goes to", "the battery's own output".into()));
        return all;
    }
    all.push(of("cut-off", "delay", set.delay.to_string()));
    all.push(of("cut-off", "its sensing wire goes to", job.plan.cut_off.senses_at.clone()));
    all
}

fn charger(job: &Job, chemistry: Option<&Chemistry>) -> Vec<Setting> {
    const DEVICE: &str = "charger";
    let (planned, design) = (&job.plan.charger, &job.design.charger);
    let Some(current) = design.current else { return Vec::new() };
    let mut all = Vec::new();
    if planned.kind == ChargerKind::DcDc {
        all.push(of(DEVICE, "output current, at most", current.to_string()));
        all.extend(chemistry.into_iter().flat_map(|c| charging(DEVICE, c, design.output)));
        all.push(of(DEVICE, "stops when its input is below", design.lowest_input.to_string()));
    }
    if planned.enable_signal {
        all.push(of(DEVICE, "starts by", "its enable wire, live only while the engine runs".into()));
    } else {
        all.push(of(DEVICE, "starts by its input above", planned.engages_at.to_string()));
        all.push(of(DEVICE, "lets go below", planned.releases_at.to_string()));
    }
    all
}

/// What every charger is told about the battery.
fn charging(device: &'static str, chemistry: &Chemistry, output: Volts) -> Vec<Setting> {
    let charge = &chemistry.charge;
    let mut all = vec![
        of(device, "kind of battery", chemistry.name.clone()),
        of(device, "charge voltage", format!("{output}, never above {}", charge.max)),
        of(device, "then holds at", charge.float.to_string()),
        of(device, "equalising", "off, unless the battery's sheet asks for it".into()),
        of(device, "charges only in", format!("{} to {}", chemistry.limits.charge_min, chemistry.limits.charge_max)),
    ];
    all.push(if charge.v_per_k < 0.0 {
        let slope = Figure::number(charge.v_per_k * 1000.0);
        of(device, "by temperature", format!("{slope} mV/K from 25 °C, its probe on the battery"))
    } else {
        of(device, "by temperature", "off".into())
    });
    all
}
