//! That no number of the catalogue, and no table copied for these tests, comes without its source.

use crate::check::Data;
use loomwright::catalogue::{Catalogue, How, Layer};

crate::tests![
    every_shipped_value_says_where_it_comes_from,
    a_row_without_a_source_is_refused,
    every_copied_table_says_where_it_comes_from,
];

/// The shipped catalogue.
pub fn shipped() -> Catalogue {
    Catalogue::embedded().unwrap()
}

/// For a figure that was read or computed there is a publication; nothing shipped claims to be the user's.
fn every_shipped_value_says_where_it_comes_from() {
    let catalogue = shipped();
    let values = catalogue.values();
    assert!(values.len() > 600, "only {} values walked", values.len());
    for listed in values {
        let (row, from) = (listed.path(), listed.value.from);
        assert_ne!(from.how, How::User, "{row}: shipped rows are not the user's");
        if matches!(from.how, How::Opened | How::Computed) {
            assert!(from.source.len() > 10, "{row}: a publication is missing");
        }
        assert!(!from.words().is_empty(), "{row}");
    }
}

/// A layer whose row claims a source and gives none, or says nothing at all, is refused.
fn a_row_without_a_source_is_refused() {
    let row =
        "[[conductor]]\nlabel = \"7 mm²\"\nfamily = \"metric\"\narea_mm2 = 7\nohm_per_km_20c = 2.7\noutside_mm = 5\n";
    for (how, words) in
        [("", "missing field `how`"), ("how = \"opened\"", "no `source`"), ("how = \"computed\"", "no `source`")]
    {
        let files = vec![("conductors/mine.toml".into(), format!("{row}{how}\n"))];
        let errors = Catalogue::with_layers(&[Layer { origin: "mine".into(), files }]).unwrap_err();
        assert_eq!(errors.len(), 1, "{errors:?}");
        let text = errors[0].to_string();
        assert!(text.contains("mine: conductors/mine.toml:") && text.contains(words), "{text}");
    }
    let files = vec![("conductors/mine.toml".into(), format!("{row}how = \"practice\"\n"))];
    assert!(Catalogue::with_layers(&[Layer { origin: "mine".into(), files }]).is_ok());
}

fn every_copied_table_says_where_it_comes_from() {
    for text in [
        include_str!("data/conductors.toml"),
        include_str!("data/ampacity.toml"),
        include_str!("data/fuse-links.toml"),
        include_str!("data/protection.toml"),
        include_str!("data/chemistries.toml"),
        include_str!("data/joints.toml"),
        include_str!("data/banks.toml"),
    ] {
        for (name, section) in Data::new(text).sections() {
            assert!(section.source().len() > 10, "[{name}] has no source");
            assert!(
                ["opened", "quoted", "computed"].contains(&section.text("how")) || name.ends_with("_remembered"),
                "[{name}] rests on memory"
            );
        }
    }
}
