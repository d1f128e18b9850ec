//! What the design promises, its own simulation must hold.

use crate::generated_fit_out::fit_out;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind, design};
use loomwright::plan::read;

/// Of sound fit-outs with bank, delay and setting free at least 98 % keep their promise; who keeps it carries no
/// finding about it, who breaks it does. `LOOMWRIGHT_DRAWS` asks for more than the usual draw.
#[test]
fn what_is_promised_is_held_or_found_fault_with() {
    let draws = std::env::var("LOOMWRIGHT_DRAWS").ok().and_then(|n| n.parse().ok()).unwrap_or(100);
    let catalogue = Catalogue::embedded().unwrap();
    let mut held = 0;
    for seed in 0..draws {
        let text = fit_out(seed);
        let read = read(&text, &catalogue);
        assert!(read.problems.is_empty(), "seed {seed}: {:?}\n{text}", read.problems);
        let design = design(&read.plan, &catalogue);
        let found: Vec<_> = design.findings.iter().filter(|f| f.kind == FindingKind::PromiseBroken).collect();
        assert_eq!(found.is_empty(), design.promise.held(), "seed {seed}: {:?}", design.promise);
        held += u64::from(design.promise.held());
        if std::env::var("LOOMWRIGHT_SHOW").is_ok() {
            println!(
                "{seed} {} {:?} cut {} exact {} ruling {} {}",
                read.plan.service_battery.chemistry,
                design.battery.bank.as_ref().map(|b| b.capacity),
                design.cut_off.cut,
                design.cut_off.exact,
                design.battery.ruling.map_or("", |by| by.name()),
                found.first().map_or("", |f| &f.text)
            );
        }
    }
    println!("{held} of {draws} keep their promise");
    assert!(held * 100 >= draws * 98, "{held} of {draws} keep their promise");
}
