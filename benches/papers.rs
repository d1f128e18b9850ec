//! What a user waits for: all papers of a plan, from the design to the last byte.
//!
//! Bounds to keep: 200 ms for the default plan, 1 s for one of 60 runs.

use loomwright::catalogue::Catalogue;
use loomwright::engine::design;
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::{default_example, read};

fn main() {
    divan::main();
}

fn all_papers(text: &str, bencher: divan::Bencher) {
    let Ok(catalogue) = Catalogue::embedded() else { return };
    let plan = read(text, &catalogue).plan;
    bencher.bench_local(|| {
        let design = design(&plan, &catalogue);
        let job = Job { plan: &plan, catalogue: &catalogue, design: &design, beside: &[] };
        bundle(&job, &Look::default(), &Stamp::default()).iter().map(|f| f.content.len()).sum::<usize>()
    });
}

#[divan::bench]
fn papers_of_the_default_plan(bencher: divan::Bencher) {
    all_papers(default_example().text, bencher);
}

#[divan::bench(sample_count = 10)]
fn papers_of_sixty_runs(bencher: divan::Bencher) {
    let mut text = default_example().text.to_string();
    for n in 0..53 {
        let from = if n < 6 { "cut-off".to_string() } else { format!("place {}", n / 6) };
        text.push_str(&format!(
            "\n[[run]]\nfrom = \"{from}\"\nto = \"place {}\"\nlength_m = 2.5\n\n[[load]]\nname = \"lamp {n}\"\n\
             at = \"place {}\"\npower_w = 6\nduty = {{ hours_a_day = 2 }}\n",
            n + 1,
            n + 1
        ));
    }
    all_papers(&text, bencher);
}
