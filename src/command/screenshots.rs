//! How are the pictures of the screens made anew?

use super::arguments::{Common, Screenshots};
use super::failure::Failure;
use super::input;
use super::status::Status;
use crate::screens;

/// Draw every screen of the default example into a folder, as SVG.
pub fn run(asked: &Screenshots, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    screens::screenshots(&asked.into, catalogue)?;
    Ok(Status::Fine)
}
