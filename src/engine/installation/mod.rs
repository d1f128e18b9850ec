//! What is there? The plan made definite: circuits as trees, times, places, names.

pub mod circuits;
pub mod climate;
pub mod joints;
pub mod laid;
pub mod minutes;
pub mod subject;
