//! The sections of a plan file and places in it.

macro_rules! sections {
    ($($section:ident $key:literal $title:literal;)*) => {
        /// A table of the plan file. `Job` are the keys above the first one.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)]
        pub enum Section { $($section,)* }

        impl Section {
            /// All sections, in the order a new file is written.
            pub const ALL: &'static [Section] = &[$(Section::$section,)*];
            /// Name of the table in the file; empty for the keys above the first table.
            pub fn key(self) -> &'static str {
                match self { $(Section::$section => $key,)* }
            }
            /// Title for people.
            pub fn title(self) -> &'static str {
                match self { $(Section::$section => $title,)* }
            }
        }
    };
}

sections! {
    Job "" "Job";
    Surroundings "surroundings" "Surroundings";
    Vehicle "vehicle" "Vehicle";
    StarterBattery "starter_battery" "Starter battery";
    ServiceBattery "service_battery" "Service battery";
    Charger "charger" "Charger";
    CutOff "cut_off" "Cut-off";
    Solar "solar" "Solar";
    Mains "mains" "Mains charger";
    Inverter "inverter" "Inverter";
    Bond "bond" "Bond to the body";
    MainSwitch "main_switch" "Main switch";
    HoldDown "hold_down" "Hold-down";
    Beneath "beneath" "Where it hangs";
    AsBuilt "as_built" "As built";
    Meter "meter" "Meter";
    Standing "standing" "Left standing";
    Rules "rules" "Rules";
    Board "board" "Board";
    Plug "plug" "Plug";
    Load "load" "Load";
    Run "run" "Run";
    Stud "stud" "Stud";
    Drilled "drilled" "Drilled hole";
    Mounted "mounted" "Mounted device";
    Reading "reading" "Reading";
    Block "block" "Block";
    Price "price" "Price";
    Measured "measured" "Measured";
}

impl Section {
    /// Whether there may be many (`[[load]]`).
    pub fn is_list(self) -> bool {
        matches!(
            self,
            Section::Board
                | Section::Plug
                | Section::Load
                | Section::Run
                | Section::Stud
                | Section::Drilled
                | Section::Mounted
                | Section::Reading
                | Section::Block
                | Section::Price
                | Section::Measured
        )
    }
}

/// One field of one item: where an error is, where a remedy goes, where the cursor stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// Which table.
    pub section: Section,
    /// Which item of a list; 0 elsewhere.
    pub index: usize,
    /// Which key, dotted for nested ones (`duty.share_on`).
    pub key: &'static str,
}

impl Place {
    /// A field of a section that is no list.
    pub const fn of(section: Section, key: &'static str) -> Self {
        Place { section, index: 0, key }
    }
    /// A field of the load with this index.
    pub const fn load(index: usize, key: &'static str) -> Self {
        Place { section: Section::Load, index, key }
    }
    /// A field of the board with this index.
    pub const fn board(index: usize, key: &'static str) -> Self {
        Place { section: Section::Board, index, key }
    }
    /// A field of the run with this index.
    pub const fn run(index: usize, key: &'static str) -> Self {
        Place { section: Section::Run, index, key }
    }
}
