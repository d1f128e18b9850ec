//! A basket's cross strip cut, drilled and bent from the drawing alone has the inside asked for.

use crate::workshop::{example, papers, says};
use std::f64::consts::FRAC_PI_2;

/// Entities of a DXF as the standard has it (Autodesk, DXF Reference, release 12, from memory): pairs of a code and a
/// value, a line each. Layer, and the values of 10, 20, 11, 21 and 40.
fn entities(dxf: &str) -> Vec<(String, String, [f64; 5])> {
    let lines: Vec<&str> = dxf.lines().map(str::trim).collect();
    assert_eq!(lines.len() % 2, 0, "codes and values in pairs");
    assert_eq!(lines[lines.len() - 2..], ["0", "EOF"]);
    let mut all: Vec<(String, String, [f64; 5])> = Vec::new();
    for pair in lines.chunks(2) {
        match (pair[0], all.last_mut()) {
            ("0", _) => all.push((pair[1].into(), String::new(), [f64::NAN; 5])),
            ("8", Some(last)) => last.1 = pair[1].into(),
            (code, Some(last)) => {
                if let Some(at) = ["10", "20", "11", "21", "40"].iter().position(|c| *c == code) {
                    last.2[at] = pair[1].parse().unwrap();
                }
            }
            _ => {}
        }
    }
    all
}

fn basket(t: f64, r: f64, rim: f64, neutral: &str) -> String {
    let plan = example("beekeeper-truck");
    let (before, rest) = plan.split_once("[hold_down]\n").unwrap();
    let (_, after) = rest.split_once("\n[[").unwrap();
    format!(
        "{before}[hold_down]\nstyle = \"strip-basket\"\nstud = \"M10\"\nbattery_length_mm = 522\nbattery_width_mm = 268\n\
         battery_height_mm = 240\nclearance_mm = 5\nstrip_width_mm = 80\nthickness_mm = {t}\nbend_radius_mm = {r}\n\
         rim_mm = {rim}\n{neutral}\n\n[[{after}"
    )
}

/// The blank walked along the middle of its thickness, each bend taking from the flat the length of its neutral line.
/// Plain geometry; K as the test gives it. Inside 268 + 2 × 5 wide and 240 + 5 high by the plan.
#[test]
fn a_strip_bent_from_its_drawing_has_the_inside_asked_for() {
    for (t, r, rim, k) in [(4.0, 6.0, 45.0, 0.36), (12.0, 12.0, 45.0, 0.4), (8.0, 16.0, 60.0, 0.45)] {
        let files = papers(&basket(t, r, rim, &format!("k_factor = {k}")));
        let entities = entities(&files["marking-out-1.dxf"]);
        let on = |layer: &str| entities.iter().filter(|e| e.1 == layer).map(|e| e.2).collect::<Vec<_>>();
        let length = on("CUT").iter().fold(0.0, |most: f64, e| most.max(e[0]).max(e[2]));
        let mut marks: Vec<f64> = on("BEND").iter().map(|e| e[0]).collect();
        marks.sort_by(f64::total_cmp);
        assert_eq!(marks.len(), 4);
        let (radius, arc) = (r + t / 2.0, FRAC_PI_2 * (r + k * t));
        let (mut at, mut flat, mut way) = ((0.0f64, 0.0f64), 0.0, 0.0f64);
        let mut straights = Vec::new();
        for (mark, turn) in marks.iter().zip([-1.0, 1.0, 1.0, -1.0]) {
            let straight = mark - arc / 2.0 - flat;
            straights.push((at, straight, flat));
            at = (at.0 + straight * way.cos(), at.1 + straight * way.sin());
            let middle = (at.0 - turn * radius * way.sin(), at.1 + turn * radius * way.cos());
            way += turn * FRAC_PI_2;
            at = (middle.0 + turn * radius * way.sin(), middle.1 - turn * radius * way.cos());
            flat = mark + arc / 2.0;
        }
        straights.push((at, length - flat, flat));
        let wide = straights[3].0.0 - straights[1].0.0 - t;
        assert!((wide - 278.0).abs() < 1.0, "t {t}: {wide} wide");
        let high = straights[0].0.1 - straights[2].0.1;
        assert!((high - 245.0).abs() < 1.0, "t {t}: {high} high");
        // An arrow along the piece, within it, that says which way round it was drilled.
        let marks = on("MARK");
        assert_eq!(marks.len(), 3);
        let (tail, tip) = ((marks[0][0], marks[0][1]), (marks[0][2], marks[0][3]));
        assert!(tip.0 > tail.0 && tip.1 == tail.1 && tail.0 > 0.0 && tip.0 < length, "{marks:?}");
        assert!(marks[1..].iter().all(|barb| (barb[0], barb[1]) == tip && barb[2] < tip.0), "{marks:?}");
        // The ears' middles lie half a rim outside the legs: there the studs are, as far apart as the deck is drilled.
        let holes: Vec<f64> = on("DRILL").iter().map(|e| e[0]).collect();
        assert_eq!(holes.len(), 2);
        let far = straights[4].0.0 + (holes.iter().fold(0.0, |a: f64, b| a.max(*b)) - straights[4].2);
        let near = holes.iter().fold(f64::INFINITY, |a: f64, b| a.min(*b));
        let apart = far - near;
        assert!((apart - (278.0 + 2.0 * t + rim)).abs() < 1.0, "t {t}: studs {apart} apart");
        // M10, medium clearance hole of ISO 273.
        assert!(on("DRILL").iter().all(|e| (e[4] - 5.5).abs() < 1e-9));
    }
}

/// A trial strip of 200 mm, 4 mm thick, bent around 6 mm: by hand, with the neutral line at 0.36 of the thickness its
/// bend takes π/2 × 7.44 = 11.687 mm, so its legs are 200 - 11.687 + 2 × 10 = 208.313 mm together.
#[test]
fn the_makers_own_trial_strip_moves_the_marks() {
    let by_k = papers(&basket(4.0, 6.0, 45.0, "k_factor = 0.36"));
    let trial = "trial_flat_mm = 200\ntrial_legs_mm = 208.3133";
    let by_trial = papers(&basket(4.0, 6.0, 45.0, trial));
    let bends = |files: &std::collections::BTreeMap<String, String>| -> Vec<f64> {
        let all = entities(&files["marking-out-1.dxf"]).into_iter();
        all.filter(|e| e.1 == "BEND").map(|e| e.2[0]).collect()
    };
    for (trial, k) in bends(&by_trial).iter().zip(bends(&by_k)) {
        assert!((trial - k).abs() < 0.01, "{trial} by the trial strip, {k} by K");
    }
    says(&by_trial["marking-out.md"], &["no approval", "by your trial strip"]);
    let other = papers(&basket(4.0, 6.0, 45.0, &trial.replace("208.3133", "207.9")));
    // The bend takes 0.413 mm more, so the strip is longer by four times that, and the last mark moves with it.
    let moved = bends(&other)[1] - bends(&by_k)[1];
    assert!((moved - 3.5 * 0.4133).abs() < 0.01, "{moved}");
}

/// All that the sheet must say to a hand.
#[test]
fn the_sheet_says_how_it_is_made() {
    let files = papers(example("beekeeper-truck"));
    let sheet = &files["marking-out.md"];
    says(
        sheet,
        &[
            "no approval",
            "2 × cross strip",
            "1 × long strip",
            "2 × side strap along",
            "2 × side strap across",
            "Bends and holes",
            "down, away from it",
        ],
    );
    says(
        sheet,
        &["Sawing from bars and sheets", "spreader plates", "Order of work", "pilot", "steel lies on aluminium"],
    );
    says(
        sheet,
        &["Pitch of the studs: 452.0 mm along, 347.0 mm across", "both diagonals", "pads of closed-cell rubber"],
    );
    let steps = &files["job-card.md"];
    says(
        steps,
        &[
            "a sizing aid and no approval",
            "into the hold-down on the ground",
            "NIOSH",
            "ISO 11228-1",
            "never hands",
            "Raise the hold-down alone",
            "over its saddle",
            "Keep out from under it",
            "Mount the cut-off beside the hold-down: IP66-67, terminals downward",
            "Tighten its studs corner to corner",
            "after the first 100 km",
        ],
    );
    let report = &files["report.md"];
    says(
        report,
        &[
            "no approval",
            "by its weakest link",
            "To folding",
            "by rough reckoning",
            "What hangs on it or close beside it",
        ],
    );
    let tray = papers(example("bird-ringing-van"));
    let sheet = &tray["marking-out.md"];
    says(
        sheet,
        &["no drawing at full size", "out of each corner", "lower edge", "To buy", "rods M", "a die M", "for them"],
    );
    assert!(tray.contains_key("csv/marking-bends.csv"));
}
