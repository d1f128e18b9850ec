//! Fuse-link styles and the rules round them against what the standards' scopes say.

use crate::catalogue::shipped;
use crate::check::{Data, check, check_at_most, independent, typed_twice};
use loomwright::quantity::Volts;

crate::tests![
    blade_links_keep_to_the_scope_of_iso_8820_3,
    strip_links_keep_to_the_scope_of_iso_8820_5,
    the_cartridge_clears_most,
    operating_times_are_marked_as_remembered,
    loading_and_placement_are_those_published,
];

fn data() -> Data {
    Data::new(include_str!("data/fuse-links.toml"))
}

fn blade_links_keep_to_the_scope_of_iso_8820_3() {
    let (data, catalogue) = (data(), shipped());
    let (scope, chart) = (data.table("blade"), data.table("blade_ratings"));
    for (key, listed) in [("blade-c", "all"), ("blade-f", "all"), ("blade-e", "type_e")] {
        let style = catalogue.fuse_style(key).unwrap();
        let breaking = style.breaking_at(Volts::new(scope.number("rated_v"))).unwrap();
        let source = typed_twice(scope.source());
        check(source, &format!("{key} breaking capacity"), scope.number("breaking_a"), breaking.amps.get(), 0.0);
        check(source, &format!("{key} voltage"), scope.number("rated_v"), style.rated.get(), 0.0);
        assert!(style.breaking_at(Volts::new(33.0)).is_none(), "{key} is not rated above 32 V");
        for rating in &style.ratings {
            let largest = scope.number("max_rating_a");
            check_at_most(typed_twice(scope.source()), &format!("{key} {rating}"), largest, rating.get());
            assert!(chart.numbers(listed).contains(&rating.get()), "{key} {rating}: {}", chart.source());
        }
    }
}

fn strip_links_keep_to_the_scope_of_iso_8820_5() {
    let (data, catalogue) = (data(), shipped());
    let scope = data.table("strip");
    for key in ["strip-30", "strip-51"] {
        let style = catalogue.fuse_style(key).unwrap();
        let breaking = style.breaking_at(Volts::new(14.4)).unwrap();
        let source = typed_twice(scope.source());
        check(source, &format!("{key} breaking capacity"), scope.number("breaking_a"), breaking.amps.get(), 0.0);
        check(source, &format!("{key} voltage"), scope.number("rated_v"), style.rated.get(), 0.0);
        for rating in &style.ratings {
            let range = scope.number("min_rating_a")..=scope.number("max_rating_a");
            assert!(range.contains(&rating.get()), "{key} {rating}: {}", scope.source());
        }
    }
}

/// The one style meant for the largest fault currents has one of the standard's direct-current ratings,
/// and clears more than every other style.
fn the_cartridge_clears_most() {
    let (data, catalogue) = (data(), shipped());
    let section = data.table("ul248_dc");
    let at = Volts::new(14.6);
    let cartridge = catalogue.fuse_style("cartridge-t").unwrap().breaking_at(at).unwrap().amps.get();
    assert!(section.numbers("amps").contains(&cartridge), "{cartridge} A: {}", section.source());
    for style in &catalogue.fuse_styles {
        assert!(style.breaking_at(at).unwrap().amps.get() <= cartridge, "{}", style.key);
    }
}

/// What was never read in a standard says so.
fn operating_times_are_marked_as_remembered() {
    for style in &shipped().fuse_styles {
        let words = style.gates_words();
        assert!(words.contains("from memory") || words.contains("common practice"), "{}: {words}", style.key);
    }
}

fn loading_and_placement_are_those_published() {
    let (data, catalogue) = (data(), shipped());
    let loading = data.table("loading");
    let share = loading.number("normal_a") / loading.number("fuse_a");
    check(independent(loading.source()), "fuse loading", share, catalogue.rules.fuse_loading.value.get(), 1e-9);
    let metres = 0.0254;
    let law = data.table("placement");
    let first = &catalogue.rules.placement[0];
    assert_eq!(first.key, "33-cfr-183-455");
    // Rounded down to whole millimetres.
    check(typed_twice(law.source()), "bare, m", law.number("bare_in") * metres, first.bare.get(), 0.001);
    check(typed_twice(law.source()), "enclosed, m", law.number("enclosed_in") * metres, first.enclosed.get(), 0.001);
    assert!(first.bare.get() <= law.number("bare_in") * metres);
    let iso = data.table("placement_iso13590");
    let row = catalogue.rules.placement.iter().find(|p| p.key == "iso-13590").unwrap();
    check(typed_twice(iso.source()), "bare, m", iso.number("bare_mm") / 1000.0, row.bare.get(), 0.0);
    check(typed_twice(iso.source()), "enclosed, m", iso.number("enclosed_mm") / 1000.0, row.enclosed.get(), 0.0);
}
