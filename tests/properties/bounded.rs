//! Whatever sizes a user gives, the search for cables ends: its work is bounded, and an answer that
//! was cut short is not called the lightest.

use crate::generated_leads;
use loomwright::catalogue::{Catalogue, Layer};
use loomwright::engine::ask::mend::remedies::remedies;
use loomwright::engine::{Design, Finding, Severity, design};
use loomwright::plan::read;
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
fn in_time(text: &str, catalogue: Catalogue) -> Design {
    let (sender, receiver) = channel();
    let text = text.to_string();
    std::thread::spawn(move || {
        let read = read(&text, &catalogue);
        assert!(read.problems.is_empty(), "{:?}", read.problems);
        let _ = sender.send(design(&read.plan, &catalogue));
    });
    receiver.recv_timeout(Duration::from_secs(90)).expect("the search does not end")
}

#[test]
fn many_sizes_on_a_long_trunk_end() {
    let design = in_time(&tree(24, None), crowded());
    assert!(design.copper.mass.get() > 0.0);
}

#[test]
fn few_of_many_sizes_end_and_say_what_they_are() {
    for most in [3, 8, 20] {
        let design = in_time(&tree(8, Some(most)), crowded());
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
        assert!(design.copper.tried <= most_tried(runs), "{runs} runs: {}", design.copper.tried);
        let asked = Cell::new(0);
        let told = remedies(&plan, &catalogue, &design, &|| {
            asked.set(asked.get() + 1);
            true
        });
        let untried = |f: &&Finding| f.remedies.iter().any(|r| r.words.starts_with("not all that might mend this"));
        assert!(told.iter().any(|f| untried(&f)), "{runs} runs: {told:?}");
        assert!(told.iter().all(|f| !f.remedies.is_empty()));
        assert!(asked.get() < 3000, "{runs} runs: {}", asked.get());
    }
}

/// Devices put into the runs of a chain that is broken off, and then mended, at the most.
fn most_tried(runs: usize) -> usize {
    2 * (10_000 + 40 * runs) + 100 * runs
}

/// With one lamp at the end of twenty fuses in a row no choice parts them all: what was found before the search was
/// broken off is kept, where looking on for a better one went through all there are.
#[test]
fn a_chain_to_one_lamp_ends() {
    for chemistry in ["agm", "flooded", "lithium-iron-phosphate"] {
        for runs in [20, 60] {
            let mut text = format!("format = 2\n[service_battery]\nchemistry = \"{chemistry}\"\ncapacity_ah = 100\n");
            let mut before = "service battery".to_string();
            for n in 0..runs {
                let to = if n == 0 { "cut-off".to_string() } else { format!("place {n}") };
                let length = 0.3 + 0.01 * f64::from(n % 7);
                text += &format!("[[run]]\nfrom = \"{before}\"\nto = \"{to}\"\nlength_m = {length}\n");
                before = to;
            }
            text += &format!("[[load]]\nname = \"lamp\"\nat = \"{before}\"\npower_w = 10\nduty.hours_a_day = 2\n");
            let design = in_time(&text, Catalogue::embedded().unwrap());
            let tried = design.copper.tried;
            assert!(tried <= most_tried(runs as usize), "{runs} runs, {chemistry}: {tried}");
            assert!(design.runs.iter().all(|r| r.size.is_some()), "{runs} runs, {chemistry}");
        }
    }
}

fn with_leads(boards: usize, leads: usize) -> Design {
    let catalogue = Catalogue::embedded().unwrap();
    design(&read(&generated_leads::text(boards, leads), &catalogue).plan, &catalogue)
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
