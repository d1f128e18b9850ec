//! `catalogue`: what the trade knows, and where each value comes from.

use super::arguments::{CatalogueCommand, Common};
use super::failure::Failure;
use super::part::Part;
use super::status::Status;
use super::{input, output};
use crate::catalogue::Catalogue;
use crate::papers::{self, Document};
use crate::plan::{nearest, shorten};

/// Print a part of it.
pub fn run(asked: &CatalogueCommand, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let (paper, json) = match asked.part {
        Part::Shelf(_) if asked.key.is_some() => {
            return Err(Failure::new("only `explain` takes a key", "loomwright catalogue explain agm.charge"));
        }
        Part::Shelf(shelf) => {
            let paper = papers::catalogue_paper(&catalogue, shelf);
            let json = papers::json::tables(&paper);
            (paper, json)
        }
        Part::Explain => explain(&catalogue, asked.key.as_deref().unwrap_or_default())?,
    };
    output::answer(asked.form, common, || json, || paper)?;
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
