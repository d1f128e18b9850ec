//! A part of one's own from its data sheet: asked line by line, checked, kept, and taken into the plan.

use crate::driver::Driver;
use loomwright::catalogue::Catalogue;
use loomwright::screens::OwnRows;
use std::fs;
use std::path::Path;

/// The screens with a folder of the user's own.
fn with(folder: &Path) -> Driver {
    let mut d = Driver::new(80, 24);
    d.app.rows = Some(OwnRows { folder: folder.join("profiles"), others: Vec::new() });
    d
}

fn kept(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join("profiles").join(name)).unwrap()
}

#[test]
fn a_battery_is_entered_kept_and_taken() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    d.keys("y").sees("A part of your own, from its data sheet").sees("‹ battery ›").sees("Capacity");
    // The line in hand says where it stands on the sheet, and what is usual.
    d.keys("'Shelf 80' Down Right Down").sees("usual: 100 Ah").sees("(C20)");
    d.keys("'0'").sees("Capacity: 0 Ah is out of range");
    d.keys("C-s").sees("out of range");
    assert!(!folder.path().join("profiles").exists(), "nothing is kept of what is refused");
    d.keys("Backspace '80 Ah' Down '21 kg'").sees("shelf-80.toml");
    d.keys("C-s").sees("Kept").sees("Is this plan to use the battery shelf-80?");
    let text = kept(folder.path(), "chemistries/shelf-80.toml");
    assert!(text.contains("Shelf 80") && text.contains("how = \"user\""), "{text}");
    d.keys("t").sees_not("Is this plan");
    let battery = &d.app.now.plan.service_battery;
    assert_eq!((battery.chemistry.as_str(), battery.capacity.map(|c| c.get())), ("shelf-80", Some(80.0)));
    d.keys("u");
    assert_ne!(d.app.now.plan.service_battery.chemistry, "shelf-80");
}

/// What can hardly be is told while it is typed, and kept all the same.
#[test]
fn a_row_against_physics_is_a_caution() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    d.keys("y 'Tiny' Down*2 '10' Down*2 '0.1'").sees("caution: Tiny is said to have 0.1 mΩ at 10 Ah");
    d.keys("C-s t");
    let told = |f: &loomwright::engine::Finding| f.kind == loomwright::engine::FindingKind::RowDoubtful;
    assert!(d.app.now.design.findings.iter().any(told));
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    d.keys("y Up Right*3").sees("‹ cable ›");
    d.keys("Down '1 mm² reel' Down*2 '1' Down '19.5' Down '2.1' Down '200'")
        .sees("caution: 1 mm² reel is said to carry 200 A");
    d.keys("C-s").sees("kept; choose `1 mm² reel` as the size of a run");
    assert!(kept(folder.path(), "conductors/1-mm-reel.toml").contains("carries_a = 200"));
    assert!(d.app.catalogue.conductor("1 mm² reel").is_some());
}

/// Fuse and charger; the charger of one's own is found by name and fills in what its sheet says.
#[test]
fn fuse_and_charger_of_ones_own() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    d.keys("/ 'fuse of your own' Enter").sees("‹ fuse ›");
    d.keys("'My bolt' Down*2 '60 80 100 A' Down '32' Down '2 kA' C-s").sees("kept; choose `my-bolt`");
    assert!(kept(folder.path(), "fuse-links/my-bolt.toml").contains("only_asked = true"));
    d.keys("/ 'charger of your own' Enter 'Thirty' Down*2 '30 A' Down '14.2 V' Down '94%' Down '10.5' C-s")
        .sees("Kept");
    d.keys("n / 'use the charger thirty' Enter");
    let charger = &d.app.now.plan.charger;
    let volts = [charger.output_voltage, charger.lowest_input].map(|v| v.map(|v| v.get()));
    assert_eq!((charger.current.map(|a| a.get()), volts), (Some(30.0), [Some(14.2), Some(10.5)]));
    assert!((charger.efficiency.get() - 0.94).abs() < 1e-12);
}

/// What is there is replaced only when asked twice; a built-in row's name is refused; without a folder it says so.
#[test]
fn nothing_is_overwritten_by_a_slip() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    let reel =
        |name: &str, ohms: &str| format!("/ 'cable of your own' Enter '{name}' Down*2 '7' Down '{ohms}' Down '5' C-s");
    d.keys(&reel("7 mm² reel", "2.8")).sees("kept;");
    d.keys(&reel("7 mm² reel", "2.7")).sees("Ctrl+S again replaces it");
    assert!(kept(folder.path(), "conductors/7-mm-reel.toml").contains("2.8"));
    d.keys("C-s").sees("kept;");
    assert!(kept(folder.path(), "conductors/7-mm-reel.toml").contains("2.7"));
    // Twice that of IEC 60228 is no copper of that area.
    d.keys(&reel("8 mm² reel", "9")).sees("check the unit");
    d.keys("Esc y 'AGM' Down*2 '100'").sees("`agm` is a row of the program");
    d.keys("Esc");
    d.app.rows = None;
    d.keys("y 'Mine' Down*2 '100' C-s").sees("no folder of yours");
    // What was written is read by whoever starts the program next.
    let layer = loomwright::catalogue::Layer::from_folder(&folder.path().join("profiles")).unwrap();
    assert!(Catalogue::with_layers(&[layer]).unwrap().conductor("7 mm² reel").is_some());
}

/// The form whole, in the smallest usual window.
#[test]
fn the_form_fits_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = with(folder.path());
    d.app.rows = Some(OwnRows { folder: "/home/you/.config/loomwright/profiles".into(), others: Vec::new() });
    d.keys("y 'Shelf 80' Down*2 '80 Ah' Down '2 kg' Down '4' Down*7");
    d.sees("title and date of the sheet")
        .sees("80 Ah")
        .sees("4 mΩ")
        .sees("usual: for 100 Ah 26 kg lead,")
        .sees("usual: per Ah 0.2 A lead, 0.5 A")
        .sees_not("…")
        .sees("caution: Shelf 80 is said to weigh 2 kg")
        .sees("Ctrl+S keeps it in your folder of profiles");
    insta::assert_snapshot!("own-row", d.screen());
}
