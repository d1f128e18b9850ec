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
    /// With room the first and the third side by side, the second below over the whole width.
    Corner,
    /// The first pane on the left, the others on the right.
    Beside,
}

macro_rules! screens {
    ($($screen:ident $title:literal $short:literal $shape:ident $question:literal;)*) => {
        /// A screen.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)] // the table below says it
        pub enum Screen { $($screen,)* }

        impl Screen {
            /// All of them, in the order of their keys.
            pub const ALL: &'static [Screen] = &[$(Screen::$screen,)*];
            /// Title in the row of screens.
            pub fn title(self) -> &'static str {
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

// Screen, title, short title, shape, question.
screens! {
    Loads "Loads" "Loads" Above
        "What uses energy, when, and how much a day?";
    Supply "Supply" "Supply" Beside
        "What do the vehicle and the sun give, which charger, and how long to recover?";
    Battery "Battery" "Battery" Corner
        "How big a battery, and of which chemistry?";
    Runs "Runs" "Runs" AboveWide
        "For each run: which size, what drop, how hot, which fuse?";
    CutOff "Cut-off" "Cut-off" Beside
        "Where to disconnect, where to reconnect, and what that leaves in the battery?";
    Endurance "Endurance" "Days" AboveWide
        "How does it go over days of use, what is cut and when, and how sure is that?";
    Diagram "Diagram" "Diagram" Above
        "How is it all connected?";
    Carrier "Carrier" "Carrier" Beside
        "What holds the battery, how strong is it, and which pieces are cut?";
    Findings "Findings" "Findings" Above
        "What is wrong, and what mends it?";
    TestSheet "Test sheet" "Tests" Above
        "What should be measured, and where is the bad joint?";
}

impl Screen {
    /// Lower-case name for files.
    pub fn name(self) -> String {
        self.title().to_lowercase().replace(' ', "-")
    }

    /// The key that shows it.
    pub fn key(self) -> char {
        let n = Screen::ALL.iter().position(|s| *s == self).unwrap_or(0);
        char::from_digit((n as u32 + 1) % 10, 10).unwrap_or('0')
    }
}
