//! Whatever sizes a user gives, the search for cables ends: its work is bounded, and an answer that
//! was cut short is not called the lightest.

use loomwright::catalogue::{Catalogue, Layer};
use loomwright::engine::ask::mend::remedies::remedies;
use loomwright::engine::{Design, Finding, Severity, design};
use loomwright::plan::{default_example, read};
use std::cell::Cell;
use std::sync::mpsc::channel;
use std::time::Duration;

/// Many more conductors than any shop has, of uneven areas so that no two ways weigh the same.
fn crowded() -> Catalogue {
    let mut text = String::new();
    for n in 0..80u32 {
        let area = 0.4 * 1.07f64.powi(n as i32) * (1.0 + 0.01 * f64::from(n * 7 % 5));
        let (ohm, outside) = (18.3 / area, 1.5 + 2.0 * area.sqrt());
        text += &format!(
            "[[conductor]]\nlabel = \"own {n}\"\nfamily = \"metric\"\narea_mm2 = {area:.4}\nohm_per_km_20c = {ohm:.5}\n\
             outside_mm = {outside:.3}\nhow = \"practice\"\n\n"
        );
    }
    let layer = Layer { origin: "test".into(), files: vec![("conductors/own.toml".into(), text)] };
    Catalogue::with_layers(&[layer]).unwrap()
}

/// A trunk of so many runs with a load at each point and a branch of two runs beside it.
fn tree(trunk: usize, most_sizes: Option<usize>) -> String {
    let mut text = String::from("format = 1\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 500\n");
    if let Some(most) = most_sizes {
        text += &format!("[rules]\nmost_sizes = {most}\n");
    }
    text += "[[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.31\n";
    let mut before = "cut-off".to_string();
    for n in 0..trunk {
        let ends =
            [(before.clone(), format!("p{n}")), (format!("p{n}"), format!("q{n}")), (format!("q{n}"), format!("r{n}"))];
        for (k, (from, to)) in ends.iter().enumerate() {
            let length = 0.2 + 0.037 * ((n * 5 + k * 11) % 17) as f64;
            text += &format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {length}\nown_fuse = {}\n", n == 0);
            let watts = 2.0 + 0.83 * ((n * 3 + k * 7) % 13) as f64;
            text += &format!("[[load]]\nname = \"{to}\"\nat = \"{to}\"\npower_w = {watts}\nduty.hours_a_day = 1\n");
        }
        before = format!("p{n}");
    }
    text
}

/// The design, or a failure when it takes longer than anybody waits.
#[track_caller]
fn in_time(text: &str) -> Design {
    let (sender, receiver) = channel();
    let text = text.to_string();
    std::thread::spawn(move || {
        let catalogue = crowded();
        let read = read(&text, &catalogue);
        assert!(read.problems.is_empty(), "{:?}", read.problems);
        let _ = sender.send(design(&read.plan, &catalogue));
    });
    receiver.recv_timeout(Duration::from_secs(90)).expect("the search does not end")
}

#[test]
fn many_sizes_on_a_long_trunk_end() {
    let design = in_time(&tree(24, None));
    assert!(design.copper.mass.get() > 0.0);
}

#[test]
fn few_of_many_sizes_end_and_say_what_they_are() {
    for most in [3, 8, 20] {
        let design = in_time(&tree(8, Some(most)));
        let mut used: Vec<_> = design.runs.iter().filter_map(|r| r.size.as_ref()).map(|s| s.label.clone()).collect();
        used.sort();
        used.dedup();
        let complains = design.findings.iter().any(|f| f.kind == loomwright::engine::FindingKind::SizesMany);
        assert!(used.len() <= most || complains, "{} sizes of {most}", used.len());
    }
}

/// A chain on which each run has a fuse of its own: each change is felt by all beyond it.
fn chain(runs: usize) -> String {
    let mut text = String::from("format = 2\n[service_battery]\nchemistry = \"lithium-iron-phosphate\"\n");
    text += "[[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 1\n";
    let mut before = "cut-off".to_string();
    for n in 0..runs {
        text += &format!("[[run]]\nfrom = \"{before}\"\nto = \"place {n}\"\nlength_m = 0.6\n");
        text += &format!("[[load]]\nname = \"lamp {n}\"\nat = \"place {n}\"\npower_w = 0.3\nduty.hours_a_day = 2\n");
        before = format!("place {n}");
    }
    text
}

#[test]
fn a_long_chain_of_fuses_ends_and_so_do_the_remedies_of_its_findings() {
    let catalogue = Catalogue::embedded().unwrap();
    for runs in [20, 60] {
        let plan = read(&chain(runs), &catalogue).plan;
        let design = design(&plan, &catalogue);
        let stops = design.findings.iter().filter(|f| f.severity == Severity::Stop).count();
        assert!(stops > 5, "{runs} runs: {stops}");
        // Where the search is broken off, so many devices and the last change begun.
        assert!(design.copper.tried <= 4 * 60_000 + 100 * runs, "{runs} runs: {}", design.copper.tried);
        let asked = Cell::new(0);
        let told = remedies(&plan, &catalogue, &design, &|| {
            asked.set(asked.get() + 1);
            true
        });
        let untried = |f: &&Finding| f.remedies.iter().any(|r| r.words.starts_with("not all that might mend this"));
        assert!(told.iter().filter(untried).count() > 5, "{runs} runs: {told:?}");
        assert!(told.iter().all(|f| !f.remedies.is_empty()));
        assert!(asked.get() < 3000, "{runs} runs: {}", asked.get());
    }
}

/// The default example with boards and leads more, as the benches have it.
fn with_leads(boards: usize, leads: usize) -> Design {
    let catalogue = Catalogue::embedded().unwrap();
    let mut text = default_example().text.to_string();
    for board in 0..boards {
        let far = 2 + board % 5;
        text += &format!(
            "\n[[board]]\nname = \"board {board}\"\nstyle = \"blade-c\"\n\
             [[run]]\nfrom = \"cut-off\"\nto = \"board {board}\"\nlength_m = {far}\n"
        );
    }
    for lead in 0..leads {
        let (at, watts, length) = (lead % boards, 3 + lead % 20, 1 + lead % 4);
        text += &format!(
            "\n[[load]]\nname = \"load {lead}\"\nat = \"board {at}\"\npower_w = {watts}\nlead_m = {length}\n\
             duty = {{ hours_a_day = 1 }}\n"
        );
    }
    design(&read(&text, &catalogue).plan, &catalogue)
}

/// How long a design takes is counted, not clocked: devices put into a run, which a loose bound of the search
/// multiplies (13,000 for the van of 25 leads before copper and wrongs were looked ahead at together).
#[test]
fn few_devices_are_put_into_each_run() {
    for (boards, leads, most) in [(0, 0, 4_000), (3, 25, 4_000), (60, 300, 15_000)] {
        let copper = with_leads(boards, leads).copper;
        assert!(copper.least, "{boards} boards: not proven the least");
        assert!(copper.tried <= most, "{boards} boards, {leads} leads: {} devices put in", copper.tried);
    }
}
