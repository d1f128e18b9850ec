//! A basket, a tray and a cabinet cut and bent on paper from the printed sheet alone have the inside asked for.

use crate::plans::{CATALOGUE, designed};
use loomwright::papers::{Job, Look, markdown, marking_out};
use std::f64::consts::FRAC_PI_2;

/// What the sheet tells of one piece, as a hand reads it.
#[derive(Default, Debug)]
struct Sheet {
    length: f64,
    width: f64,
    thick: f64,
    /// Along the length: middle of a bend and its way, 1 to the marked face and -1 away from it.
    lengthwise: Vec<(f64, f64)>,
    widthwise: Vec<(f64, f64)>,
    /// What of the blank a bend takes, as printed.
    arcs: Vec<f64>,
    /// Leg of an angle, and both its sawn ends: where on the free edge and on the back.
    leg: Option<f64>,
    ends: Vec<(f64, f64)>,
    holes: Vec<(f64, f64)>,
}

fn number(text: &str) -> f64 {
    text.trim().trim_end_matches(" mm").trim_end_matches(" mm thick").parse().unwrap_or_else(|_| panic!("{text}"))
}

/// The pieces by name, out of the printed page and nothing else.
fn read(page: &str) -> Vec<(String, Sheet)> {
    let mut all: Vec<(String, Sheet)> = Vec::new();
    for line in page.lines().map(|l| l.replace('\\', "")) {
        if let Some((_, name)) = line.strip_prefix("## ").and_then(|l| l.split_once(" × ")) {
            all.push((name.into(), Sheet::default()));
        } else if let Some(cut) = line.strip_prefix("Cut ") {
            let (sides, rest) = cut.split_once(", ").unwrap();
            let (length, width) = sides.split_once(" × ").unwrap();
            let thick = rest.split_once(" thick").unwrap().0;
            let sheet = &mut all.last_mut().unwrap().1;
            (sheet.length, sheet.width, sheet.thick) = (number(length), number(width), number(thick));
        }
        if let Some((length, rest)) = line.strip_prefix("Saw ").and_then(|l| l.split_once(" of equal angle ")) {
            let (leg, rest) = rest.split_once(" × ").unwrap();
            let thick = rest.split_once(", ").unwrap().1.split_once(" thick").unwrap().0;
            let sheet = &mut all.last_mut().unwrap().1;
            (sheet.length, sheet.leg, sheet.thick) = (number(length), Some(number(leg)), number(thick));
        }
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let Some(n) = cells[0].split_once(". ").and_then(|(n, _)| n.parse::<usize>().ok()) else { continue };
        match cells.len() {
            8 => {
                let way = if cells[7].starts_with("up") { 1.0 } else { -1.0 };
                let sheet = &mut all[n - 1].1;
                let fold = (number(cells[4]), way);
                match cells[2] {
                    "left end" => sheet.lengthwise.push(fold),
                    _ => sheet.widthwise.push(fold),
                }
                sheet.arcs.push(number(cells[5]) - number(cells[3]));
            }
            5 if cells[4] == "45°" => all[n - 1].1.ends.push((number(cells[2]), number(cells[3]))),
            5 if cells[1].ends_with(" mm") && cells[3] == "3.0 mm" => {
                all[n - 1].1.holes.push((number(cells[1]), number(cells[2])));
            }
            _ => {}
        }
    }
    all
}

/// A strip bent at its marks: where the middle of its thickness runs straight, from and to, and at which ordinate of the
/// blank that begins. The marked face is on the left of the way. Plain geometry: each bend turns a quarter around the
/// inside radius, and takes from the blank the length of the neutral line.
fn bent(mut folds: Vec<(f64, f64)>, length: f64, (radius, thick, neutral): (f64, f64, f64)) -> Vec<Straight> {
    folds.sort_by(|a, b| a.0.total_cmp(&b.0));
    let arc = FRAC_PI_2 * (radius + neutral * thick);
    let (mut at, mut flat, mut way) = ((0.0f64, 0.0f64), 0.0, 0.0f64);
    let mut all = Vec::new();
    let step = |at: (f64, f64), way: f64, far: f64| (at.0 + far * way.cos(), at.1 + far * way.sin());
    for (middle, turn) in folds {
        let end = step(at, way, middle - arc / 2.0 - flat);
        all.push(Straight { from: at, to: end, flat, way });
        let around = radius + thick / 2.0;
        let centre = step(end, way + turn * FRAC_PI_2, around);
        way += turn * FRAC_PI_2;
        at = step(centre, way - turn * FRAC_PI_2, around);
        flat = middle + arc / 2.0;
    }
    all.push(Straight { from: at, to: step(at, way, length - flat), flat, way });
    all
}

#[derive(Debug)]
struct Straight {
    from: (f64, f64),
    to: (f64, f64),
    flat: f64,
    way: f64,
}

impl Straight {
    /// Where a mark of the blank has come to.
    fn of(&self, mark: f64) -> (f64, f64) {
        let far = mark - self.flat;
        (self.from.0 + far * self.way.cos(), self.from.1 + far * self.way.sin())
    }
}

/// Four sawn angles laid end to end, mitre on mitre: where each begins and ends at its back, and at its free edge. At each
/// corner the way turns by both slopes of the cuts that meet there, as far as a saw set from the marks leans.
fn closed(sides: [&Sheet; 4]) -> Vec<[(f64, f64); 4]> {
    let (mut at, mut way, mut all) = ((0.0f64, 0.0f64), 0.0f64, Vec::new());
    for (n, side) in sides.iter().enumerate() {
        let (leg, (left, right)) = (side.leg.unwrap(), (side.ends[0], side.ends[1]));
        // Along the back, which is on the right of the free edge as the sheet draws it; out is to the left of the way.
        let to = |far: f64, out: f64| {
            let from_back = far - left.1;
            (at.0 + from_back * way.cos() - out * way.sin(), at.1 + from_back * way.sin() + out * way.cos())
        };
        let corners = [to(left.1, 0.0), to(right.1, 0.0), to(left.0, leg), to(right.0, leg)];
        all.push(corners);
        let next = sides[(n + 1) % 4];
        let lean = ((right.0 - right.1) / leg).atan() + ((next.ends[0].1 - next.ends[0].0) / next.leg.unwrap()).atan();
        at = corners[1];
        way -= lean;
    }
    all
}

/// Between the faces of two ends that were bent up: the way runs down the first, along the bottom and up the second once
/// it is turned so that the bottom lies level.
fn between(bent: &[Straight], thick: f64) -> f64 {
    let (bottom, up) = (&bent[1], &bent[2]);
    let along = |p: (f64, f64)| p.0 * bottom.way.cos() + p.1 * bottom.way.sin();
    along(up.from) - along(bent[0].from) - thick
}

/// How far such an end stands above the face of the bottom.
fn rises(bent: &[Straight], thick: f64) -> f64 {
    let bottom = &bent[1];
    let above = |p: (f64, f64)| p.1 * bottom.way.cos() - p.0 * bottom.way.sin();
    above(bent[2].to) - above(bottom.from) - thick / 2.0
}

/// Neutral line in the thickness by DIN 6935 (from memory): half of 0.65 + 0.5 log10(r / s), of 1 from five times on.
fn din_6935(radius: f64, thick: f64) -> f64 {
    (0.65 + 0.5 * (radius / thick).log10()).min(1.0) / 2.0
}

/// What is asked for, and how the metal really bends.
#[derive(Debug)]
struct Asked {
    style: &'static str,
    inside: [f64; 3],
    thick: f64,
    radius: f64,
    rim: f64,
    neutral: f64,
    told: String,
}

/// Drawn by a plain congruential generator (Numerical Recipes' quick one), the same on every machine.
fn drawn(n: usize) -> Asked {
    let mut seed = 12_345u32.wrapping_mul(n as u32 + 1);
    let mut next = |low: f64, high: f64| {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        low + (high - low) * f64::from(seed >> 8) / f64::from(1u32 << 24)
    };
    let thick = [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0][next(0.0, 6.99) as usize];
    let radius = (thick * next(1.0, 3.0)).round();
    let inside = [next(220.0, 620.0), next(150.0, 380.0), next(180.0, 320.0)].map(f64::round);
    let rim = (radius + thick + next(25.0, 50.0)).round();
    let neutral = next(0.33, 0.48);
    let (told, neutral) = match n % 3 {
        0 => (format!("k_factor = {neutral:.4}"), neutral),
        // A strip of 300 mm in the maker's own tools: its outside legs are what the bend does not take, and two outside
        // radii more.
        1 => {
            let legs = 300.0 - FRAC_PI_2 * (radius + neutral * thick) + 2.0 * (radius + thick);
            (format!("trial_flat_mm = 300\ntrial_legs_mm = {legs:.4}"), neutral)
        }
        _ => (String::new(), din_6935(radius, thick)),
    };
    Asked {
        style: ["strip-basket", "strip-basket", "tray", "cabinet"][n % 4],
        inside,
        thick,
        radius,
        rim,
        neutral,
        told,
    }
}

/// A leg of angle and its thickness, of some that are sold (EN 10056-1).
fn angle(n: usize) -> (f64, f64) {
    [(30.0, 3.0), (40.0, 4.0), (50.0, 5.0), (60.0, 6.0), (80.0, 8.0)][n / 4 % 5]
}

fn page(asked: &Asked, (leg, thin): (f64, f64)) -> String {
    let [along, across, high] = asked.inside;
    let text = format!(
        "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\nmass_kg = 20\n[hold_down]\nstyle = \"{}\"\n\
         length_mm = {along}\nwidth_mm = {across}\nheight_mm = {high}\nthickness_mm = {}\nbend_radius_mm = {}\n\
         rim_mm = {}\nstrip_width_mm = 60\nstuds_along = 2\nstud = \"M10\"\nstrap_leg_mm = {leg}\nstrap_thickness_mm = {thin}\n{}\n",
        asked.style, asked.thick, asked.radius, asked.rim, asked.told
    );
    let (plan, design) = designed(&text);
    let job = Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] };
    markdown(&marking_out(&job).unwrap_or_else(|| panic!("no sheet for {text}")), &Look::default())
}

/// Within a millimetre of what was asked for.
#[track_caller]
fn within(what: &str, asked: &Asked, wanted: f64, got: f64) {
    assert!((wanted - got).abs() <= 1.0, "{what}: {wanted} asked for, {got} bent; {asked:?}");
}

#[test]
fn what_is_bent_from_the_printed_sheet_alone_has_the_inside_asked_for() {
    let (mut measured, mut strapped) = (0, 0);
    for n in 0..60 {
        let asked = drawn(n);
        let pieces = read(&page(&asked, angle(n)));
        let [along, across, high] = asked.inside;
        for (name, sheet) in &pieces {
            let metal = (asked.radius, asked.thick, asked.neutral);
            let arc = FRAC_PI_2 * (asked.radius + asked.neutral * asked.thick);
            assert!(sheet.arcs.iter().all(|a| (a - arc).abs() < 0.25), "{arc} in a bend: {sheet:?} of {asked:?}");
            let flat = bent(sheet.lengthwise.clone(), sheet.length, metal);
            measured += 1;
            match name.as_str() {
                "cross strip" => {
                    within("between the legs", &asked, across, flat[3].from.0 - flat[1].from.0 - asked.thick);
                    // The ear's upper face lies on the deck, the bottom's upper face carries the battery.
                    within("deep", &asked, high, flat[0].from.1 - flat[2].from.1);
                    within("ears level", &asked, flat[0].from.1, flat[4].from.1);
                    let mut holes: Vec<f64> = sheet.holes.iter().map(|h| h.0).collect();
                    holes.sort_by(f64::total_cmp);
                    let apart = flat[4].of(holes[1]).0 - flat[0].of(holes[0]).0;
                    // The ears are drilled in their middle.
                    within("studs", &asked, across + 2.0 * asked.thick + asked.rim, apart);
                }
                "side strap along" => {
                    assert_eq!((sheet.leg, sheet.thick), (Some(angle(n).0), angle(n).1));
                    let other = pieces.iter().find(|p| p.0 == "side strap across").map(|p| &p.1).unwrap();
                    let frame = closed([sheet, other, sheet, other]);
                    // Their backs lie on the outside of the strips, those across outside of the long strip's ends.
                    let outside = [along, across].map(|inside| inside + 2.0 * asked.thick);
                    let far = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).hypot(a.1 - b.1);
                    for (n, side) in frame.iter().enumerate() {
                        let next = frame[(n + 1) % 4];
                        within("strap on the strips", &asked, outside[n % 2], far(side[0], side[1]));
                        within("backs meet", &asked, 0.0, far(side[1], next[0]));
                        within("free edges meet", &asked, 0.0, far(side[3], next[2]));
                    }
                    within("square", &asked, outside[0].hypot(outside[1]), far(frame[0][0], frame[1][1]));
                    strapped += 1;
                }
                "long strip" => within("between the ends", &asked, along, between(&flat, asked.thick)),
                "tray" => {
                    let sides = bent(sheet.widthwise.clone(), sheet.width, metal);
                    for (what, wanted, side) in [("tray along", along, &flat), ("tray across", across, &sides)] {
                        within(what, &asked, wanted, between(side, asked.thick));
                        within("rim", &asked, asked.rim, rises(side, asked.thick));
                    }
                }
                "wall wrap" => {
                    assert_eq!(flat.len(), 5, "{sheet:?}");
                    let (right, left) = (flat[1].from.0, flat[3].from.0);
                    within("cabinet along", &asked, along, right - left - asked.thick);
                    within("cabinet across", &asked, across, flat[2].from.1 - flat[0].from.1 - asked.thick);
                    within("it closes", &asked, 0.0, flat[4].to.0 - flat[0].from.0);
                    within("it closes", &asked, 0.0, flat[4].to.1 - flat[0].from.1);
                    within("walls", &asked, high, sheet.width);
                }
                _ => measured -= 1,
            }
        }
    }
    assert!(measured >= 60 && strapped >= 20, "{measured} pieces were bent, {strapped} straps laid");
}
