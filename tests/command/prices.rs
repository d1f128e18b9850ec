//! Prices of the user's own for every plan: what they come to, which counts before which, and what is said of a slip.

use crate::run::{err, out, run};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

const PLAN: &str = "tests/everyday/plans/fridge-and-light.toml";

/// What each line of the parts list costs, by its words.
fn prices(plan: &str, folder: Option<&Path>) -> BTreeMap<String, String> {
    let into = tempfile::tempdir().unwrap();
    let mut asked = vec!["papers", plan, "--into", into.path().to_str().unwrap(), "--replace"];
    asked.extend(folder.iter().flat_map(|f| ["--profiles", f.to_str().unwrap()]));
    let written = run(&asked);
    assert_ne!(written.status.code(), Some(2), "{}", err(&written));
    let mut list = csv::Reader::from_path(into.path().join("csv/parts.csv")).unwrap();
    let heads = list.headers().unwrap().clone();
    let at = |head: &str| heads.iter().position(|h| h == head).unwrap();
    let (what, price) = (at("what"), at("price"));
    list.records().map(|r| r.unwrap()).map(|r| (r[what].to_string(), r[price].to_string())).collect()
}

fn folder(text: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("prices.toml"), text).unwrap();
    folder
}

fn of<'a>(all: &'a BTreeMap<String, String>, word: &str) -> &'a str {
    let mut found = all.iter().filter(|(what, _)| what.contains(word));
    let (_, price) = found.next().unwrap_or_else(|| panic!("{word} in {all:?}"));
    price
}

/// By hand: the bank is one AGM block of 150 Ah, so 200 for 100 Ah are 300. A line with a price in the plan keeps that,
/// however many words another of the profiles has.
#[test]
fn prices_of_the_profiles_count_where_the_plan_has_none() {
    let own = folder(
        "[[price]]\nchemistry = \"agm\"\nper_100ah = 200\n\n[[price]]\npart = \"DC-DC charger\"\neach = 80\n\n\
         [[price]]\npart = \"notice at each battery\"\neach = 7\n",
    );
    let by_profiles = prices(PLAN, Some(own.path()));
    assert_eq!(of(&by_profiles, "service battery, "), "300");
    assert_eq!(of(&by_profiles, "DC-DC charger"), "80");
    assert_eq!(of(&by_profiles, "notice at each battery"), "7");
    let plan = own.path().join("plan.toml");
    let more = "\n[[price]]\nchemistry = \"agm\"\nper_100ah = 100\n\n[[price]]\npart = \"notice\"\neach = 3\n";
    fs::write(&plan, fs::read_to_string(PLAN).unwrap() + more).unwrap();
    // The plan lies in the folder of profiles here: it would be taken for one.
    let elsewhere = tempfile::tempdir().unwrap();
    let moved = elsewhere.path().join("plan.toml");
    fs::rename(&plan, &moved).unwrap();
    let by_both = prices(moved.to_str().unwrap(), Some(own.path()));
    assert_eq!(of(&by_both, "service battery, "), "150");
    assert_eq!(of(&by_both, "DC-DC charger"), "80");
    assert_eq!(of(&by_both, "notice at each battery"), "3");
    assert!(prices(PLAN, None).values().all(String::is_empty));
}

/// The rivals are summed by them too, and a later folder's price of the same part takes the place of an earlier one's.
#[test]
fn rivals_and_later_folders_know_them() {
    let [first, later] = [150, 250].map(|p| folder(&format!("[[price]]\nchemistry = \"agm\"\nper_100ah = {p}\n")));
    let paths = [&first, &later].map(|f| f.path().to_str().unwrap().to_string());
    let asked = ["rivals", PLAN, "--json", "--profiles", &paths[0], "--profiles", &paths[1]];
    let said: serde_json::Value = serde_json::from_str(&out(&run(&asked))).unwrap();
    let in_hand = &said["designs"][0]["sums"];
    let number = |v: &serde_json::Value| v.as_f64().or_else(|| v["value"].as_f64());
    assert_eq!(number(&in_hand["price"]), Some(375.0), "{in_hand}");
    let shelf = out(&run(&["catalogue", "prices", "--profiles", &paths[0], "--profiles", &paths[1]]));
    assert!(shelf.contains("agm") && shelf.contains("250") && !shelf.contains("150"), "{shelf}");
    assert!(out(&run(&["catalogue", "prices"])).contains("prices.toml"));
    let explained = out(&run(&["catalogue", "explain", "price.agm", "--profiles", &paths[1]]));
    assert!(explained.contains("per_100ah = 250") && explained.contains("entered by you"), "{explained}");
    let listed = out(&run(&["catalogue", "own", "--profiles", &paths[1]]));
    assert!(listed.contains("price of agm") && listed.contains("prices.toml"), "{listed}");
}

/// What names nothing that is bought is told with its file, its line and its field; so is a half of a price.
#[test]
fn a_slip_is_told_with_file_line_and_field() {
    for (text, place, words) in [
        ("[[price]]\npart = \"cabel 35 mm²\"\neach = 9\n", "prices.toml:2:", "`part` says “cabel”"),
        ("[[price]]\npart = \"cabel 35 mm²\"\neach = 9\n", "prices.toml:2:", "did you mean “cable”?"),
        ("[[price]]\neach = 9\npart = \"zeppelin\"\n", "prices.toml:3:", "as no line of a parts list does"),
        ("\n[[price]]\nchemistry = \"agn\"\nper_100ah = 9\n", "prices.toml:3:", "`chemistry` is “agn”, which is none"),
        ("[[price]]\npart = \"lug\"\neach = -1\n", "prices.toml:3:", "`each` is -1; it must be from 0 to 1000000"),
        ("[[price]]\npart = \"lug\"\n", "prices.toml:2:", "`part` is given without its price, `each`"),
        ("[[price]]\nper_100ah = 9\n", "prices.toml:2:", "`per_100ah` is given without its `chemistry`"),
        ("[[price]]\n", "prices.toml:1:", "a price needs"),
        ("[[price]]\npart = \" , \"\neach = 1\n", "prices.toml:2:", "`part` is empty"),
        ("[[price]]\npart = \"lug\"\neach = 1\nprice = 2\n", "prices.toml:4:", "unknown field `price`"),
        ("[[prise]]\npart = \"lug\"\n", "prices.toml:1:", "this file holds [[price]] rows"),
        (
            "[[price]]\npart = \"lug M8\"\neach = 1\n[[price]]\npart = \"Lug, M8\"\neach = 2\n",
            "prices.toml:4:",
            "there twice",
        ),
    ] {
        let own = folder(text);
        let refused = run(&["check", PLAN, "--profiles", own.path().to_str().unwrap()]);
        assert_eq!(refused.status.code(), Some(2), "{text}");
        let said = err(&refused).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(place) && said.contains(words), "{text}\n{said}");
    }
}
