//! What is printed: report, drawings, lists and cards of a design.
//!
//! A paper is a [`Document`], written once and rendered as plain text,
//! Markdown or HTML. Papers show what the engine returns and compute nothing.

mod answer;
mod bundle;
mod catalogue_paper;
mod cautions;
mod chart;
mod clean;
pub mod columns;
mod commissioning;
mod connection_drawing;
mod connections;
mod contents;
mod csv_table;
mod cut_list;
pub mod diagram;
mod document;
mod endurance;
mod facts;
mod hand_over;
mod html;
mod job;
mod job_card;
pub mod json;
mod label_sheet;
mod labels;
mod look_up;
mod manifest;
mod markdown;
mod netlist;
mod owner_card;
mod parts_list;
mod pen;
mod plain;
mod report;
mod rivals;
mod settings;
mod stamp;
mod uncertainty;
mod whole;

pub use answer::{cable_answer, cut_off_answer, log_answer_paper, self_check_answer, trouble_answer, used_answer};
pub use bundle::{PaperFile, bundle};
pub use catalogue_paper::{Shelf, catalogue_paper, explanation};
pub use cautions::cautions;
pub use clean::{ascii, ascii_lines, clean};
pub use commissioning::commissioning;
pub use csv_table::csv_table;
pub use cut_list::{cut_list, lug};
pub use document::*;
pub use endurance::endurance_paper;
pub use html::html_page;
pub use job::Job;
pub use labels::labels;
pub use manifest::{MANIFEST, Manifest};
pub use markdown::markdown;
pub use owner_card::owner_card;
pub use parts_list::parts_list;
pub use plain::{Look, colour, notice, plain};
pub use report::findings::{everywhere, finding_notice, findings};
pub use report::report;
pub use report::workings::add_workings;
pub use rivals::rivals_paper;
pub use stamp::{Stamp, VERSION, checksum};
pub use uncertainty::section as add_uncertainty;
