//! A new plan from ordinary answers has no stop.

use crate::driver::Driver;
use loomwright::engine::Severity;
use std::collections::BTreeMap;

#[test]
fn explore() {
    let chem = std::env::var("CHEM").unwrap_or("AGM,flooded,gel,iron,NMC".into());
    let places = std::env::var("PLACES").unwrap_or("cabin,sleeping-space,cabinet,vented-box,under-floor,engine-bay,load-bed,under-deck".into());
    let colds = std::env::var("COLDS").unwrap_or("15,5,-5,-10,-20,-30".into());
    let days = std::env::var("DAYS").unwrap_or("every day;every other day;mon-fri;sat".into());
    let hours = std::env::var("HOURS").unwrap_or("1,1.5,3".into());
    let fronts = std::env::var("FRONTS").unwrap_or("0,3".into());
    let loads = std::env::var("LOADS").unwrap_or(";ceiling,pressure,phone".into());
    let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
    let (mut all, mut bad) = (0, 0);
    for c in chem.split(',') { for p in places.split(',') { for cold in colds.split(',') { for day in days.split(';') {
    for h in hours.split(',') { for f in fronts.split(',') { for l in loads.split(';') {
        let mut d = Driver::new(80, 24);
        let more: String = l.split(',').filter(|l| !l.is_empty()).map(|l| format!("'{l}' Enter ")).collect();
        d.keys(&format!("N 'Hut' Enter {more} Enter '{c}' Enter Enter '{f}' Enter '{h} h' Enter '{day}' Enter '{p} ·' Enter '{cold}' Enter"));
        if !d.screen().contains("your plan") { println!("NOT ENDED {c} {p} {cold} {day} {h} {f} {l}\n{}", d.screen()); }
        let design = &d.app.now.design;
        all += 1;
        let stops: Vec<_> = design.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
        if !stops.is_empty() {
            bad += 1;
            println!("{c} {p} {cold} [{day}] {h}h front {f} loads [{l}]: {:?}", stops.iter().map(|s| format!("{:?}", s.kind)).collect::<Vec<_>>());
            for s in stops { let n = kinds.entry(format!("{c} {p} {:?}", s.kind)).or_default(); *n += 1; if *n <= 2 { println!("     {}", s.text); for r in &s.remedies { println!("        > {}", r.words); } } }
        }
    }}}}}}}
    println!("{bad} of {all}");
    for (k, n) in kinds { println!("{n:5} {k}"); }
}
