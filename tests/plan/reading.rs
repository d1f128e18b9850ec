//! Bad input gets a clear message with place, accepted range and remedy, and all problems come at once.

use crate::CATALOGUE;
use loomwright::plan::{Locking, Problem, read, read_bytes};

const HEAD: &str = "format = 2\n[service_battery]\nchemistry = \"agm\"\n";

fn problems(text: &str) -> Vec<Problem> {
    read(text, &CATALOGUE).problems
}

/// One problem at this line, whose words contain all of `words`.
#[track_caller]
fn one(text: &str, line: usize, words: &[&str]) {
    let found = problems(text);
    assert_eq!(found.len(), 1, "expected one problem, got {found:#?}");
    let said = found[0].to_string();
    assert_eq!(found[0].line, line, "{said}");
    for word in words {
        assert!(said.contains(word), "`{word}` is not in: {said}");
    }
}

#[track_caller]
fn one_in(section: &str, line: usize, words: &[&str]) {
    one(&format!("{HEAD}{section}"), line, words);
}

#[test]
fn the_least_plan_reads() {
    assert_eq!(problems(HEAD), []);
}

/// Format 2 calls what holds the battery by another name; each format is read in its own words only.
#[test]
fn a_plan_of_format_1_is_read_in_its_own_words() {
    let old = HEAD.replace("format = 2", "format = 1");
    let out = read(&format!("{old}[carrier]\nstyle = \"tray\"\nhold_down_rods = 3\n"), &CATALOGUE);
    assert_eq!((out.problems, out.plan.hold_down.rods), (Vec::new(), 3));
    one_in("[carrier]\nstyle = \"tray\"\n", 4, &["carrier", "is called `hold_down` since format 2"]);
    one_in("[hold_down]\nhold_down_rods = 3\n", 5, &["is called `rods` since format 2"]);
    assert!(!read(&format!("{old}[hold_down]\nrods = 3\n"), &CATALOGUE).problems.is_empty());
}

/// ISO 7040 calls it a prevailing torque nut with a non-metallic insert; the word of older plans still reads.
#[test]
fn an_older_word_for_the_nut_still_reads() {
    let out = read(&format!("{HEAD}[hold_down]\nlocking = \"nyloc\"\n"), &CATALOGUE);
    assert_eq!((out.problems, out.plan.hold_down.locking), (Vec::new(), Locking::NylonInsert));
}

#[test]
fn empty_and_binary_and_huge_files() {
    one("", 1, &["empty", "format = 2"]);
    one("  \n\n", 1, &["empty"]);
    let said = |bytes: &[u8]| read_bytes(bytes, &CATALOGUE).problems[0].to_string();
    assert!(said(&[0xff, 0xfe, 0x00, 0x9f]).contains("not text"));
    assert!(said(b"format = 2\n\0\0").contains("not text"));
    assert!(said(&vec![b'#'; 10_000_000]).contains("no plan"));
}

#[test]
fn broken_syntax_names_its_line() {
    one("format = 2\ntitle = \"half\n", 2, &["not TOML"]);
    let many = problems("format = 2\n[[load\nname = \nx = = 3\n[service_battery]\n");
    assert!(!many.is_empty() && many.len() <= 3, "{many:#?}");
}

#[test]
fn misspelt_keys_get_the_nearest() {
    one_in("[[load]]\nname = \"fridge\"\npower_v = 45\n", 6, &["power_v", "did you mean `power_w`"]);
    one(
        "format = 2\n[service_batery]\nchemistry = \"agm\"\n[service_battery]\nchemistry = \"agm\"\n",
        2,
        &["service_batery", "service_battery"],
    );
    one_in("[cut_off]\nquux = 1\n", 5, &["quux", "known keys", "cut_v"]);
    one_in("[[load]]\nname = \"a\"\nduty = { share = 1.0 }\n", 6, &["duty.share", "share_on"]);
}

#[test]
fn numbers_out_of_range_say_the_range() {
    one_in("[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = -6.2\n", 7, &["length_m = -6.2", "0.05 m", "1000 m"]);
    one_in("[[load]]\nname = \"a\"\nduty = { hours_a_day = 30 }\n", 6, &["30", "24 h"]);
    for number in ["nan", "inf", "-inf", "1e308"] {
        one_in(&format!("[[load]]\nname = \"a\"\npower_w = {number}\n"), 6, &[number, "20000 W"]);
    }
    one_in("[[load]]\nname = \"a\"\ncount = 1.5\n", 6, &["whole number"]);
    one_in("[service_battery2]\n", 4, &["service_battery2"]);
}

/// Less than anything that is measured is a slip, and said to be one.
#[test]
fn what_is_next_to_nothing_is_refused() {
    for number in ["1e-300", "5e-324", "0.0009"] {
        let load = format!("[[load]]\nname = \"a\"\npower_w = {number}\n");
        one_in(&load, 6, &[number, "must be 0, or at least 0.001 W"]);
    }
    let cold = read(&format!("{HEAD}[surroundings]\nmean_c = 1e-300\n"), &CATALOGUE);
    assert_eq!((cold.problems.len(), cold.plan.surroundings.mean.get()), (0, 0.0));
}

/// -0 is zero: harmless where zero is allowed, refused where it is not.
#[test]
fn minus_zero_is_zero() {
    let read = read(&format!("{HEAD}[[load]]\nname = \"a\"\npower_w = -0.0\n"), &CATALOGUE);
    assert_eq!(read.problems, []);
    assert!(read.plan.loads[0].power.unwrap().get().is_sign_positive());
    one_in("[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = -0.0\n", 7, &["length_m"]);
}

#[test]
fn wrong_types_say_what_was_found() {
    one_in("[[load]]\nname = 5\n", 5, &["name", "integer", "text"]);
    one_in("[[load]]\nname = \"a\"\npower_w = \"45\"\n", 6, &["power_w", "string"]);
    one_in("[[load]]\nname = \"a\"\nduty = \"30 h\"\n", 6, &["`duty`", "hours_a_day", "braces"]);
    one_in("[load]\nname = \"a\"\n", 4, &["[[load]]", "double brackets"]);
    one_in("[vehicle]\ndriving = [\"7-25\"]\n", 5, &["25", "time of day"]);
}

#[test]
fn unknown_words_get_the_nearest_or_the_list() {
    one("format = 2\n[service_battery]\nchemistry = \"agmm\"\n", 3, &["agmm", "did you mean `agm`"]);
    one("format = 2\n[service_battery]\nchemistry = \"unobtainium\"\n", 3, &["unobtainium", "flooded"]);
    one_in("[vehicle]\nalternator = \"wild\"\n", 5, &["fixed", "variable"]);
}

#[test]
fn what_must_be_there_is_asked_for() {
    one("format = 2\n", 1, &["service battery has no `chemistry`"]);
    one("[service_battery]\nchemistry = \"agm\"\n", 1, &["format", "first line"]);
    one_in("[[run]]\nfrom = \"service battery\"\nto = \"b\"\n", 4, &["run has no `length_m`"]);
}

#[test]
fn a_newer_format_is_refused_and_nothing_else_said() {
    one("format = 3\nwonder = 3\n[[run]]\n", 1, &["format 3", "newer"]);
}

#[test]
fn duplicate_names_are_told_apart() {
    one_in("[[load]]\nname = \"lamp\"\n[[load]]\nname = \"Lamp\"\n", 7, &["two loads are called `Lamp`", "count = 2"]);
}

#[test]
fn two_cables_may_not_bear_one_number() {
    let text = "[[run]]\nfrom = \"service battery\"\nto = \"a\"\nlength_m = 1\nnumber = 1\n\
                [[load]]\nname = \"lamp\"\nat = \"a\"\npower_w = 8\nlead_m = 2\nlead_number = 1\n";
    one_in(text, 14, &["two cables have the number 1", "lead_number = 2", "no other run, lead or way"]);
}

#[test]
fn all_problems_come_at_once_in_the_order_of_the_file() {
    let found = problems(
        "format = 2\nbogus = 1\n[service_battery]\nchemistry = \"x y z\"\n[[run]]\nfrom = \"a\"\nlength_m = -1\n",
    );
    let lines: Vec<_> = found.iter().map(|p| p.line).collect();
    assert_eq!(lines, [2, 4, 5, 7], "{found:#?}");
}

/// What is no TOML is told as that, also beside a key that is there twice.
#[test]
fn a_doubled_key_beside_broken_text_is_broken_text() {
    for broken in ["power_w = = 4", "power w = 4", "power_w 4", "[vehicle", "a = \"x"] {
        let text = format!("format = 2\n[service_battery]\nchemistry = \"agm\"\nchemistry = \"agm\"\n{broken}\n");
        let found = read(&text, &CATALOGUE).problems;
        assert!(found.iter().any(|p| p.what.contains("this is not TOML") && p.line == 5), "{broken}: {found:?}");
    }
}

/// A key or a table that is there twice is told beside everything else, with the line of the first.
#[test]
fn a_doubled_key_hides_no_other_problem() {
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\nchemistry = \"gel\"\n[[load]]\nname = \"a\"\n\
                power_w = -5\n[vehicle]\nalternator_a = 90\n[[load]]\nname = \"b\"\npower_w = 1\n\
                duty = { share_on = 0.5, share_on = 0.6 }\n[vehicle]\nbogus = 1\n";
    let found = problems(text);
    let said: Vec<_> = found.iter().map(|p| (p.line, p.to_string())).collect();
    let lines: Vec<_> = said.iter().map(|(line, _)| *line).collect();
    assert_eq!(lines, [4, 7, 13, 14, 15], "{said:#?}");
    assert!(said[0].1.contains("`chemistry` is given twice") && said[0].1.contains("line 3"), "{}", said[0].1);
    assert!(said[2].1.contains("`share_on` is given twice"), "{}", said[2].1);
    assert!(said[3].1.contains("`vehicle` is given twice") && said[3].1.contains("line 8"), "{}", said[3].1);
}

/// Whatever stands in a plan, a message is a sentence or two and no page.
#[test]
fn messages_stay_short_whatever_is_in_the_file() {
    let long = "x".repeat(100_000);
    for section in [
        format!("[vehicle]\nalternator = \"{long}\"\n"),
        format!("[vehicle]\ndriving = \"{long}\"\n"),
        format!("[vehicle]\ndriving = [\"{long}-{long}\"]\n"),
        format!("[vehicle]\ndriving_days = \"{long}\"\n"),
        format!("[vehicle]\n{long} = 1\n"),
        format!("[{long}]\n"),
        format!("[[load]]\nname = \"{long}\"\n"),
        format!("[[load]]\nname = \"a\"\nat = \"{long}\"\n"),
        format!("[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = 1\nsize = \"{long}\"\n"),
        format!("[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = 1\nsize = \"6 {long}\"\n"),
        format!("[[load]]\nname = \"a\"\npower_w = 1{}\n", "0".repeat(100_000)),
        format!("{long} = 1\n{long} = 2\n"),
        format!("[[load]]\nname = \"a\"\nduty = {{ {long} = 1 }}\n"),
    ] {
        let found = problems(&format!("{HEAD}{section}"));
        assert!(!found.is_empty());
        for problem in found {
            assert!(problem.what.chars().count() <= 200, "{} characters", problem.what.chars().count());
            assert!(problem.to_string().chars().count() <= 1000, "{} characters", problem.to_string().chars().count());
        }
    }
}

/// A mark that some editors put before a text moves no column.
#[test]
fn a_byte_order_mark_moves_no_column() {
    let plan = read("\u{feff}format = 2\n[service_battery]\nchemistry = \"agm\"\n", &CATALOGUE);
    assert_eq!(plan.problems, []);
    let found = problems("\u{feff}format = 3\n");
    assert_eq!((found[0].line, found[0].column), (1, 10));
}

/// A chemistry may be given by its short name.
#[test]
fn chemistries_have_short_names() {
    let read = read("format = 2\n[service_battery]\nchemistry = \"LFP\"\n", &CATALOGUE);
    assert_eq!(read.problems, []);
    assert_eq!(read.plan.service_battery.chemistry, "lithium-iron-phosphate");
}

/// Both spellings of sizes, and places with blanks for hyphens.
#[test]
fn sizes_and_picks_are_read_as_people_write_them() {
    for size in ["size_mm2 = 10", "size = \"10 mm2\"", "size = \"10mm²\""] {
        let text = format!(
            "{HEAD}[[run]]\nfrom = \"service battery\"\nto = \"b\"\nlength_m = 2\nsurroundings = \"under floor\"\n{size}\n"
        );
        let read = read(&text, &CATALOGUE);
        assert_eq!(read.problems, [], "{size}");
        assert_eq!(read.plan.runs[0].size.as_deref(), Some("10 mm²"), "{size}");
        assert_eq!(read.plan.runs[0].surroundings, "under-floor");
    }
    one_in(
        "[[run]]\nfrom = \"service battery\"\nto = \"b\"\nlength_m = 2\nsize = \"7.3 mm2\"\n",
        8,
        &["7.3 mm²", "catalogue"],
    );
}

proptest::proptest! {
    /// Any text read as a plan gives problems or a plan, never a panic.
    #[test]
    fn any_text_is_survived(text in "(?s).{0,300}") {
        let _ = read(&text, &CATALOGUE);
    }

    /// Nor do keys and values of the right shape in the wrong places.
    #[test]
    fn shuffled_plans_are_survived(cuts in proptest::collection::vec(0usize..4000, 1..8)) {
        let example = loomwright::plan::default_example().text;
        let mut text = example.to_string();
        for cut in cuts {
            let lines: Vec<&str> = text.lines().collect();
            let at = cut % lines.len().max(1);
            let (a, b) = lines.split_at(at);
            text = [b, a].concat().join("\n");
        }
        let _ = read(&text, &CATALOGUE);
    }
}

/// A size that two scales have, or that is a diameter, is refused with the trap named; what is sold as B&S is read as
/// what it holds, and 8 mm² is a size of road-vehicle cable (ISO 6722-1).
#[test]
fn sizes_that_mislead_are_told() {
    let size = |text: &str| {
        read(&format!("{HEAD}[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = 1\nsize = \"{text}\"\n"), &CATALOGUE)
    };
    for (text, words) in [("8", "8.37 mm²"), ("10", "5.26 mm²"), ("6 mm", "4.59 mm²")] {
        let problem = size(text).problems[0].to_string();
        assert!(problem.contains(words), "{text}: {problem}");
    }
    for (text, label) in [("8 B&S", "8 B&S"), ("8 AWG", "8 AWG"), ("8 mm2", "8 mm² vehicle"), ("6 mm2", "6 mm²")] {
        assert_eq!(size(text).plan.runs[0].size.as_deref(), Some(label));
    }
}
