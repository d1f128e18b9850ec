//! The wiring diagram: nothing overlaps, nothing crosses, everything is drawn, in black on white.

use crate::picture::{ink, is_grey, picture};
use crate::plans::{all_examples, designed, tree_plan};
use loomwright::papers::diagram::{Layout, Placed, Span, layout};
use proptest::prelude::*;

fn laid_out(text: &str) -> (usize, Layout) {
    let (plan, design) = designed(text);
    (design.runs.len(), layout(&plan, &design))
}

fn svgs(layout: &Layout) -> Vec<String> {
    layout.pictures().iter().map(|picture| picture.svg()).collect()
}

fn overlap(a: Span, b: Span) -> bool {
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

/// The straight pieces of all lines of a sheet: across to a child, and down along its parent.
fn pieces(placed: &[Placed]) -> Vec<Span> {
    let mut out = Vec::new();
    for p in placed {
        if let Some((from, y)) = p.wire_from {
            out.push(Span { left: from, top: y, right: p.x, bottom: y });
        }
        if let Some(low) = p.trunk_to.filter(|low| *low > p.y) {
            out.push(Span { left: p.out_x, top: p.y, right: p.out_x, bottom: low });
        }
    }
    out
}

/// Whether two pieces have a point in common that is not an end of one of them.
fn crosses(a: Span, b: Span) -> bool {
    let (across, down) = if a.top == a.bottom { (a, b) } else { (b, a) };
    if across.top != across.bottom || down.left != down.right {
        return false;
    }
    let e = 1e-6;
    down.left > across.left + e
        && down.left < across.right - e
        && across.top > down.top + e
        && across.top < down.bottom - e
}

fn check(runs: usize, layout: &Layout) {
    let sheets = layout.placed();
    for placed in &sheets {
        let boxes: Vec<(&str, Span)> = placed
            .iter()
            .flat_map(|p| [Some(p.extent), p.loads, p.label].into_iter().flatten().map(|s| (p.node.name.as_str(), s)))
            .collect();
        for (n, a) in boxes.iter().enumerate() {
            for b in boxes.iter().skip(n + 1) {
                assert!(!overlap(a.1, b.1), "`{}` and `{}` overlap: {a:?} {b:?}", a.0, b.0);
            }
        }
        for p in placed.iter().filter(|p| p.label.is_some()) {
            let room = p.label.map_or(0.0, |l| l.right - l.left);
            assert!(p.words_need() <= room, "the words of the run to `{}` need more than {room} mm", p.node.name);
        }
        for p in placed {
            for piece in pieces(placed) {
                let own = piece.top == p.y && piece.bottom == p.y;
                let trunk = piece.left == p.out_x && piece.right == p.out_x;
                let line = Span {
                    right: piece.right.max(piece.left + 1e-9),
                    bottom: piece.bottom.max(piece.top + 1e-9),
                    ..piece
                };
                for part in [Some(p.extent), p.loads].into_iter().flatten() {
                    assert!(own || trunk || !overlap(line, part), "a line runs through `{}`", p.node.name);
                }
            }
        }
        let lines = pieces(placed);
        for (n, a) in lines.iter().enumerate() {
            for b in lines.iter().skip(n + 1) {
                assert!(!crosses(*a, *b), "lines cross: {a:?} {b:?}");
            }
        }
    }
    let mut drawn: Vec<usize> = sheets.iter().flatten().filter_map(|p| p.node.wire.as_ref()?.run).collect();
    drawn.sort_unstable();
    let expected: Vec<usize> = (0..runs).collect();
    assert_eq!(drawn, expected, "each run is drawn once");
}

#[test]
fn examples_are_drawn_without_overlap_or_crossing() {
    for (name, text) in all_examples() {
        let (runs, layout) = laid_out(text);
        check(runs, &layout);
        assert_in_order(&layout, name);
        for (n, svg) in svgs(&layout).iter().enumerate() {
            let picture = picture(&format!("{name}-{}", n + 1), svg);
            assert!(is_grey(&picture), "black on white");
            let size = [picture.width(), picture.height()].map(|p| p as f32 / crate::picture::SCALE);
            assert!(points(size[0], size[1]) >= 7.0, "{name}: {size:?} mm");
            let share = ink(&picture, 0.0, 0.0, 1.0, 1.0);
            assert!((0.005..0.25).contains(&share), "{name}: {share} of the sheet is ink");
            for (edge, at) in [
                ("left", [0.0, 0.0, 0.005, 1.0]),
                ("right", [0.995, 0.0, 1.0, 1.0]),
                ("bottom", [0.0, 0.995, 1.0, 1.0]),
            ] {
                assert!(ink(&picture, at[0], at[1], at[2], at[3]) == 0.0, "{name} runs over the {edge} edge");
            }
        }
    }
}

#[test]
fn sixty_runs_go_on_sheets_that_can_be_read() {
    let (runs, layout) = laid_out(&tree_plan(60, |n| 3 + (n * 7) % (n - 3).max(1) / 2));
    check(runs, &layout);
    let sheets = svgs(&layout);
    for (n, svg) in sheets.iter().enumerate() {
        let picture = picture(&format!("sixty-{}", n + 1), svg);
        let (w, h) = (picture.width() as f32 / crate::picture::SCALE, picture.height() as f32 / crate::picture::SCALE);
        assert!(points(w, h) >= 7.0, "sheet {} is {w} x {h} mm: letters of {} points", n + 1, points(w, h));
    }
    assert_in_order(&layout, "sixty");
}

/// Size of the letters of 2.7 mm in points (25.4 mm / 72), once the page has shrunk the drawing to what is left of
/// the smaller of A4 (297 x 210 mm) and Letter (11 x 8.5 in) inside its margins and under its heading.
fn points(width: f32, height: f32) -> f32 {
    let shrink = (180.0 / width).min(228.0 / height).min(1.0);
    2.7 * shrink * 72.0 / 25.4
}

/// Pieces and sheets follow one another as the runs do, and each says where the rest is.
fn assert_in_order(layout: &Layout, name: &str) {
    let first = |placed: &[Placed]| placed.iter().filter_map(|p| p.node.wire.as_ref()?.run).min();
    let firsts: Vec<Option<usize>> = layout.placed().iter().map(|placed| first(placed)).collect();
    assert!(firsts.is_sorted(), "{name}: sheets begin with runs {firsts:?}");
    for (n, placed) in layout.placed().iter().enumerate() {
        for next in placed.iter().flat_map(|p| &p.node.next) {
            let here = |sheet: &Vec<Placed>| sheet.iter().any(|p| p.node.key == next.key);
            let at = layout.placed().iter().position(here).unwrap_or_else(|| panic!("{next:?} is nowhere"));
            let expected = if at == n { "below".to_string() } else { format!("on sheet {}", at + 1) };
            assert_eq!(next.place, expected, "{name}");
        }
    }
}

/// A charger that brings its own leads has no run: the drawing says that nobody planned them.
#[test]
fn leads_that_are_not_planned_say_so() {
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[mains]\ncurrent_a = 20\nat = \"service battery\"\n\
                [[run]]\nfrom = \"service battery\"\nto = \"panel\"\nlength_m = 1\n";
    let (_, layout) = laid_out(text);
    let svg = svgs(&layout).concat();
    assert!(svg.contains(">own leads, fuse<") && svg.contains(">at the post: not planned<"), "{svg}");
    assert!(layout.to_text(1, false).contains("own leads, fuse at the post: not planned"));
    // Where a run leads to it, that run is what is drawn, and the charger once.
    let run = "\n[[run]]\nfrom = \"service battery\"\nto = \"mains charger\"\nlength_m = 1\n";
    let planned = text.replace("at = \"service battery\"", "at = \"mains charger\"") + run;
    let svg = svgs(&laid_out(&planned).1).concat();
    assert!(!svg.contains("own leads") && svg.matches(">mains charger<").count() == 1, "{svg}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]
    #[test]
    fn any_tree_is_drawn_without_overlap_or_crossing(runs in 3usize..61, parents in proptest::collection::vec(0usize..60, 61)) {
        let (runs, layout) = laid_out(&tree_plan(runs, |n| 3 + parents[n] % (n - 3).max(1)));
        check(runs, &layout);
        for svg in svgs(&layout) {
            let size = |word: &str| svg.split(word).nth(1).unwrap().split("mm").next().unwrap().parse::<f32>().unwrap();
            let (w, h) = (size(" width=\""), size(" height=\""));
            prop_assert!(points(w, h) >= 7.0, "letters of {} points on {w} x {h} mm", points(w, h));
        }
    }
}

/// The longest names a plan may have (60 letters), on a deep tree.
#[test]
fn long_names_are_broken_into_lines() {
    let long =
        |word: &str| format!("{word} {}", "of a rather long name ".repeat(3)).chars().take(58).collect::<String>();
    let text =
        tree_plan(24, |n| n - 1).replace("place ", &format!("{} ", long("p").chars().take(50).collect::<String>()));
    let text = text.replace("lamp ", &format!("{} ", long("l").chars().take(50).collect::<String>()));
    let (runs, layout) = laid_out(&text);
    check(runs, &layout);
    for (n, svg) in svgs(&layout).iter().enumerate() {
        let picture = picture(&format!("long-{}", n + 1), svg);
        let [w, h] = [picture.width(), picture.height()].map(|p| p as f32 / crate::picture::SCALE);
        assert!(points(w, h) >= 7.0, "sheet {} is {w} x {h} mm", n + 1);
    }
}

/// A name from a plan is text in the drawing, never a part of it.
#[test]
fn names_cannot_break_the_drawing() {
    let text = "format = 2\ntitle = \"<script>alert(1)</script> & \\\"x\\\"\"\n[service_battery]\nchemistry = \"agm\"\n\
                [[run]]\nfrom = \"service battery\"\nto = \"</svg>\\u001b[2J\\u202e\"\nlength_m = 1\n";
    let (_, layout) = laid_out(text);
    let svg = &svgs(&layout)[0];
    assert!(!svg.contains("<script") && !svg.contains('\u{1b}') && !svg.contains('\u{202e}'));
    assert_eq!(svg.matches("</svg>").count(), 1);
    picture("names", svg);
}
