//! `catalogue`: what the trade knows, and where each value comes from.

use super::arguments::Common;
use super::failure::Failure;
use super::own_arguments::CatalogueCommand;
use super::part::Part;
use super::status::Status;
use super::{input, output};
use crate::catalogue::{Catalogue, Layer, OwnFile};
use crate::papers::{self, Document};
use crate::plan::{nearest, shorten};

/// Print a part of it.
pub fn run(asked: &CatalogueCommand, common: &Common) -> Result<Status, Failure> {
    if let (Part::Own, Some(key)) = (asked.part, &asked.key) {
        return print_own(key, common);
    }
    let catalogue = input::catalogue(common)?;
    let (paper, json) = match asked.part {
        Part::Shelf(_) if asked.key.is_some() => {
            return Err(Failure::new("only `explain` and `own` take a key", "loomwright catalogue explain agm.charge"));
        }
        Part::Shelf(shelf) => {
            let paper = papers::catalogue_paper(&catalogue, shelf);
            let json = papers::json::tables(&paper);
            (paper, json)
        }
        Part::Own => {
            let paper = papers::own_rows(&own_files(common)?);
            let json = papers::json::tables(&paper);
            (paper, json)
        }
        Part::Explain => explain(&catalogue, asked.key.as_deref().unwrap_or_default())?,
    };
    output::answer(asked.form, common, || json, || paper)?;
    Ok(Status::Fine)
}

/// The files of the user's own folder and of those named.
fn own_files(common: &Common) -> Result<Vec<OwnFile>, Failure> {
    Ok(input::layers(common)?.iter().flat_map(Layer::own_files).collect())
}

/// Print the file of a row of one's own as it is: to keep it, or to give it away.
fn print_own(key: &str, common: &Common) -> Result<Status, Failure> {
    let all = own_files(common)?;
    // Of two with one key the later counts, as when they are read.
    match all.iter().rfind(|file| file.key == key) {
        Some(file) => output::result(&file.text, common.color)?,
        None => {
            let help = match nearest(key, all.iter().map(|file| file.key.as_str())) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "loomwright catalogue own, which lists them; the key y on the screens makes one".into(),
            };
            return Err(Failure::new(format!("there is no row `{}` of your own", shorten(key)), help));
        }
    }
    Ok(Status::Fine)
}

fn explain(catalogue: &Catalogue, key: &str) -> Result<(Document, serde_json::Value), Failure> {
    let values = catalogue.explain(key);
    if values.is_empty() {
        let all = catalogue.values();
        let rows = all.iter().map(|v| v.row.split('.').next().unwrap_or_default());
        let help = match nearest(key.split('.').next().unwrap_or(key), rows) {
            Some(near) if !key.starts_with(near) => format!("did you mean `{near}`?"),
            _ => "loomwright catalogue sources, which lists all rows and values".into(),
        };
        return Err(Failure::new(format!("the catalogue has no `{}`", shorten(key)), help));
    }
    Ok((papers::explanation(&values), papers::json::explained(&values)))
}
