//! The carrier as a whole: findings raised and not, and no figure that is not finite.

use crate::catalogue::Catalogue;
use crate::engine::choose::hold_down::*;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Workings;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::hold_down as judge;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Locking, Plan, Stud};
use crate::quantity::*;

fn mm(number: f64) -> Millimetres {
    Millimetres::new(number)
}

/// A 30 kg block in a sound tray.
fn tray() -> Plan {
    let mut plan = Plan::default();
    plan.service_battery.mass = Some(Kilograms::new(22.0));
    let carrier = &mut plan.hold_down;
    carrier.style = HoldDownStyle::Tray;
    carrier.battery_length = Some(mm(330.0));
    carrier.battery_width = Some(mm(172.0));
    carrier.battery_height = Some(mm(220.0));
    carrier.locking = Locking::DoubleNut;
    carrier.stud = Some("M8".into());
    carrier.studs_along = Some(2);
    (carrier.thickness, carrier.bend_radius, carrier.strip_width) = (Some(mm(4.0)), Some(mm(6.0)), Some(mm(40.0)));
    (carrier.strap_leg, carrier.strap_thickness, carrier.weld_length) = (Some(mm(40.0)), Some(mm(4.0)), Some(mm(80.0)));
    (carrier.spreader, carrier.spreader_thickness) = (Some(mm(80.0)), Some(mm(6.0)));
    plan
}

fn basket() -> Plan {
    let mut plan = tray();
    plan.hold_down.style = HoldDownStyle::StripBasket;
    plan
}

fn designed(plan: &Plan) -> (CarrierDesign, Vec<Finding>, Workings) {
    let mut notes = Notes::kept();
    let site = Installation::of(plan, &Catalogue::embedded().unwrap());
    let design = carrier(&site, None, (&ChargerDesign::default(), &CutOffDesign::default()), &mut notes).unwrap();
    let findings = judge::check(&site, &design);
    (design, findings, notes.into_workings())
}

#[track_caller]
fn check(kind: Kind, change: impl FnOnce(&mut Plan), mut plan: Plan) {
    let raised = |plan: &Plan| designed(plan).1.into_iter().find(|f| f.kind == kind);
    assert!(raised(&plan).is_none(), "{kind:?} raised before the change");
    change(&mut plan);
    let finding = raised(&plan).unwrap_or_else(|| panic!("{kind:?} not raised; only {:?}", designed(&plan).1));
    assert!(!finding.rule.is_empty() && finding.place.is_some(), "{finding:?}");
    assert!(!finding.remedies.is_empty(), "{finding:?}");
}

#[test]
fn each_finding_has_a_plan_that_raises_it_and_one_that_does_not() {
    check(Kind::CarrierNoMass, |p| p.service_battery.mass = None, tray());
    check(Kind::CarrierNoSize, |p| p.hold_down.battery_height = None, tray());
    check(Kind::CarrierTight, |p| p.hold_down.length = Some(mm(325.0)), tray());
    check(Kind::CarrierTight, |p| p.hold_down.width = Some(mm(174.0)), tray());
    check(Kind::CarrierLoose, |p| p.hold_down.width = Some(mm(210.0)), tray());
    check(Kind::HeightShort, |p| p.hold_down.free_height = Some(mm(200.0)), tray());
    check(Kind::BendShort, |p| p.hold_down.rim = mm(5.0), tray());
    check(Kind::BendTight, |p| p.hold_down.bend_radius = Some(mm(2.0)), tray());
    check(Kind::StudPattern, |p| p.hold_down.studs_along = Some(1), tray());
    check(Kind::StudPattern, |p| p.studs = vec![Stud::default()], tray());
    check(Kind::StudWeak, |p| p.service_battery.mass = Some(Kilograms::new(400.0)), tray());
    check(
        Kind::StripWeak,
        |p| (p.hold_down.thickness, p.hold_down.strip_width) = (Some(mm(0.5)), Some(mm(12.0))),
        basket(),
    );
    check(Kind::HoldDownWeak, |p| p.hold_down.rods = 0, tray());
    check(
        Kind::HoldDownWeak,
        |p| (p.hold_down.rod, p.service_battery.mass) = (Some("M6".into()), Some(Kilograms::new(600.0))),
        tray(),
    );
    check(Kind::TorqueHigh, |p| p.hold_down.torque = Some(NewtonMetres::new(60.0)), tray());
    check(Kind::TorqueLow, |p| p.hold_down.torque = Some(NewtonMetres::new(1.0)), tray());
    check(Kind::CarrierSlips, |p| p.hold_down.torque = Some(NewtonMetres::new(1.0)), tray());
    check(Kind::NutUnlocked, |p| p.hold_down.locking = Locking::None, tray());
    check(Kind::Lifting, |p| p.service_battery.mass = Some(Kilograms::new(31.0)), tray());
}

#[test]
fn remedies_that_edit_really_mend() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut plan = tray();
    plan.service_battery.mass = Some(Kilograms::new(60.0));
    plan.hold_down.stud = Some("M6".into());
    plan.hold_down.stud_class = "4.6".into();
    let before = designed(&plan).1;
    let weak = before.iter().find(|f| f.kind == Kind::StudWeak).unwrap();
    let Edit { place, value } = weak.remedies.iter().find_map(|r| r.edits.first().cloned()).unwrap();
    assert_eq!(place.key, "stud");
    let Some(crate::plan::Value::Text(size)) = value else { panic!("no size") };
    assert!(catalogue.stud(&size).is_some());
    plan.hold_down.stud = Some(size);
    let after = designed(&plan).1;
    assert!(!after.iter().any(|f| f.kind == Kind::StudWeak), "{:?}", after);
}

/// The battery that is just carried is used to 100 %.
#[test]
fn largest_mass_is_what_uses_the_studs_up() {
    for plan in [tray(), basket()] {
        let mut plan = plan;
        let largest = designed(&plan).0.strength.unwrap().largest_mass;
        plan.service_battery.mass = Some(largest);
        let used = designed(&plan).0.strength.unwrap().utilisation;
        assert!((used.get() - 1.0).abs() < 1e-9, "{used}");
    }
}

/// Heavier never helps, and a wider pattern never pulls more.
#[test]
fn trends_hold() {
    let use_of = |p: &Plan| designed(p).0.strength.unwrap().utilisation;
    let mut plan = basket();
    let mut last = Share::ZERO;
    for mass in [5.0, 20.0, 40.0, 80.0] {
        plan.service_battery.mass = Some(Kilograms::new(mass));
        assert!(use_of(&plan) > last);
        last = use_of(&plan);
    }
    last = Share::new(f64::INFINITY);
    for spacing in [100.0, 200.0, 400.0, 800.0] {
        plan.hold_down.spacing_along = Some(mm(spacing));
        assert!(use_of(&plan) <= last + Share::new(1e-12), "{spacing}");
        last = use_of(&plan);
    }
}

/// Corner values of every field: nothing that is not finite, whatever is in range.
#[test]
fn extreme_plans_stay_finite() {
    let lengths = [50.0, 3000.0];
    for style in [HoldDownStyle::Tray, HoldDownStyle::StripBasket, HoldDownStyle::Cabinet] {
        for (length, t, r, strip) in lengths.iter().flat_map(|l| {
            [(*l, 0.5, 0.1, 10.0), (*l, 20.0, 100.0, 300.0), (*l, 20.0, 0.1, 10.0), (*l, 0.5, 100.0, 10.0)]
        }) {
            let mut plan = tray();
            plan.hold_down.style = style;
            (plan.hold_down.length, plan.hold_down.width) = (Some(mm(length)), Some(mm(length)));
            (plan.hold_down.thickness, plan.hold_down.bend_radius, plan.hold_down.strip_width) =
                (Some(mm(t)), Some(mm(r)), Some(mm(strip)));
            plan.hold_down.centre = Some(mm(2000.0));
            plan.hold_down.offset_along = mm(-2000.0);
            plan.hold_down.studs_along = Some(1);
            plan.hold_down.studs_across = if t > 1.0 { 12 } else { 1 };
            let (design, findings, workings) = designed(&plan);
            let strength = design.strength.unwrap();
            let figures = [strength.safety, strength.slip_margin, strength.gap_margin, strength.utilisation.get()];
            assert!(figures.iter().all(|f| f.is_finite()), "{strength:?}");
            assert!(strength.largest_mass.is_finite() && design.torque.preload.is_finite());
            for (topic, working) in workings.iter() {
                assert!(working.result.value.is_finite(), "{topic:?}");
            }
            assert!(findings.iter().all(|f| !f.text.contains('–')), "{:?}", findings);
        }
    }
}

#[test]
fn no_carrier_no_design() {
    let mut notes = Notes::kept();
    let site = Installation::of(&Plan::default(), &Catalogue::embedded().unwrap());
    let parts = (&ChargerDesign::default(), &CutOffDesign::default());
    assert_eq!(carrier(&site, None, parts, &mut notes), None);
    assert!(notes.workings().unwrap().of(&Subject::Carrier).next().is_none());
}

/// Nothing given but the battery: the sizes chosen hold, none of a step less does, and `w` says so.
#[test]
fn the_lightest_stock_sizes_that_hold_are_chosen() {
    let catalogue = Catalogue::embedded().unwrap();
    for (style, mass, deck) in [
        (HoldDownStyle::Tray, 25.0, crate::plan::Deck::SteelSheet),
        (HoldDownStyle::Tray, 50.0, crate::plan::Deck::Plywood),
        (HoldDownStyle::Cabinet, 30.0, crate::plan::Deck::Plywood),
        (HoldDownStyle::StripBasket, 25.0, crate::plan::Deck::SteelSheet),
    ] {
        let mut plan = Plan::default();
        plan.service_battery.mass = Some(Kilograms::new(mass));
        let carrier = &mut plan.hold_down;
        (carrier.style, carrier.deck, carrier.rods) = (style, deck, 4);
        carrier.shock = "heavy-vehicle-crash".into();
        (carrier.battery_length, carrier.battery_width) = (Some(mm(330.0)), Some(mm(172.0)));
        (carrier.battery_height, carrier.deck_thickness) = (Some(mm(220.0)), mm(18.0));
        let (design, findings, workings) = designed(&plan);
        assert!(!findings.iter().any(|f| f.kind == Kind::LinkWeak), "{style:?}: {findings:?}");
        let stock = |key: &str| catalogue.stock(key).unwrap().sizes.clone();
        let thin = stock(if style == HoldDownStyle::StripBasket { "strip-thickness" } else { "sheet-thickness" });
        let at = thin.iter().position(|t| *t == design.sizes.thickness).expect("a stock size");
        let working = workings.get(&Subject::Carrier, "thickness").unwrap();
        assert!(working.notes.iter().any(|n| n.starts_with(&design.sizes.thickness.to_string())), "{working:?}");
        if at > 0 {
            // A step thinner, all else left to choose: it must come out heavier, or not hold.
            plan.hold_down.thickness = Some(thin[at - 1]);
            let (thinner, findings, _) = designed(&plan);
            let heavier = thinner.shape.unwrap().steel_mass >= design.shape.as_ref().unwrap().steel_mass;
            assert!(heavier || findings.iter().any(|f| f.kind == Kind::LinkWeak), "{style:?}");
        }
    }
}
