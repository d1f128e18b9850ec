//! Sizes and devices chosen together against trying all of them, leads included, on small plans.
//!
//! Every combination is given in the plan and designed; the best by the declared order is what must have been chosen:
//! stops, cautions, ratings that rise away from their battery; then copper, with a fifth of a kilogram for each step to
//! a less plain style. The catalogue is cut down to a few sizes and ratings, so that all can be tried.

use crate::chains::{grave, harm, is_less};
use crate::generated_many::plans;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, FindingKind as Kind, Severity, design};
use loomwright::plan::{Plan, read};
use loomwright::quantity::Amps;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

const SIZES: [&str; 3] = ["2.5 mm²", "10 mm²", "35 mm²"];
const RATINGS: [(&str, &[f64]); 2] = [("blade-c", &[10.0, 30.0]), ("cartridge-t", &[30.0, 60.0])];

fn catalogue() -> Catalogue {
    let mut catalogue = Catalogue::embedded().unwrap();
    catalogue.conductors.retain(|c| SIZES.contains(&c.label.as_str()));
    catalogue.fuse_styles.retain(|s| RATINGS.iter().any(|r| r.0 == s.key));
    for style in &mut catalogue.fuse_styles {
        let made = RATINGS.iter().find(|r| r.0 == style.key).unwrap();
        style.ratings = made.1.iter().map(|a| Amps::new(*a)).collect();
    }
    catalogue
}

/// A bank, a main run, a feed to a box, and one lead or a second run beyond it.
fn small(seed: u64, catalogue: &Catalogue) -> Plan {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut between = |low: f64, high: f64| (dice.random_range(low..high) * 10.0).round() / 10.0;
    let bank = [("agm", 60), ("flooded", 100), ("agm", 200), ("lithium-iron-phosphate", 100)][seed as usize % 4];
    let (main, feed, lead) = (between(0.3, 2.0), between(0.5, 8.0), between(0.5, 6.0));
    let (near, far, times) = (between(5.0, 150.0), between(5.0, 120.0), between(1.0, 5.0));
    let text = format!(
        r#"format = 2
service_battery = {{ chemistry = "{}", capacity_ah = {} }}
charger = {{ kind = "none" }}
board = [{{ name = "box", style = "blade-c" }}]
run = [
    {{ from = "service battery", to = "cut-off", length_m = {main} }},
    {{ from = "cut-off", to = "box", length_m = {feed} }},
]
load = [
    {{ name = "near", at = "cut-off", power_w = {near}, duty = {{ hours_a_day = 1 }} }},
    {{ name = "far", at = "box", power_w = {far}, lead_m = {lead}, start = {{ times = {times}, seconds = 1 }}, duty = {{ hours_a_day = 1 }} }},
]"#,
        bank.0, bank.1
    );
    let read = read(&text, catalogue);
    assert!(read.problems.is_empty(), "{:?}", read.problems);
    read.plan
}

/// Whether each load loses no more than its class, by the currents that its cables are sized for.
fn keeps_drop(design: &Design) -> bool {
    let site = &design.installation;
    site.loads.iter().zip(&design.loads).all(|(load, supply)| {
        let Some(&branch) = site.circuits.to_point.get(&load.at) else { return true };
        let way = site.circuits.path_of(branch).into_iter().map(|b| &design.runs[site.circuits.branches[b].run]);
        way.filter_map(|r| r.size.as_ref()).map(|s| s.drop.get()).sum::<f64>() <= 12.0 * supply.limit.get() + 1e-9
    })
}

/// What counts after harm: copper, half a kilogram for a caution of service, plainness, and a little for notes and
/// amperes.
fn cost(design: &Design, catalogue: &Catalogue) -> f64 {
    let devices = design.runs.iter().flat_map(|r| &r.fuses);
    let plain = devices.map(|f| {
        let order = catalogue.fuse_style(&f.style).unwrap().order;
        0.2 * f64::from(order - 1) + 1e-7 * f.rating.unwrap().get()
    });
    let kinds = [Kind::FuseBreaking, Kind::FuseFarFault];
    let notes = design.findings.iter().filter(|f| f.severity == Severity::Note && kinds.contains(&f.kind)).count();
    let [.., service] = grave(design);
    design.copper.mass.get() + 0.5 * service as f64 + plain.sum::<f64>() + 1e-3 * notes as f64
}

/// What rules out a device before anything is weighed.
fn ruled_out(design: &Design) -> bool {
    let kinds = [Kind::FuseBig, Kind::FuseSmall, Kind::AmpacityLow, Kind::SizeNone, Kind::FuseNone];
    !keeps_drop(design) || design.findings.iter().any(|f| kinds.contains(&f.kind))
}

/// Size, style, rating.
type Given<'a> = (&'a str, &'a str, f64);

/// Size and device that a run may have by the cable's ampacity.
fn options<'a>(design: &Design, run: usize, styles: &[(&'a str, &'a [f64])]) -> Vec<Given<'a>> {
    let sizes = SIZES.iter().filter_map(|size| {
        let row = design.runs[run].sizes.iter().find(|s| s.label == **size)?;
        Some((*size, row.ampacity.get()))
    });
    let with = |(size, carries): (&'a str, f64)| {
        let made = styles.iter().flat_map(|(style, ratings)| ratings.iter().map(move |r| (*style, *r)));
        made.filter(move |d| d.1 <= carries).map(move |(style, rating)| (size, style, rating))
    };
    sizes.flat_map(with).collect()
}

#[test]
fn what_is_chosen_is_the_best_of_all() {
    let catalogue = catalogue();
    let many = plans(3);
    let (mut tried, mut count) = (0, 0);
    for seed in 0..many {
        let plan = small(seed, &catalogue);
        let free = design(&plan, &catalogue);
        if free.runs.iter().any(|r| r.fuses.iter().any(|f| f.rating.is_none()) || r.size.is_none()) {
            continue;
        }
        count += 1;
        let (main, feed) = (options(&free, 0, &RATINGS), options(&free, 1, &RATINGS));
        let lead = options(&free, 2, &RATINGS[..1]);
        let mut best: Option<([f64; 3], f64, String)> = None;
        for ((a, b), c) in
            main.iter().flat_map(|a| feed.iter().map(move |b| (a, b))).flat_map(|ab| lead.iter().map(move |c| (ab, c)))
        {
            let mut given = plan.clone();
            for (run, (size, style, rating)) in given.runs.iter_mut().zip([a, b]) {
                (run.size, run.fuse_style) = (Some(size.to_string()), Some(style.to_string()));
                run.fuse = Some(Amps::new(*rating));
            }
            (given.loads[1].lead.size, given.loads[1].lead.fuse) = (Some(c.0.to_string()), Some(Amps::new(c.2)));
            let given = design(&given, &catalogue);
            tried += 1;
            if ruled_out(&given) {
                continue;
            }
            let (harm, cost) = (harm(&given), cost(&given, &catalogue));
            let better = |b: &([f64; 3], f64, String)| is_less(harm, b.0) || !is_less(b.0, harm) && cost < b.1;
            if best.as_ref().is_none_or(better) {
                best = Some((harm, cost, format!("{a:?} {b:?} {c:?}")));
            }
        }
        let Some((least, cheapest, which)) = best else { panic!("seed {seed}: nothing may be given") };
        let (own, price) = (harm(&free), cost(&free, &catalogue));
        let chosen = free.runs.iter().map(|r| format!("{} {:?}", r.size.as_ref().unwrap().label, r.fuses[0].rating));
        let words = format!(
            "seed {seed}: {own:?} {price} {:?}; by trying all {least:?} {cheapest} {which}",
            chosen.collect::<Vec<_>>()
        );
        assert!(!ruled_out(&free), "{words} {:#?}", free.findings);
        assert!(!is_less(least, own), "{words}");
        assert!(is_less(own, least) || (price - cheapest).abs() < 1e-6, "{words}");
    }
    println!("{count} plans, {tried} combinations");
    assert!(count * 2 >= many, "only {count} of {many} plans could be tried");
}
