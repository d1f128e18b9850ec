//! Plans to draw: the examples, and trees of any size and shape.

use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, design};
use loomwright::plan::{Plan, examples, read};
use std::sync::LazyLock;

pub static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::embedded().unwrap_or_else(|e| panic!("the built-in profiles have problems: {e:?}")));

/// A plan without problems and its design.
pub fn designed(text: &str) -> (Plan, Design) {
    let read = read(text, &CATALOGUE);
    assert!(read.problems.is_empty(), "{:#?}", read.problems);
    let design = design(&read.plan, &CATALOGUE);
    (read.plan, design)
}

/// Name and text of each example.
pub fn all_examples() -> impl Iterator<Item = (&'static str, &'static str)> {
    examples().iter().map(|e| (e.name, e.text))
}

/// A plan with this many runs in all; `parent` says for run `n` (from 4) which
/// earlier point it hangs on, 0 for the fuse panel.
pub fn tree_plan(runs: usize, parent: impl Fn(usize) -> usize) -> String {
    let mut text = String::from(
        "format = 2\ntitle = \"Test tree\"\n[service_battery]\nchemistry = \"agm\"\n\
         [[run]]\nfrom = \"starter battery\"\nto = \"charger\"\nlength_m = 4\n\
         [[run]]\nfrom = \"charger\"\nto = \"service battery\"\nlength_m = 1\n\
         [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n",
    );
    for n in 3..runs {
        let from = match n {
            3 => "cut-off".to_string(),
            n => format!("place {}", parent(n).clamp(3, n - 1)),
        };
        text.push_str(&format!("[[run]]\nfrom = \"{from}\"\nto = \"place {n}\"\nlength_m = 2.5\n"));
        if n % 2 == 0 {
            text.push_str(&format!(
                "[[load]]\nname = \"lamp {n}\"\nat = \"place {n}\"\npower_w = 6\nduty = {{ hours_a_day = 2 }}\n"
            ));
        }
    }
    text
}
