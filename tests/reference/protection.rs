//! Fuse choice, place and let-through against published rules and worked examples; the gate logic on
//! gates that were read. Gates from memory are tested nowhere.

use crate::catalogue::shipped;
use crate::check::{Data, Section, by_hand, check, check_at_least, check_at_most, independent};
use crate::program::{
    FindingKind, FuseLimits, FuseNeed, RATED_AIR, Starts, at_least, cable_stands, design, earliest, lasts, latest,
    opens_from,
};
use loomwright::catalogue::{Catalogue, FuseStyle, Gate, Layer};
use loomwright::plan::{Plan, Run, point};
use loomwright::quantity::*;

crate::tests![
    largest_fuse_by_33_cfr_183_455,
    least_rating_for_a_steady_current,
    wire_and_protector_of_ac_43_13_1b,
    distance_by_33_cfr_183_455,
    adiabatic_limit_of_iec_60364,
    starts_as_pulses,
    gate_logic_on_gates_that_were_read,
    a_slow_link_rides_through_what_its_gates_promise,
];

fn data() -> Data {
    Data::new(include_str!("data/protection.toml"))
}

fn need(steady: f64, loading: f64, ampacity: f64) -> FuseNeed {
    FuseNeed {
        loading: Share::new(loading),
        air: RATED_AIR,
        steady: Amps::new(steady),
        ampacity: Amps::new(ampacity),
        circuit: Volts::new(14.4),
        ..FuseNeed::default()
    }
}

/// Ampacity of an AWG size by the table of 33 CFR 183.425.
fn ampacity(catalogue: &Catalogue, awg: &str, column: f64) -> f64 {
    let at = catalogue.ampacity.columns_c.iter().position(|c| c.get() == column).unwrap();
    catalogue.ampacity.row.iter().find(|r| r.awg == awg).unwrap().amps[at].get()
}

/// With the share that the law allows instead of the stricter one of the catalogue.
fn largest_fuse_by_33_cfr_183_455() {
    let (data, shipped) = (data(), shipped());
    let law = data.table("largest");
    let own = format!(
        "[[number]]\nkey = \"ampacity-fuse-share\"\nvalue = {}\nabout = \"by law\"\nhow = \"opened\"\nsource = \"33 CFR 183.455\"\n",
        law.number("share")
    );
    let layer = Layer { origin: "law".into(), files: vec![("rules.toml".into(), own)] };
    let catalogue = Catalogue::with_layers(&[layer]).unwrap();
    for ((awg, column), fuse) in law.texts("awg").into_iter().zip(law.numbers("column_c")).zip(law.numbers("fuse_a")) {
        let carries = ampacity(&catalogue, awg, column);
        let choice = FuseLimits::of(&catalogue).first(None, &need(1.0, 0.8, carries)).unwrap();
        check(
            by_hand(law.source()),
            &format!("largest fuse, {awg} AWG, {column} °C"),
            fuse,
            choice.at_most.get(),
            1e-9,
        );
        let strict = FuseLimits::of(&shipped).first(None, &need(1.0, 0.8, carries)).unwrap();
        check_at_most(by_hand(law.source()), &format!("{awg} AWG, as shipped"), fuse, strict.at_most.get());
    }
}

/// 10 A normal current by 125 % and 150 %, 7.5 A by 75 %: least ratings, and the standard one above.
fn least_rating_for_a_steady_current() {
    let (data, catalogue) = (data(), shipped());
    let style = catalogue.fuse_style("blade-c").unwrap();
    let (navy, room) = (data.table("navy"), data.table("room"));
    for (share, fuse) in [("overload_share", "overload_a"), ("shorts_share", "shorts_a")] {
        let got = at_least(style, &need(navy.number("normal_a"), 1.0 / navy.number(share), 100.0)).value;
        check(independent(navy.source()), fuse, navy.number(fuse), got.get(), 1e-9);
    }
    let choice =
        FuseLimits::of(&catalogue).first(None, &need(room.number("load_a"), room.number("share"), 100.0)).unwrap();
    check(independent(room.source()), "fuse", room.number("fuse_a"), choice.rating.get(), 0.0);
}

/// Each pair of wire and fuse of the table is allowed here too, on the coolest insulation (60 °C).
fn wire_and_protector_of_ac_43_13_1b() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("aircraft");
    for (awg, fuse) in table.texts("awg").into_iter().zip(table.numbers("fuse_a")) {
        let carries = ampacity(&catalogue, awg, 60.0);
        let choice = FuseLimits::of(&catalogue).first(None, &need(1.0, 0.8, carries)).unwrap();
        let what = format!("{awg} AWG takes {fuse} A");
        check_at_least(independent(table.source()), &what, fuse, choice.at_most.get());
        // And a load that needs just that fuse gets no bigger one than the wire carries.
        if let Some(choice) = FuseLimits::of(&catalogue).first(None, &need(fuse * 0.8, 0.8, carries)) {
            assert!(choice.rating.get() >= fuse && choice.rating.get() <= carries, "{awg} AWG: {}", choice.rating);
        }
    }
}

/// A fuse just within and just beyond 7 in and 40 in, or 180 and 500 mm by ISO 13590; the metric figures of the rule are rounded down by under 1 mm.
fn distance_by_33_cfr_183_455() {
    let (data, catalogue) = (data(), shipped());
    let (rule, iso) = (data.table("distance"), data.table("distance_iso13590"));
    let far = |placement: &str, place: &str, metres: f64| {
        let run = Run {
            from: point::SERVICE_BATTERY.into(),
            to: "lamp".into(),
            surroundings: place.into(),
            fuse_distance: Metres::new(metres),
            size: Some("6 mm²".into()),
            ..Run::default()
        };
        let mut plan = Plan { runs: vec![run], ..Plan::default() };
        plan.rules.placement = Some(placement.into());
        design(&plan, &catalogue).findings.iter().any(|f| f.kind == FindingKind::FuseFar)
    };
    for (placement, place, metres) in [
        ("33-cfr-183-455", "cabin", rule.number("bare_in") * 0.0254),
        ("33-cfr-183-455", "conduit", rule.number("enclosed_in") * 0.0254),
        ("iso-13590", "cabin", iso.number("bare_mm") / 1000.0),
        ("iso-13590", "conduit", iso.number("enclosed_mm") / 1000.0),
    ] {
        assert!(!far(placement, place, metres - 0.0012), "{placement}, {place}, {metres} m");
        assert!(far(placement, place, metres + 0.0012), "{placement}, {place}, {metres} m");
    }
}

fn adiabatic_limit_of_iec_60364() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("adiabatic");
    let (mm2, limit) = (table.numbers("mm2"), table.numbers("mega_a2s"));
    for (i, key) in table.texts("insulation").into_iter().enumerate() {
        let ours = catalogue.insulation(key).unwrap().adiabatic_k;
        let got = cable_stands(ours, SquareMillimetres::new(mm2[i])).get() / 1e6;
        let allowed = limit[i] * table.numbers("tolerance")[i];
        check(independent(table.source()), &format!("{key}, {} mm²", mm2[i]), limit[i], got, allowed);
    }
    let table = data.table("withstand");
    for (i, (amps, seconds)) in table.pairs("amps", "seconds").into_iter().enumerate() {
        let stands = AmpsSquaredSeconds::new(table.numbers("mega_a2s")[i] * 1e6);
        let got = lasts(stands, Amps::new(amps)).get();
        check(by_hand(table.source()), &format!("{amps} A"), seconds, got, 0.001 * seconds);
    }
}

/// A start that comes again and again may use so much of a link's time to open as the shipped share says: half a
/// sine of 100 A and 10 ms, 50 A²s, asks for a link that melts at 227 A²s.
fn starts_as_pulses() {
    let (data, catalogue) = (data(), shipped());
    let rule = data.table("pulse");
    let melts = rule.number("half_sine_a2s") / catalogue.rules.start_pulse.value.get();
    check(by_hand(rule.source()), "A²s that melt it", rule.number("melting_a2s"), melts, 0.5);
}

fn gates(section: Section) -> Vec<Gate> {
    let text = |key: &str| section.numbers(key);
    let (percent, max) = (text("percent"), text("max_s"));
    let min = if percent.len() == 3 { text("min_s") } else { vec![0.0; percent.len()] };
    let gate = |i: usize| Gate {
        of_rating: percent[i] / 100.0,
        min: Seconds::new(min[i]),
        max: max[i].is_finite().then(|| Seconds::new(max[i])),
    };
    (0..percent.len()).map(gate).collect()
}

/// The gates are met at their own multiples, and between them the worse end counts.
fn gate_logic_on_gates_that_were_read() {
    let data = data();
    for name in ["ul248_14", "slow"] {
        let section = data.table(name);
        let gates = gates(section);
        for gate in &gates {
            assert_eq!(earliest(&gates, gate.of_rating), gate.min, "{}", section.source());
            assert_eq!(latest(&gates, gate.of_rating), gate.max, "{}", section.source());
        }
        for pair in gates.windows(2) {
            let between = (pair[0].of_rating + pair[1].of_rating) / 2.0;
            assert_eq!(earliest(&gates, between), pair[1].min, "{}", section.source());
            assert_eq!(latest(&gates, between), pair[0].max, "{}", section.source());
        }
        let last = gates.last().unwrap();
        assert_eq!(latest(&gates, 20.0), last.max, "{}", section.source());
        assert_eq!(earliest(&gates, 20.0), Seconds::ZERO, "{}", section.source());
        let surely = opens_from(&gates, last.max.unwrap()).unwrap();
        assert_eq!(surely, last.of_rating, "{}", section.source());
    }
}

/// A start of 108 % for 20 min: within 22 % of 4 h, so the slow link rides through it; at 120 % nothing is promised.
fn a_slow_link_rides_through_what_its_gates_promise() {
    let (data, shipped) = (data(), shipped());
    let mut catalogue = shipped.clone();
    let slow = FuseStyle { gates: gates(data.table("slow")), ..shipped.fuse_style("blade-c").unwrap().clone() };
    catalogue.fuse_styles = vec![slow];
    let start = |percent: f64, seconds: f64| FuseNeed {
        starts: Starts::one(Amps::new(10.0 * percent / 100.0), Seconds::new(seconds)),
        ..need(8.0, 0.8, 10.0)
    };
    assert_eq!(FuseLimits::of(&catalogue).first(None, &start(108.0, 1200.0)).unwrap().rating.get(), 10.0);
    assert!(FuseLimits::of(&catalogue).first(None, &start(108.0, 0.25 * 14_400.0)).is_none());
    assert!(FuseLimits::of(&catalogue).first(None, &start(120.0, 1.0)).is_none());
}
