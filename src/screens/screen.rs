//! The screens by name: title, key, the question each answers, how it shares a small window.
//!
//! What stands on each is in `contents`, so that an action can name a screen.

/// How the panes of a screen share a window too small for all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// The first pane above, the others below.
    Above,
    /// The same; with room the second takes the whole width, the others stand below it.
    AboveWide,
    /// The same; with room the second on the left below, and the third on the right with all its lines, before the others.
    AboveApart,
    /// With room the first and the third side by side, the second below over the whole width.
    Corner,
    /// The first pane on the left, the others on the right.
    Beside,
}

macro_rules! screens {
    ($($screen:ident $key:literal $title:literal $short:literal $shape:ident $question:literal;)*) => {
        /// A screen.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)] // the table below says it
        pub enum Screen { $($screen,)* }

        impl Screen {
            /// All of them, in the order of the work.
            pub const ALL: &'static [Screen] = &[$(Screen::$screen,)*];
            /// The key that shows it: a letter of its titles.
            pub const fn key(self) -> char {
                match self { $(Screen::$screen => $key,)* }
            }
            /// Title in the row of screens.
            pub const fn title(self) -> &'static str {
                match self { $(Screen::$screen => $title,)* }
            }
            /// Title where there is little room.
            pub fn short(self) -> &'static str {
                match self { $(Screen::$screen => $short,)* }
            }
            /// The question it answers, for `?`.
            pub fn question(self) -> &'static str {
                match self { $(Screen::$screen => $question,)* }
            }
            /// How it shares a small window.
            pub fn shape(self) -> Shape {
                match self { $(Screen::$screen => Shape::$shape,)* }
            }
        }
    };
}

// Screen, key, title, short title, shape, question.
screens! {
    Loads 'L' "Loads" "Loads" Above
        "What uses energy, when, and how much a day?";
    Supply 'S' "Supply" "Supply" Beside
        "What do the vehicle and the sun give, which charger, and how long to recover?";
    Battery 'B' "Battery" "Battery" Corner
        "How big a battery, and of which chemistry?";
    Runs 'R' "Runs" "Runs" AboveWide
        "For each run: which size, what drop, how hot, which fuse?";
    CutOff 'C' "Cut-off" "Cut-off" Beside
        "Where to disconnect, where to reconnect, and what that leaves in the battery?";
    Endurance 'D' "Days of use" "Days" AboveWide
        "How does it go over the days, what is cut and when, and how sure is that?";
    Diagram 'G' "Diagram" "Diagram" Above
        "How is it all connected?";
    Carrier 'H' "Hold-down" "Hold-down" Beside
        "What holds the battery, how strong is it, and which pieces are cut?";
    Findings 'F' "Findings" "Findings" AboveApart
        "What is wrong, and what mends it?";
    TestSheet 'T' "Test sheet" "Test sheet" Above
        "What should be measured, and where is the bad joint?";
}

impl Screen {
    /// Whether most of what stands on it has a working or is a field, so that what is known of it is worth a pane.
    pub fn has_workings(self) -> bool {
        !matches!(self, Screen::Endurance | Screen::Diagram | Screen::Findings)
    }

    /// Lower-case name for files.
    pub fn name(self) -> String {
        self.title().to_lowercase().replace(' ', "-")
    }
}
