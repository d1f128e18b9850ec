//! What to look up where the vehicle is registered: listed with edition and how it is known, never as the last word.

use crate::plans::CATALOGUE;
use crate::workshop::{example, papers, says};

/// Of each region the documents that its builders are held to.
const ASKED: [(&str, &[&str]); 4] = [
    ("europe", &["EN 1648-1", "EN 1648-2", "HD 60364-7-721", "UN Regulation No. 10"]),
    ("united-kingdom", &["EN 1648-1", "EN 1648-2", "BS 7671, section 721", "UN Regulation No. 10"]),
    ("north-america", &["NFPA 1192"]),
    ("australia-new-zealand", &["AS/NZS 3001.2", "2022"]),
];
const EVERYWHERE: [&str; 4] = ["33 CFR 183", "ABYC E-11", "axle masses", "insurer"];

fn with_region(line: &str) -> String {
    let van = example("bird-ringing-van");
    assert!(van.contains("region = \"united-kingdom\"\n"), "the example says where it is registered");
    van.replace("region = \"united-kingdom\"\n", line)
}

#[test]
fn report_and_test_sheet_list_what_to_look_up() {
    for (key, documents) in ASKED {
        let papers = papers(&with_region(&format!("region = \"{key}\"\n")));
        for name in ["report.md", "test-sheet.md"] {
            let (_, list) = papers[name].split_once("ooked up\n").or(papers[name].split_once("To look up\n")).unwrap();
            says(list, &[&CATALOGUE.region(key).unwrap().name, "never the last word"]);
            documents.iter().chain(&EVERYWHERE).for_each(|document| says(list, &[document]));
            for (_, others) in ASKED.iter().filter(|(other, _)| *other != key) {
                let foreign = others.iter().filter(|d| !documents.contains(d) && **d != "2022");
                foreign.for_each(|document| assert!(!list.contains(document), "{key} lists {document}"));
            }
        }
        says(&papers["test-sheet.md"], &["How known", "Seen", "from memory, verify", "______"]);
    }
}

/// Good practice is what 33 CFR 183 and ABYC E-11 are to a road vehicle; both are for boats.
#[test]
fn rules_for_boats_are_no_law_for_a_vehicle() {
    for key in ["33-cfr-183", "abyc-e-11"] {
        let row = CATALOGUE.look_ups.iter().find(|l| l.key == key).unwrap();
        assert_eq!(row.standing.words(), "good practice");
        assert!(row.regions.is_empty());
    }
}

#[test]
fn without_a_region_only_what_holds_everywhere_is_listed() {
    let papers = papers(&with_region(""));
    let report = &papers["report.md"];
    says(report, &["names no region", "europe", "australia-new-zealand", "never the last word", "33 CFR 183"]);
    let (_, list) = report.split_once("names no region").unwrap();
    assert!(!list.contains("EN 1648") && !list.contains("BS 7671"), "{list}");
}
