//! Fuse-link styles and the rules round them against what the standards' scopes say.

use crate::catalogue::shipped;
use crate::check::{
    Data, Source, check, check_at_least, check_at_most, check_between, independent, memory, typed_twice,
};
use crate::program::{FuseNeed, RATED_AIR, at_least, earliest, latest, let_through};
use loomwright::quantity::{Amps, Seconds, Volts};

crate::tests![
    operating_times_of_data_sheets,
    bolted_links_keep_to_the_scope_of_iso_8820_6,
    blade_links_keep_to_the_scope_of_iso_8820_3,
    strip_links_keep_to_the_scope_of_iso_8820_5,
    the_cartridge_clears_most,
    operating_times_are_marked_as_remembered,
    a_steady_current_loads_a_link_as_published,
];

fn data() -> Data {
    Data::new(include_str!("data/fuse-links.toml"))
}

fn blade_links_keep_to_the_scope_of_iso_8820_3() {
    let (data, catalogue) = (data(), shipped());
    let (scope, chart) = (data.table("blade"), data.table("blade_ratings"));
    for (key, listed) in [("blade-c", "all"), ("blade-f", "all"), ("blade-e", "type_e")] {
        let style = catalogue.fuse_style(key).unwrap();
        assert!(style.breaking_at(Volts::new(scope.number("rated_v"))).is_some(), "{key} breaks at its own voltage");
        assert!(style.breaking_at(Volts::new(33.0)).is_none(), "{key} is not rated above 32 V");
        for rating in &style.ratings {
            let largest = scope.number("max_rating_a");
            check_at_most(independent(scope.source()), &format!("{key} {rating}"), largest, rating.get());
            assert!(chart.numbers(listed).contains(&rating.get()), "{key} {rating}: {}", chart.source());
        }
    }
}

fn strip_links_keep_to_the_scope_of_iso_8820_5() {
    let (data, catalogue) = (data(), shipped());
    let scope = data.table("strip");
    for key in ["strip-30", "strip-51"] {
        let style = catalogue.fuse_style(key).unwrap();
        assert!(style.breaking_at(Volts::new(33.0)).is_none(), "{key} is not rated above 32 V");
        for rating in &style.ratings {
            let (least, most) = (scope.number("min_rating_a"), scope.number("max_rating_a"));
            check_between(independent(scope.source()), &format!("{key} {rating}"), least, most, rating.get());
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

/// The catalogue's window holds the maker's own: it never trusts a link to open sooner than that, nor (type C)
/// to ride through for longer. For type E only the opening is held: the sheet's link may open sooner on a start.
fn operating_times_of_data_sheets() {
    let (data, catalogue) = (data(), shipped());
    for (name, class, key, rides) in [
        ("series_287", independent as fn(&str) -> Source<'_>, "blade-c", true),
        ("series_287_remembered", memory, "blade-c", true),
        ("series_299", independent, "blade-e", false),
    ] {
        let (sheet, gates) = (data.table(name), &catalogue.fuse_style(key).unwrap().gates);
        let source = class(sheet.source());
        for (n, percent) in sheet.numbers("percent").into_iter().enumerate() {
            let (min, max) = (sheet.numbers("min_s")[n], sheet.numbers("max_s")[n]);
            let slowest = latest(gates, percent / 100.0).map_or(f64::INFINITY, Seconds::get);
            check_at_least(source, &format!("{key} open by, at {percent} %, s"), max, slowest);
            if rides {
                check_at_most(
                    source,
                    &format!("{key} not open before, at {percent} %, s"),
                    min,
                    earliest(gates, percent / 100.0).get(),
                );
            }
        }
    }
    // What a link surely lets through is never less than what melts it.
    let sheet = data.table("series_299");
    let rating = Amps::new(sheet.number("rating_a"));
    let style = catalogue.fuse_style("blade-e").unwrap();
    let most = let_through(style, rating, 1.0, rating, Amps::new(1000.0)).unwrap();
    check_at_least(independent(sheet.source()), "40 A, A²s", sheet.number("melting_a2s"), most.energy.get());
}

/// In ratings, and in what it breaks at any voltage, a post-mounted link keeps to the scope of its standard; the
/// version for boats, which breaks more by its makers, is a row of its own.
fn bolted_links_keep_to_the_scope_of_iso_8820_6() {
    let (data, catalogue) = (data(), shipped());
    let (scope, style) = (data.table("bolt"), catalogue.fuse_style("bolt").unwrap());
    let source = independent(scope.source());
    for volts in [12.0, 14.6, 29.2, 57.0] {
        let breaks = style.breaking_at(Volts::new(volts)).unwrap().amps.get();
        assert!(breaks <= scope.number("breaking_a"), "{breaks} A at {volts} V");
    }
    assert!(style.breaking_at(Volts::new(59.0)).is_none());
    for rating in &style.ratings {
        check_at_most(source, &format!("{rating}"), scope.number("max_rating_a"), rating.get());
    }
}

/// What was never read in a standard says so.
fn operating_times_are_marked_as_remembered() {
    for style in &shipped().fuse_styles {
        let words = style.gates_words();
        assert!(words.contains("from memory") || words.contains("common practice"), "{}: {words}", style.key);
    }
}

/// NEETS: a normal current of 10 A takes a fuse of 12.5 A, by the share as shipped.
fn a_steady_current_loads_a_link_as_published() {
    let (data, catalogue) = (data(), shipped());
    let example = data.table("loading");
    let style = catalogue.fuse_style("blade-c").unwrap();
    let loading = catalogue.rules.fuse_loading.value;
    let need =
        FuseNeed { loading, air: RATED_AIR, steady: Amps::new(example.number("normal_a")), ..FuseNeed::default() };
    let least = at_least(style, &need).value.get();
    check(typed_twice(example.source()), "least rating, A", example.number("fuse_a"), least, 1e-9);
}
