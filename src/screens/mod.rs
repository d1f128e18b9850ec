//! What is shown: the screens on which a plan is edited and its design is read.
//!
//! State, update, view. `app` owns everything; `action` says what can be done;
//! `keymap` and `pointer` turn keys and the mouse into actions; `update` does
//! them; `draw` shows the app and changes nothing. A screen (`loads`, `runs`,
//! …) says what its panes hold as data (`pane`), so that all are drawn, moved
//! in, edited and compared by the same code. `run` is the loop, `terminal` the
//! only file that knows the terminal's modes, `keeper` what survives a crash.
//!
//! Nothing is computed here: every number comes from the engine's design.

mod action;
mod ahead;
mod answers;
mod app;
mod ascii;
mod battery;
mod bench;
mod carrier;
mod chances;
mod changes;
mod clash;
mod contents;
mod cut_off;
mod days;
mod diagram;
mod draw;
mod edit;
mod endurance;
mod events;
mod findings;
mod form;
mod guide;
mod history;
mod keeper;
mod keymap;
mod limits;
mod loads;
mod logging;
mod lognews;
mod logs;
mod mends;
mod outside;
mod overlay;
mod own;
mod pane;
mod picture;
mod pointer;
mod probing;
mod promise;
mod results;
mod run;
mod runs;
mod scene;
mod screen;
mod sheet;
mod shelf;
mod start;
mod state;
mod strip;
mod supply;
mod terminal;
mod test_sheet;
mod theme;
mod tried;
mod update;
mod view;
mod walk;

pub use action::{Action, Way};
pub use app::App;
pub use events::Event;
pub use keeper::Keeper;
pub use keymap::{BINDINGS, Mode, When};
pub use outside::{NotWritten, OwnRows, WritePapers};
pub use picture::{buffer, pictures, svg};
pub use run::{Ended, actions, apart, run as run_loop};
pub use screen::Screen;
pub use start::{Start, run};
pub use state::State;
pub use theme::Theme;
pub use update::{Flow, update};
pub use view::{Target, View};

pub use draw::draw;
