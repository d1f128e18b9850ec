//! How does it work? Copper, heat, cells, fuse-links, networks, sun, steel; nothing of a plan.

pub mod cell;
pub mod conductor;
pub mod copper;
pub mod fuse_link;
pub mod joint;
pub(crate) mod lifting;
pub mod linear;
pub mod network;
pub mod reckon;
pub mod side_by_side;
pub mod starts;
pub mod steel;
pub mod sun;
