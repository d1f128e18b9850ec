//! A plan may be as deep as its file may be long: no search that calls itself runs out of room.

use loomwright::catalogue::Catalogue;
use loomwright::engine::design;
use loomwright::plan::read;

/// Two thousand runs one behind the other, with a fuse in each or in the first two.
#[test]
fn a_chain_of_thousands_is_designed() {
    let catalogue = Catalogue::embedded().unwrap();
    for fused in [false, true] {
        let mut text = String::from("format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n");
        let point = |n: usize| match n {
            0 => "service battery".into(),
            1 => "cut-off".into(),
            n => format!("p{n}"),
        };
        for n in 0..2000 {
            text += &format!("[[run]]\nfrom = \"{}\"\nto = \"{}\"\nlength_m = 0.3\n", point(n), point(n + 1));
            text += if n > 1 && !fused { "own_fuse = false\n" } else { "" };
        }
        text += &format!("[[load]]\nname = \"lamp\"\nat = \"{}\"\npower_w = 10\n", point(2000));
        let read = read(&text, &catalogue);
        assert!(read.problems.is_empty(), "{:?}", read.problems.first());
        let design = design(&read.plan, &catalogue);
        assert_eq!(design.runs.iter().filter(|run| run.size.is_some()).count(), 2000);
    }
}
