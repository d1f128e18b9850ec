//! Voltage, charge and cut-off against handbooks.

use crate::catalogue::shipped;
use crate::check::{Data, Source, by_hand, check, check_between, independent, typed_twice};
use crate::program::{Age, CutOffQuestion, Store, TABLE_AIR, cut_off_question, resting_charge, resting_voltage};
use loomwright::quantity::*;

crate::tests![
    voltage_tells_charge,
    loaded_cut_off_from_a_resting_target,
    cut_offs_lie_between_the_stated_ones,
    a_lithium_cut_off_keeps_what_it_says_by_two_measured_cells,
];

const ARMY_AGM: Source = independent("US Army TM 9-6115-730-24, AGM, full after 3 to 8 h of rest");
const FIELD_GUIDE: Source = independent("SIL Power, choosing a low-voltage disconnect");

fn voltage_tells_charge() {
    let catalogue = shipped();
    let flooded = catalogue.chemistry("flooded").unwrap();
    // Field guide: rested at 12.2 V half is left, at 12.35 V two thirds.
    for (volts, percent) in [(12.2, 50.0), (12.35, 67.0)] {
        let got = resting_charge(flooded, Volts::new(volts), TABLE_AIR).get() * 100.0;
        check(FIELD_GUIDE, &format!("charge at {volts} V, %"), percent, got, 5.0);
    }
    let agm = catalogue.chemistry("agm").unwrap();
    let full = resting_voltage(agm, Share::FULL, TABLE_AIR).get();
    check_between(ARMY_AGM, "full AGM, V", 12.8, 13.0, full);
    for (depth, volts) in [(0.5, 12.2), (0.33, 12.35)] {
        let got = resting_voltage(flooded, Share::new(1.0 - depth), TABLE_AIR).get();
        check(FIELD_GUIDE, &format!("resting at {depth} depth, V"), volts, got, 0.1);
    }
}

/// 12.2 V at rest, 5 mΩ inside, 20 A: 12.10 V at the posts.
fn loaded_cut_off_from_a_resting_target() {
    let catalogue = shipped();
    let flooded = catalogue.chemistry("flooded").unwrap();
    let store = Store::new(flooded, AmpHours::new(100.0), Some(Milliohms::new(5.0)));
    let posts = store.under_load(Share::new(0.5), Amps::new(20.0), TABLE_AIR, Age::New);
    check(by_hand("V - I R"), "posts, V", 12.10, posts.get(), 0.01);
}

/// Stated cut-offs of lead-acid under load lie from 10.5 V (harm, US Army TM 9-6140-200-14) to the
/// resting 12.2 V at half charge (SIL Power), "about", which the loaded setting must not exceed by more than a step.
fn cut_offs_lie_between_the_stated_ones() {
    let catalogue = shipped();
    for key in ["flooded", "agm", "gel"] {
        let (capacity, current) = (AmpHours::new(100.0), Amps::new(10.0));
        let question = CutOffQuestion { chemistry: key.into(), capacity, current, ..Default::default() };
        let answer = cut_off_question(&catalogue, &question).unwrap();
        let out = answer.design;
        let stated = independent("US Army TM 9-6140-200-14; SIL Power, choosing a low-voltage disconnect: cut-offs");
        check_between(stated, key, 10.5, 12.3, out.cut.get());
        let heavy = out.at_currents[2].trips_at.unwrap();
        let light = out.at_currents[0].trips_at.unwrap_or(Share::ZERO);
        assert!(heavy > light, "{key}: a heavy current trips it sooner, {heavy} against {light}");
        assert!(out.reconnect > out.rebound && out.reconnect < out.charging, "{key}: {out:?}");
        assert!(answer.workings.iter().count() > 8);
    }
}

/// Rested after the cut a cell shows the setting plus current x resistance. By each of two measured cells, read by
/// straight lines between their points, the battery then holds what the answer says or up to 3 points more: at the
/// share that is kept when nothing is said, and at others up to where the two cells' plateaus part.
fn a_lithium_cut_off_keeps_what_it_says_by_two_measured_cells() {
    let (catalogue, data) = (shipped(), Data::new(include_str!("data/chemistries.toml")));
    let chemistry = catalogue.chemistry("lithium-iron-phosphate").unwrap();
    let (capacity, current) = (AmpHours::new(100.0), Amps::new(8.0));
    let table = &chemistry.resistance;
    let resistance = |charge: Share| table.working_mohm * table.by_soc.at(charge).unwrap().get();
    for reserve in
        [None, Some(0.05), Some(0.08), Some(0.1), Some(0.12), Some(0.15), Some(0.18), Some(0.2), Some(0.22), Some(0.25)]
    {
        let reserve = reserve.map(Share::new);
        let question = CutOffQuestion { chemistry: chemistry.key.clone(), capacity, current, reserve, ..Default::default() };
        let out = cut_off_question(&catalogue, &question).unwrap().design;
        let says = out.at_usual().unwrap().trips_at.unwrap();
        let wanted = reserve.unwrap_or(chemistry.low.reserve);
        // The nearest step, so up to 5 points may be missing.
        assert!(says.get() >= wanted.get() - 0.05, "{says} kept of {wanted}");
        let rests = out.cut.get() + current.get() * resistance(says) / 1000.0;
        for name in ["lfp_rest_bpx", "lfp_rest_c32"] {
            let table = data.table(name);
            let points = table.pairs("soc_pct", "v");
            let after = points.iter().position(|(_, v)| *v >= rests).unwrap();
            let ((x0, y0), (x1, y1)) = (points[after - 1], points[after]);
            let holds = x0 + (rests - y0) / (y1 - y0) * (x1 - x0);
            let says = says.get() * 100.0;
            let source = typed_twice(table.source());
            check_between(source, &format!("held after {wanted}, %"), says - 0.1, says + 3.0, holds);
        }
    }
}
