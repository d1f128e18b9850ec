//! What the design promises, its own simulation must hold.

use crate::generated_fit_out::{fit_out, pinned_fit_out};
use crate::generated_many::plans;
use loomwright::catalogue::Catalogue;
use loomwright::engine::simulate::days::scenario::CutSettings;
use loomwright::engine::simulate::promise::{Days, Trial, Trials, Uncut};
use loomwright::engine::{Demand, Design, Finding, FindingKind, design};
use loomwright::plan::{Place, Section, Value, read, set};
use std::collections::BTreeMap;

fn designed(text: &str, catalogue: &Catalogue) -> Design {
    let read = read(text, catalogue);
    assert!(read.problems.is_empty(), "{:?}\n{text}", read.problems);
    design(&read.plan, catalogue)
}

fn broken(design: &Design) -> Vec<&Finding> {
    design.findings.iter().filter(|f| f.kind == FindingKind::PromiseBroken).collect()
}

/// Of sound fit-outs with bank, delay and setting free at least 98 % keep their promise; who keeps it carries no
/// finding about it, who breaks it does, and says which two demands exclude each other. `LOOMWRIGHT_PLANS` asks for
/// more than the usual draw.
#[test]
fn what_is_promised_is_held_or_found_fault_with() {
    let draws = plans(100);
    let catalogue = Catalogue::embedded().unwrap();
    let mut held = 0;
    for seed in 0..draws {
        let design = designed(&fit_out(seed), &catalogue);
        let found = broken(&design);
        assert_eq!(found.is_empty(), design.promise.held(), "seed {seed}: {:?}", design.promise);
        for finding in &found {
            let [asked, against] = finding.excludes.as_ref().unwrap_or_else(|| panic!("seed {seed}: {finding:?}"));
            assert_ne!(asked.words, against.words, "seed {seed}");
            println!("seed {seed}: {}", finding.text);
        }
        held += u64::from(design.promise.held());
    }
    println!("{held} of {draws} keep their promise");
    assert!(held * 100 >= draws * 98, "{held} of {draws} keep their promise");
}

/// By counted charge, with a counter that may be off, as by voltage; 95 % of the fit-outs, since what a counter may be
/// off comes out of what may be used and a generated bank is no larger than the largest of its kind.
#[test]
fn what_is_promised_by_counted_charge_is_held_or_found_fault_with() {
    let draws = plans(100).div_ceil(4);
    let catalogue = Catalogue::embedded().unwrap();
    let acts_by = Place::of(Section::CutOff, "acts_by");
    let mut held = 0;
    for seed in 0..draws {
        let text = set(&fit_out(seed), acts_by, Some(&Value::Text("charge".into()))).unwrap();
        let design = designed(&text, &catalogue);
        let counter = design.cut_off.counter.unwrap();
        assert!(counter.acts_between().0.get() >= design.cut_off.reserve.get() - 1e-9, "seed {seed}: {counter:?}");
        let found = broken(&design);
        assert_eq!(found.is_empty(), design.promise.held(), "seed {seed}: {:?}", design.promise);
        held += u64::from(design.promise.held());
    }
    println!("{held} of {draws} keep their promise by counted charge");
    assert!(held * 100 >= draws * 95, "{held} of {draws} keep their promise by counted charge");
}

/// What a counter and its floor are set to by the program is judged like the same settings given: no cable and no device
/// is asked for anything else.
#[test]
fn a_counter_that_is_given_is_judged_like_the_one_that_was_chosen() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut compared = 0;
    for seed in 0..plans(40).div_ceil(2) {
        let cut_off = |key| Place::of(Section::CutOff, key);
        let put = |text: String, key, value| set(&text, cut_off(key), Some(&value)).unwrap();
        let text = put(fit_out(seed), "acts_by", Value::Text("charge".into()));
        let free = designed(&text, &catalogue);
        let (Some(counter), Some(bank)) = (free.cut_off.counter, free.battery.bank.as_ref()) else { continue };
        let given = [
            ("cut_v", free.cut_off.cut.get()),
            ("delay_s", free.cut_off.delay.get()),
            ("opens_at", counter.opens.get()),
        ];
        let text = given.into_iter().fold(text, |text, (key, number)| put(text, key, Value::Number(number)));
        let bank = [("capacity_ah", bank.capacity.get()), ("in_parallel", f64::from(bank.blocks))];
        let text = bank.into_iter().fold(text, |text, (key, number)| {
            set(&text, Place::of(Section::ServiceBattery, key), Some(&Value::Number(number))).unwrap()
        });
        let pinned = designed(&text, &catalogue);
        // To the rounding of a setting, 10 mV, that a given floor may stand above what the loads pull down to.
        let apart = (pinned.levels.lowest - free.levels.lowest).get();
        assert!((-1e-9..=0.01).contains(&apart), "seed {seed}: {:?} {:?}", free.levels, pinned.levels);
        compared += 1;
    }
    assert!(compared >= 15, "{compared}");
}

/// Of the two demands that are said to exclude each other each is one without which the promise holds: the plan with
/// either given up, and all else as it was chosen, carries no finding about it, or one about another pair.
#[test]
fn of_two_demands_that_exclude_each_other_either_may_be_given_up() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut tried, mut whole, mut kinds) = ([0; 2], 0, BTreeMap::<String, u32>::new());
    for seed in 0..plans(60) {
        let text = pinned_fit_out(seed);
        let design = designed(&text, &catalogue);
        assert_eq!(broken(&design).is_empty(), design.promise.held(), "seed {seed}");
        for finding in broken(&design) {
            let demands = finding.excludes.as_ref().unwrap_or_else(|| panic!("seed {seed}: {finding:?}"));
            println!("seed {seed}: {}", finding.text);
            assert!(demands.iter().all(|d| finding.text.contains(&d.words)), "seed {seed}: {finding:?}");
            for (n, demand) in demands.iter().enumerate() {
                let Some(changed) = without(&text, demand, n == 0, &design) else { continue };
                let now = designed(&changed, &catalogue);
                tried[n] += 1;
                let same = |f: &&Finding| f.excludes.iter().flatten().any(|d| d.words == demand.words);
                let left: Vec<_> = broken(&now).into_iter().filter(same).map(|f| &f.text).collect();
                assert!(
                    left.is_empty(),
                    "seed {seed}: {}\nwithout {}: {left:?}\n{changed}",
                    finding.text,
                    demand.words
                );
                whole += u32::from(broken(&now).is_empty());
            }
            *kinds.entry(demands[1].words.split_whitespace().take(3).collect::<Vec<_>>().join(" ")).or_default() += 1;
        }
    }
    println!("given up: {tried:?}, held then: {whole}; {kinds:?}");
    assert!(tried.iter().all(|n| *n >= 1), "{tried:?}");
    assert!(f64::from(whole) >= 0.9 * f64::from(tried[0] + tried[1]), "{tried:?}, {whole}");
}

/// The plan without a demand: bank and delay, and the cut-off where the days are fewer, put in as they were chosen,
/// unless they are what is given up.
fn without(text: &str, demand: &Demand, with_cut: bool, design: &Design) -> Option<String> {
    let (place, value) = demand.given_up.as_ref()?;
    let bank = design.battery.bank.as_ref().unwrap();
    let cut = &design.cut_off;
    let mut chosen = vec![(Section::CutOff, "delay_s", cut.delay.get())];
    if with_cut {
        chosen.push((Section::CutOff, "cut_v", cut.cut.get()));
    }
    if !["capacity_ah", "in_parallel"].contains(&place.key) {
        chosen.push((Section::ServiceBattery, "capacity_ah", bank.capacity.get()));
        chosen.push((Section::ServiceBattery, "in_parallel", f64::from(bank.blocks)));
    }
    let put = |text: String, (section, key, number): (Section, &'static str, f64)| {
        set(&text, Place::of(section, key), Some(&Value::Number(number))).unwrap()
    };
    let text = chosen.into_iter().fold(text.to_string(), put);
    Some(set(&text, *place, value.as_ref()).unwrap())
}

/// Trials that would not have opened the cut-off are not gone through again with it: what is told of them is what
/// going through all again tells.
#[test]
fn trials_that_stand_end_as_trials_gone_through_again() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut compared = 0;
    for seed in 0..plans(60) {
        let text = if seed % 2 == 0 { fit_out(seed) } else { pinned_fit_out(seed) };
        let design = designed(&text, &catalogue);
        let Some(bank) = &design.battery.bank else { continue };
        let Some(mut trials) = Trials::new(&design.installation, bank, None) else { continue };
        let cut = CutSettings::of(&design.cut_off, bank.capacity);
        let (uncut, weeks, steady) = (Uncut::default(), Uncut::default(), design.charger.steady);
        let gone_through_never = Days { bank: bank.clone(), steady, uncut, weeks };
        let again = trials.promise(&gone_through_never, cut, false);
        let [told, again] = [&design.promise, &again].map(|p| [&p.without_charge[..], &p.usual[..]].concat());
        assert_eq!(told.len(), again.len(), "seed {seed}");
        for (told, again) in told.iter().zip(&again) {
            assert_eq!(told.held(), again.held(), "seed {seed}: {told:?} {again:?}");
            let apart = (told.lowest - again.lowest).get().abs();
            assert!(apart <= 0.005, "seed {seed}: {told:?} {again:?}");
            let sensed = |t: &Trial| t.sensed.map(|(lowest, _)| lowest.get());
            let apart = sensed(told).zip(sensed(again)).map(|(a, b)| (a - b).abs());
            assert!(apart.is_none_or(|v| v <= 0.01), "seed {seed}: {told:?} {again:?}");
            compared += 1;
        }
    }
    assert!(compared >= 300, "{compared}");
}
