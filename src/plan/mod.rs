//! What the user says: the plan, its file, its fields.
//!
//! - `model`: the plan, table by table, each member a field as data (`table`). `fields`: all of them.
//! - `read`: text to plan with all problems. `edit`: text to text, comments kept.
//! - `file`: the disk: open, save atomically with one backup, notice changes by others.
//! - `starter`: the example plans.

mod accept;
mod beneath;
mod block;
mod board;
mod choice;
mod cut_off;
mod edit;
mod field;
mod fields;
mod file;
mod find_out;
mod former;
mod hold_down;
mod load;
mod measured;
mod model;
mod months;
mod mounted;
mod names;
pub mod point;
mod price;
mod problem;
mod read;
mod reading;
mod returns;
mod run;
mod section;
mod sheet;
mod starter;
mod table;
mod text;
mod value;
mod weekdays;
mod windows;

pub use accept::Refusal;
pub use beneath::{AsBuilt, Beneath, Drilled};
pub use block::Block;
pub use board::{Board, Lead};
pub use choice::*;
pub use cut_off::CutOff;
pub use edit::{EditError, copy, insert, put, remove, set, shift};
pub use field::{Absent, Field, Kind, Pick};
pub use fields::{field_at, fields_of};
pub use file::{FileError, PlanFile, is_there, keep_rights, read_file, reason, write_whole};
pub use former::{FORMAT, Modern, modern};
pub use hold_down::*;
pub use load::*;
pub use measured::Measured;
pub use model::*;
pub use months::Months;
pub use mounted::{MOST_BOLTS, Mounted};
pub use price::{Price, per_100ah};
pub use problem::{Lines, Problem, Spot, nearest, without_mark};
pub use read::{LONGEST_FILE, Read, read, read_bytes};
pub use reading::*;
pub use returns::{Bond, MainSwitch, Plug};
pub use run::*;
pub use section::{Place, Section};
pub use sheet::{SheetStyle, from_sheet, to_sheet};
pub use starter::{Example, default_example, examples};
pub use text::{is_hidden, marked, shorten};
pub use value::Value;
pub use weekdays::{FORTNIGHT, Weekdays};
pub use windows::{Window, Windows};
