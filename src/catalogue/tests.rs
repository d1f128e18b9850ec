//! Layers on top of the embedded profiles, and what is said about bad ones.

use super::*;

fn layer(name: &str, text: &str) -> Layer {
    Layer { origin: "test".into(), files: vec![(name.into(), text.into())] }
}

fn errors(name: &str, text: &str) -> Vec<String> {
    match Catalogue::with_layers(&[layer(name, text)]) {
        Ok(_) => Vec::new(),
        Err(errors) => errors.iter().map(ToString::to_string).collect(),
    }
}

/// Each expected part must be in the problem of the same place, and no more problems than that.
#[track_caller]
fn check(name: &str, text: &str, expected: &[&str]) {
    let got = errors(name, text);
    assert_eq!(got.len(), expected.len(), "{got:#?}");
    for (got, want) in got.iter().zip(expected) {
        assert!(got.contains(want), "\n got: {got}\nwant: {want}");
    }
}

#[test]
fn the_embedded_profiles_are_sound() {
    if let Err(errors) = Catalogue::embedded() {
        let all: Vec<String> = errors.iter().map(ToString::to_string).collect();
        panic!("{}", all.join("\n"));
    }
}

const PLACE: &str = "[[place]]\nkey = \"cabin\"\nname = \"My cabin\"\nair = \"hottest\"\ncooling = 0.9\n";

#[test]
fn a_layer_replaces_by_key_and_joins_else() {
    let before = Catalogue::embedded().unwrap();
    let text = format!("{PLACE}how = \"user\"\n\n{PLACE}how = \"user\"\n").replacen("\"cabin\"", "\"attic\"", 1);
    let after = Catalogue::with_layers(&[layer("places.toml", &text)]).unwrap();
    assert_eq!(after.places.len(), before.places.len() + 1);
    assert_eq!(after.place("cabin").unwrap().cooling, 0.9);
    assert_eq!(after.place("attic").unwrap().from.cooling.words(), "entered by you");
    assert_eq!(after.loads.len(), before.loads.len());
}

#[test]
fn a_row_without_a_source_is_refused_with_its_place() {
    check("places.toml", PLACE, &["test: places.toml:1:1: missing field `how`; say where it comes from"]);
    let opened = format!("{PLACE}how = \"opened\"\n");
    check("places.toml", &opened, &["places.toml:6:1: key “cabin”: `how` says the figure was read"]);
    check("places.toml", &format!("{PLACE}how = \"practice\"\n"), &[]);
    check("places.toml", &format!("{PLACE}how = \"guess\"\n"), &["unknown variant `guess`"]);
}

#[test]
fn all_problems_come_at_once_with_line_and_column() {
    let text = "[[place]]\nkey = \"a\"\nname = \"A\"\nair = \"hottest\"\ncooling = 7\nhow = \"practice\"\n\n\
                [[place]]\nkey = \"a\"\nname = \"A\"\nair = \"hottest\"\ncooling = 0.5\ncoolness = 1\nhow = \"practice\"\n\n\
                [other]\nx = 1\n";
    check(
        "places.toml",
        text,
        &[
            "5:1: key “a”: `cooling` is 7",
            "13:1: unknown field `coolness`",
            "8:1: place with key “a” is there twice",
            "16:2: `other` is not known",
        ],
    );
}

#[test]
fn twice_the_same_key_in_one_layer_is_refused() {
    let text = format!("{PLACE}how = \"user\"\n{PLACE}how = \"user\"\n");
    check("places.toml", &text, &["7:1: place with key “cabin” is there twice"]);
}

#[test]
fn a_chemistry_tells_the_problems_of_all_its_parts() {
    let good = include_str!("../../profiles/chemistries/agm.toml");
    let bad = good
        .replace("depth = 0.5", "depth = \"half\"")
        .replace("rated_h = 20", "rated_hours = 20")
        .replace("absorption_v = 14.4", "absorption_v = nan");
    let got = errors("chemistries/mine.toml", &bad);
    assert_eq!(got.len(), 4, "{got:#?}");
    for want in ["unknown field `rated_hours`", "missing field `rated_h`", "invalid type: string", "must be finite"] {
        assert!(got.iter().any(|g| g.contains(want)), "{want} not in {got:#?}");
    }
    let bad = good.replace("rated_h = 20", "rated_h = 20\nrated_hours = 20");
    let line = bad.lines().position(|l| l.starts_with("rated_hours")).unwrap() + 1;
    check("chemistries/mine.toml", &bad, &[&format!("mine.toml:{line}:1: unknown field `rated_hours`")]);
    let bad = good.replace("[0.1, 11.8]", "[0.1, 11.5]").replace("fault_mohm = 1.3", "fault_mohm = 20");
    check(
        "chemistries/mine.toml",
        &bad,
        &["`resting.soc_v` goes from 11.6 to 11.5", "`resistance.fault_mohm` must not be above"],
    );
}

#[test]
fn unknown_files_broken_syntax_and_odd_numbers_are_named() {
    check("fuses.toml", "", &["no profile has this name"]);
    check("places.toml", "[[place]\nkey = 1\n", &["places.toml:1"]);
    check(
        "rules.toml",
        "[[number]]\nkey = \"joint-ohm\"\nvalue = 1\nabout = \"x\"\nhow = \"user\"\n",
        &["2:1: key “joint-ohm”: `key` is no number the program asks for"],
    );
    let load = "[[load]]\nname = \"x\"\ngroup = \"y\"\npower_w = 10\nkind = \"lamp\"\nshare_on = 40\nhours_a_day = 1\n\
                start_times = 1\nstart_s = 0\ndrop = \"none\"\nhow = \"user\"\n";
    check("loads.toml", load, &["5:1: name “x”: `kind` is “lamp”", "`share_on` is 40; it is a share from 0 to 1"]);
    let load = load.replace("lamp", "resistance").replace("= 40", "= 0.4");
    check("loads.toml", &load, &["“none”, which is no loss allowed"]);
}

/// A profile written before each value had its source: the operating times had a table of their own,
/// and a number was asked for that no rule reads any more.
#[test]
fn profiles_of_the_former_form_are_read() {
    let blade = "key = \"mine\"\nname = \"Mine\"\nratings_a = [5, 10]\nrated_v = 32\nlost_per_k = 0.002\n\
                 drop_at_rating_v = 0.1\norder = 1\ngates = [{ of_rating = 2, min_s = 1, max_s = 5 }]\n\
                 how = \"user\"\n[[breaking]]\nat_v = 32\namps = 1000\nhow = \"user\"\n\
                 [gates_from]\nhow = \"opened\"\nsource = \"a data sheet\"\n";
    let number = "[[number]]\nkey = \"joint-share\"\nvalue = 0.3\nabout = \"x\"\nhow = \"user\"\n";
    let layers = [layer("fuse-links/mine.toml", blade), layer("carrier.toml", number)];
    let catalogue = Catalogue::with_layers(&layers).unwrap();
    let style = catalogue.fuse_style("mine").unwrap();
    assert_eq!((style.gates_words().as_str(), style.from.rated.whole_row), ("a data sheet", true));
    check(
        "places.toml",
        &format!("{PLACE}warmer_k = 5\nhow = \"user\"\n[place.gates_from]\nhow = \"user\"\n"),
        &["gates_from"],
    );
}

/// What `sources` names has its own source; the rest has the row's, and says so.
#[test]
fn a_value_has_its_own_source_or_that_of_its_row() {
    let row = |sources: &str| format!("{PLACE}warmer_k = 5\nhow = \"user\"\nsources = [{sources}]\n");
    let own = "{ of = [\"warmer_k\"], how = \"opened\", source = \"a thermometer\", note = \"noon\" }";
    let catalogue = Catalogue::with_layers(&[layer("places.toml", &row(own))]).unwrap();
    let from = &catalogue.place("cabin").unwrap().from;
    assert_eq!((from.warmer.words().as_str(), from.warmer.whole_row), ("a thermometer", false));
    assert_eq!((from.cooling.words().as_str(), from.cooling.whole_row), ("entered by you", true));
    let listed = |key: &str| catalogue.explain(key).iter().map(Listed::path).collect::<Vec<_>>();
    assert_eq!(listed("cabin"), ["cabin.warmer_k", "cabin.cooling"]);
    assert_eq!(listed("cabin.warmer"), ["cabin.warmer_k"]);
    assert!(listed("cab").is_empty());

    check("places.toml", &row(&own.replace("warmer_k", "warmer")), &["`sources` names `warmer`, which is no value"]);
    check("places.toml", &row(&format!("{own}, {own}")), &["`sources` names `warmer_k` twice"]);
    let nameless = "{ of = [\"cooling\"], how = \"opened\" }";
    check("places.toml", &row(nameless), &["places.toml:8:1: key “cabin”: `sources` says the figure was read"]);
    let alone = row(own).replace("how = \"user\"\n", "");
    check("places.toml", &alone, &["missing field `how`"]);
}

/// A user's own number takes the place of ours with its own source; one out of range is named.
#[test]
fn a_number_is_replaced_by_its_key_and_kept_in_its_range() {
    let row =
        |value: f64| format!("[[number]]\nkey = \"fuse-loading\"\nvalue = {value}\nabout = \"mine\"\nhow = \"user\"\n");
    let before = Catalogue::embedded().unwrap();
    let after = Catalogue::with_layers(&[layer("rules.toml", &row(0.7))]).unwrap();
    let rule = &after.rules.fuse_loading;
    assert_eq!((rule.value.get(), rule.about.as_str(), rule.from.how), (0.7, "mine", How::User));
    assert_eq!(after.rules.fuse_air, before.rules.fuse_air);
    check("rules.toml", &row(7.0), &["3:1: key “fuse-loading”: `value` is 7; it must be from 0.3 to 1"]);
}

/// Every field of the table is filled from the profiles; a number that is in none of them is asked for.
#[test]
fn no_number_may_be_missing() {
    let full = Catalogue::embedded().unwrap();
    assert!(full.rules.numbers().iter().all(|n| !n.about.is_empty()));
    let row = super::rules::NumberRow {
        key: "fuse-loading".into(),
        value: 0.8,
        about: "x".into(),
        from: Provenance::default(),
    };
    let missing = super::whole::check_whole(&full, &[row]);
    assert_eq!(missing.len(), full.rules.numbers().len() - 1);
    let play = missing.iter().find(|e| e.message.contains("“play-mm”")).unwrap();
    assert!(play.to_string().starts_with("carrier.toml: the number “play-mm” is missing"), "{play}");
}

/// A clone shares its rows until one of the two is changed.
#[test]
fn a_changed_clone_leaves_the_first_as_it_was() {
    let first = Catalogue::embedded().unwrap();
    let mut second = first.clone();
    assert!(std::ptr::eq(&raw const *first, &raw const *second));
    second.chemistries.clear();
    assert!(!first.chemistries.is_empty() && second.chemistries.is_empty());
}

#[test]
fn a_folder_is_read_as_a_layer() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir_all(folder.path().join("chemistries")).unwrap();
    std::fs::create_dir_all(folder.path().join("plans")).unwrap();
    std::fs::write(folder.path().join("places.toml"), PLACE).unwrap();
    std::fs::write(folder.path().join("notes.txt"), "not a profile").unwrap();
    std::fs::write(folder.path().join("chemistries/mine.toml"), "key = 1").unwrap();
    std::fs::write(folder.path().join("plans/a.toml"), "format = 2").unwrap();
    let layer = Layer::from_folder(folder.path()).unwrap();
    let names: Vec<&str> = layer.files.iter().map(|(n, _)| n.as_str()).collect();
    assert_eq!(names, ["chemistries/mine.toml", "places.toml"]);
    assert!(Layer::from_folder(&folder.path().join("absent")).is_err());
}

/// Names of files that hold profiles, and an odd one.
const NAMES: [&str; 11] = [
    "chemistries/x.toml",
    "fuse-links/x.toml",
    "conductors/x.toml",
    "insulation.toml",
    "ampacity.toml",
    "trade-labels.toml",
    "places.toml",
    "loads.toml",
    "devices.toml",
    "rules.toml",
    "other/x.toml",
];

proptest::proptest! {
    /// Whatever the text, reading ends with a catalogue or with problems.
    #[test]
    fn any_text_is_read_or_refused(name in 0usize..11, text in "[\\[\\]a-z_=0-9.\"# \n-]{0,200}") {
        let _ = errors(NAMES[name], &text);
    }

    /// The same for the shipped texts with a piece cut out.
    #[test]
    fn a_damaged_profile_is_read_or_refused(which in 0usize..4, cut in 0usize..4000, length in 1usize..60) {
        let (name, text) = [
            ("chemistries/agm.toml", include_str!("../../profiles/chemistries/agm.toml")),
            ("fuse-links/bolt.toml", include_str!("../../profiles/fuse-links/bolt.toml")),
            ("ampacity.toml", include_str!("../../profiles/ampacity.toml")),
            ("rules.toml", include_str!("../../profiles/rules.toml")),
        ][which];
        let kept: String = text.chars().enumerate().filter(|(i, _)| !(cut..cut + length).contains(i)).map(|(_, c)| c).collect();
        for error in errors(name, &kept) {
            proptest::prop_assert!(error.starts_with("test: ") || error.contains(".toml"), "{}", error);
        }
    }
}
