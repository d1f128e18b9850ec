//! `catalogue`: what the trade knows, and where each value comes from.

use super::arguments::{CatalogueCommand, Common, Shelf};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::catalogue::Catalogue;
use crate::papers::{self, Document, plain};

/// Print a part of it.
pub fn run(asked: &CatalogueCommand, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let (paper, json) = match shelf(asked.shelf) {
        Some(_) if asked.key.is_some() => {
            return Err(Failure::new("only `explain` takes a key", "loomwright catalogue explain agm.charge"));
        }
        Some(shelf) => {
            let paper = papers::catalogue_paper(&catalogue, shelf);
            let json = papers::json::tables(&paper);
            (paper, json)
        }
        None => explain(&catalogue, asked.key.as_deref().unwrap_or_default())?,
    };
    if asked.form.json {
        output::json(&json, common.color)?;
    } else {
        output::result(&plain(&paper, &common.look()), common.color)?;
    }
    Ok(Status::Fine)
}

fn explain(catalogue: &Catalogue, key: &str) -> Result<(Document, serde_json::Value), Failure> {
    let values = catalogue.explain(key);
    if values.is_empty() {
        let help = "loomwright catalogue sources, which lists all rows and values";
        return Err(Failure::new(format!("the catalogue has no `{key}`"), help));
    }
    Ok((papers::explanation(&values), papers::json::explained(&values)))
}

/// The paper of a shelf; `explain` has none of its own.
fn shelf(asked: Shelf) -> Option<papers::Shelf> {
    Some(match asked {
        Shelf::Chemistries => papers::Shelf::Chemistries,
        Shelf::Conductors => papers::Shelf::Conductors,
        Shelf::Insulation => papers::Shelf::Insulation,
        Shelf::Fuses => papers::Shelf::Fuses,
        Shelf::Loads => papers::Shelf::Loads,
        Shelf::Places => papers::Shelf::Places,
        Shelf::Rules => papers::Shelf::Rules,
        Shelf::Sources => papers::Shelf::Sources,
        Shelf::Explain => return None,
    })
}
