//! `catalogue`: what the trade knows, and where each row comes from.

use super::arguments::{CatalogueCommand, Common, Shelf};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::papers::{self, plain};

/// Print a part of it.
pub fn run(asked: &CatalogueCommand, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let shelf = match asked.shelf {
        Shelf::Chemistries => papers::Shelf::Chemistries,
        Shelf::Conductors => papers::Shelf::Conductors,
        Shelf::Insulation => papers::Shelf::Insulation,
        Shelf::Fuses => papers::Shelf::Fuses,
        Shelf::Loads => papers::Shelf::Loads,
        Shelf::Places => papers::Shelf::Places,
        Shelf::Rules => papers::Shelf::Rules,
        Shelf::Sources => papers::Shelf::Sources,
    };
    let paper = papers::catalogue_paper(&catalogue, shelf);
    if asked.form.json {
        output::json(&papers::json::tables(&paper), common.color)?;
    } else {
        output::result(&plain(&paper, &common.look()), common.color)?;
    }
    Ok(Status::Fine)
}
