//! The numbers of a fuse by hand, and their workings.

use crate::engine::choose::fuse::tests::fixture::Bench;
use crate::engine::installation::subject::Subject;
use crate::quantity::*;

/// By hand, for the run to the lamp: 12.8 V, 12 mΩ, before it 1 m of 16 mm²
/// (1.21 mΩ/m by IEC 60228 class 5) out and back at -5 °C, 4 joints of 0.2 mΩ, the link before it by the least that it
/// has cold. With a usual battery of 20 mΩ it is the less.
#[test]
fn prospective_by_hand() {
    let bench = Bench { likely_mohm: Some(20.0), ..Bench::two_runs() };
    let done = bench.protect();
    let main = done.fuse(0);
    let link = bench.catalogue.fuse_style(&main.style).unwrap().cold.get() / main.rating.unwrap().get();
    let cold = 2.0 * 1.21e-3 * (234.5 - 5.0) / 254.5 + 0.8e-3;
    let expected = 12.8 / (12e-3 + cold + link);
    assert!((done.fuse(1).prospective.get() / expected - 1.0).abs() < 1e-9, "{}", done.fuse(1).prospective);
    let likely = 12.8 / (20e-3 + cold + link);
    assert!((done.fuse(1).likely.get() / likely - 1.0).abs() < 1e-9, "{}", done.fuse(1).likely);
    assert!((done.fuse(0).prospective.get() - 12.8 / 12e-3).abs() < 1e-6);
}

/// By hand: both runs at 105 °C (4 mm²: 4.95 mΩ/m), 8 joints, 25 mΩ, the fuse-links by their drop at the rating.
#[test]
fn far_fault_by_hand() {
    let bench = Bench::two_runs();
    let done = bench.protect();
    let hot = (234.5 + 105.0) / 254.5;
    let copper = (2.0 * 1.21e-3 + 8.0 * 4.95e-3) * hot;
    let style = |i: usize| bench.catalogue.fuse_style(&done.fuse(i).style).unwrap().drop_at_rating;
    let links: Ohms = (0..2).map(|i| style(i) / done.fuse(i).rating.unwrap()).sum();
    let agm = bench.catalogue.chemistry("agm").unwrap();
    let emf = agm.resting.curve.at(agm.low.reserve).unwrap().get() + agm.resting.v_per_k * -30.0;
    let expected = emf / (25e-3 + copper + 1.6e-3 + links.get());
    assert!((done.fuse(1).far_fault.get() / expected - 1.0).abs() < 1e-9, "{}", done.fuse(1).far_fault);
}

#[test]
fn every_number_has_its_working() {
    let done = Bench::two_runs().protect();
    let of = |number: &str| done.notes.workings().unwrap().get(&Subject::Run(1), number).unwrap();
    let fuse = done.fuse(1);
    for (number, value) in [
        ("fuse at least", fuse.at_least.get()),
        ("fuse at most", fuse.at_most.get()),
        ("prospective", fuse.prospective.get()),
        ("far fault", fuse.far_fault.get()),
        ("opens within", fuse.opens_within.unwrap().get()),
        ("let-through", fuse.let_through.unwrap().get()),
        ("cable stands", fuse.cable_stands.get()),
    ] {
        let working = of(number);
        assert_eq!(working.result.value, value, "{number}");
        assert!(!working.source.is_empty(), "{number}");
        assert_eq!(evaluate(working).unwrap_or(value), value, "{number}: {}", working.formula);
    }
}

/// Work a formula out again from the numbers put in alone.
fn evaluate(working: &crate::engine::installation::working::Working) -> Option<f64> {
    use evalexpr::*;
    if working.formula.is_empty() {
        return None;
    }
    let mut context = HashMapContext::<DefaultNumericTypes>::new();
    for input in &working.inputs {
        context.set_value(input.symbol.into(), Value::from_float(input.value.value)).unwrap();
    }
    let value = eval_number_with_context(&working.formula, &context).unwrap();
    // Rounding of another order of operations.
    Some(if (value / working.result.value - 1.0).abs() < 1e-12 { working.result.value } else { value })
}

/// A battery without a size: no fault currents, but ratings all the same.
#[test]
fn without_a_battery_the_ratings_stand() {
    let mut bench = Bench::two_runs();
    bench.battery_mohm = None;
    let done = bench.protect();
    assert_eq!(done.fuse(1).rating, Some(Amps::new(15.0)));
    assert_eq!((done.fuse(1).prospective, done.fuse(1).opens_within), (Amps::ZERO, None));
}

/// A run without a size has no fuse, and its neighbours keep theirs.
#[test]
fn without_a_size_there_is_no_fuse() {
    let mut bench = Bench::two_runs();
    bench.sizes[1] = 0.0;
    let done = bench.protect();
    assert!(done.runs[1].fuses.is_empty());
    assert!(done.fuse(0).rating.is_some());
}

/// The starter side counts its battery and the alternator: 12.8 V over its least resistance and 1.25 × 90 A.
#[test]
fn the_feed_is_fed_by_starter_battery_and_alternator() {
    let mut bench = Bench::two_runs();
    bench.add("starter battery", "charger", 4.0, 16.0, 40.0);
    bench.add("service battery", "charger", 1.0, 16.0, 40.0);
    bench.charger_a = 30.0;
    let done = bench.protect();
    let flooded = bench.catalogue.chemistry("flooded").unwrap();
    let full = flooded.resting.curve.at(Share::FULL).unwrap().get();
    let least = flooded.resistance.starter_mohm * 1e-3 * 100.0 / 70.0;
    let expected = full / least + 1.25 * 90.0;
    assert!((done.fuse(2).prospective.get() / expected - 1.0).abs() < 1e-9, "{}", done.fuse(2).prospective);
    // The charger's own output adds to a fault in another run, not in the one that leads to it.
    assert!((done.fuse(0).prospective.get() - 12.8 / 12e-3 - 37.5).abs() < 1e-6);
    assert!((done.fuse(3).prospective.get() - 12.8 / 12e-3).abs() < 1e-6);
}
