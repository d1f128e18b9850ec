//! Pictures of the screens: a drawn window as SVG, and the set of them that the README shows.

mod lines;
mod shots;
mod svg;

pub use shots::{buffer, pictures};
pub use svg::svg;
