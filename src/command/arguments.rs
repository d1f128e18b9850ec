//! What can be asked from the shell: commands, options and their help.

pub use super::common::{Color, Common};
pub use super::form::{Form, Told};
pub use super::log_arguments::{AgeingArguments, Log};
use super::own_arguments::{CatalogueCommand, Completions, Man, Schema};
use super::table_arguments::{Page, TableCommand};
use clap::{Args, Parser, Subcommand, ValueEnum, ValueHint};
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  loomwright                      open an example plan and change it
  loomwright van.toml             open your own plan (made when you save)
  loomwright report van.toml      print what to buy, cut and fuse
  loomwright check van.toml       list what is wrong, with exit status
  loomwright cable 20A 6.2m       which cable for 20 A over 6.2 m one way?
  loomwright cut-off agm 100Ah 8A where to disconnect an AGM battery?";

const AFTER: &str = "\
Exit status:
  0  fine
  1  the plan has a finding that says STOP: do not build it as it is
  2  wrong use, or something cannot be read or written

PLAN is a TOML file; - reads it from standard input. Without PLAN an example
is used. Results go to standard output, everything else to standard error.
Colour follows the terminal and NO_COLOR.

People can be hurt by a badly fused cable or a battery in the wrong place.
Check your local code, and have licensed work done by licensed people.";

/// Sizes a 12-volt auxiliary power system for a vehicle: battery, charger,
/// cables, fuses and cut-off, each number with its working and its source.
#[derive(Debug, Parser)]
#[command(name = "loomwright", version, before_help = EXAMPLES, after_help = AFTER, max_term_width = 80)]
pub struct Arguments {
    /// Plan to open in the screens.
    #[arg(value_hint = ValueHint::FilePath)]
    pub plan: Option<PathBuf>,

    #[command(flatten)]
    pub common: Common,

    #[command(subcommand)]
    pub command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print the whole design of a plan.
    Report(Report),
    /// List what is wrong or doubtful in a plan, with an exit status for scripts.
    Check(Check),
    /// Compare all cable sizes for one current and length.
    Cable(Cable),
    /// Find where to disconnect a battery at a given current.
    CutOff(CutOff),
    /// Judge a battery that is not new: how full it is, and what it still holds.
    UsedBattery(UsedBattery),
    /// Simulate days of use: charge, cuts and wear.
    #[command(alias = "endurance")]
    Days(Days),
    /// Compare what else would do, one step more or less of each part, and what matters most.
    Rivals(Rivals),
    /// Find a fault in the finished wiring, measurement by measurement.
    Fault(Fault),
    /// Hold a logger's file against the plan: planned, measured, and what it changes.
    Log(Log),
    /// The battery over the years, how to test its capacity, and what to look at once a year.
    Ageing(AgeingArguments),
    /// Write all papers for the workshop into a folder.
    Papers(Papers),
    /// Print loads or runs as CSV for a spreadsheet, or take them from one.
    Table(TableCommand),
    /// Show what the program knows of the trade, and where it comes from.
    Catalogue(CatalogueCommand),
    /// Work published cases on this machine, with the catalogue in use.
    SelfCheck(SelfCheck),
    /// Print the JSON Schema of the plan file, for editors.
    Schema(Schema),
    /// Print completions for a shell.
    Completions(Completions),
    /// Print the manual page, or that of one command.
    Man(Man),
}

/// A plan to work on.
#[derive(Args, Clone, Debug)]
pub struct PlanArgument {
    /// Plan file; - for standard input; an example when left out.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plan: Option<PathBuf>,
}

/// A plan, and what a meter read in the vehicle.
#[derive(Args, Clone, Debug)]
pub struct MeasuredPlan {
    #[command(flatten)]
    pub plan: PlanArgument,
    #[command(flatten)]
    pub readings: Readings,
}

/// What a meter read in the vehicle.
#[derive(Args, Clone, Debug)]
pub struct Readings {
    /// Readings of a meter as CSV, added to those of the plan; - for standard
    /// input; the first line names the columns: at, with, voltage_v, posts_v,
    /// current_a.
    #[arg(long = "readings", value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub file: Option<PathBuf>,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Some hundred whole designs: about a second.

Examples:
  loomwright rivals van.toml
  loomwright rivals van.toml --beside 1,2,5
  loomwright rivals van.toml --json | jq '.designs[] | select(.unbeaten) | .words'")]
pub struct Rivals {
    #[command(flatten)]
    pub plan: PlanArgument,
    /// Up to four of them in columns side by side, by their numbers in the list;
    /// 1 is the plan in hand.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',', conflicts_with = "json")]
    pub beside: Vec<usize>,
    #[command(flatten)]
    pub form: Form,
}

/// How a report is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Aligned, 80 columns.
    #[default]
    Text,
    /// Markdown.
    Markdown,
    /// One HTML page that needs nothing else and prints well.
    Html,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright report van.toml
  loomwright report van.toml --format html > van.html
  loomwright report van.toml --json | jq '.runs[] | {number, size, fuses}'")]
pub struct Report {
    #[command(flatten)]
    pub plan: MeasuredPlan,
    /// How the report is written.
    #[arg(long, value_name = "FORMAT", default_value = "text", conflicts_with = "json")]
    pub format: Format,
    /// With a page of whole designs side by side: this one and those that nothing beats.
    #[arg(long, conflicts_with = "json")]
    pub rivals: bool,
    /// That page with other designs, by their numbers in `loomwright rivals`; 1 is the plan in hand.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',', conflicts_with_all = ["json", "rivals"])]
    pub beside: Vec<usize>,
    #[command(flatten)]
    pub told: Told,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Exit status: 0 nothing to stop you, 1 a finding says STOP, 2 a plan cannot be
read; of several plans the worst.

Examples:
  loomwright check van.toml
  loomwright check --quiet *.toml && echo fit to build
  loomwright check van.toml --json | jq '.findings[] | .text'")]
pub struct Check {
    #[command(flatten)]
    pub form: Form,
    /// Plan files; - for standard input; an example when left out.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plans: Vec<PathBuf>,
    #[command(flatten)]
    pub readings: Readings,
    /// Leave out notes.
    #[arg(long)]
    pub no_notes: bool,
    /// Print no findings; the exit status tells.
    #[arg(long, short, conflicts_with = "json")]
    pub quiet: bool,
    /// Write the plan with the fewest edits after which no STOP is left, - for standard output; comments stay, what says
    /// keep is not touched.
    #[arg(long, value_name = "OUT", value_hint = ValueHint::FilePath, conflicts_with_all = ["json", "quiet", "file"])]
    pub mend: Option<PathBuf>,
    /// With --mend: until no caution is left either.
    #[arg(long, requires = "mend")]
    pub cautions: bool,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Values are read with or without unit: 20A, 6.2m, 20ft, 45C, 113F, 500ms.

Examples:
  loomwright cable 20A 6.2m
  loomwright cable 8 20ft --drop critical --air 60C --bundled-with 3
  loomwright cable 150A 1.2m --through engine-bay --sizes awg
  loomwright cable 300A 5m --on 3min --off 30min")]
pub struct Cable {
    /// Current that flows steadily.
    pub current: String,
    /// Length one way along the loom; the way back is counted too.
    pub length: String,
    /// How much voltage may be lost: critical, ordinary, tolerant, or a share
    /// such as 2%.
    #[arg(long, value_name = "CLASS", default_value = "ordinary")]
    pub drop: String,
    /// Insulation class of the cable.
    #[arg(long, value_name = "CLASS", default_value = "pvc-105")]
    pub insulation: String,
    /// What the cable runs through.
    #[arg(long, value_name = "PLACE", default_value = "cabin")]
    pub through: String,
    /// Hottest air along it.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub air: Option<String>,
    /// Other loaded cables in the same bundle.
    #[arg(long, value_name = "NUMBER", default_value_t = 0)]
    pub bundled_with: u32,
    /// Sizes to compare: metric, tinned, awg or road-vehicle.
    #[arg(long, value_name = "FAMILY", default_value = "metric")]
    pub sizes: String,
    /// A size to check instead of choosing one, such as 6mm2 or 10AWG.
    #[arg(long, value_name = "SIZE")]
    pub size: Option<String>,
    /// Longest that it is on at a time; the cable then bears its warmth, not
    /// the current for ever.
    #[arg(long, value_name = "TIME", requires = "off")]
    pub on: Option<String>,
    /// Shortest that it is off then.
    #[arg(long, value_name = "TIME", requires = "on")]
    pub off: Option<String>,
    /// The vehicle's body is the way back.
    #[arg(long)]
    pub chassis: bool,
    /// Crimped joints in the whole loop, whose drop counts too.
    #[arg(long, value_name = "NUMBER", default_value_t = 4, value_parser = clap::value_parser!(u32).range(0..=50))]
    pub joints: u32,
    /// Count the conductor alone, as published drop tables do: no joints, no
    /// fuse-link.
    #[arg(long)]
    pub cable_alone: bool,
    #[command(flatten)]
    pub told: Told,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright cut-off agm 100Ah 8A
  loomwright cut-off lithium-iron-phosphate 100Ah 12A --reserve 20%
  loomwright cut-off agm 100Ah 8A --at 12.2V
  loomwright cut-off lfp 100Ah 5A --heavy 90A --air -5C")]
pub struct CutOff {
    /// Chemistry of the battery: flooded, agm, gel, lithium-iron-phosphate (lfp), …
    pub chemistry: String,
    /// Rated capacity of the bank.
    pub capacity: String,
    /// Current that usually flows when it should cut.
    pub current: String,
    /// Charge to keep in the battery; the chemistry's own figure when left out.
    #[arg(long, value_name = "SHARE")]
    pub reserve: Option<String>,
    /// The least that flows; a fifth of the usual current when left out.
    #[arg(long, value_name = "CURRENT")]
    pub light: Option<String>,
    /// The most that flows for minutes; three times the usual current when left
    /// out.
    #[arg(long, value_name = "CURRENT")]
    pub heavy: Option<String>,
    /// Air at the battery; 25 °C when left out.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub air: Option<String>,
    /// A setting to judge instead of choosing one, such as 12.2V; by signal, where
    /// the battery takes back its permission to discharge.
    #[arg(long, value_name = "VOLTAGE")]
    pub at: Option<String>,
    /// What makes it open: voltage, charge (a shunt that counts, with a voltage as
    /// a floor) or signal (the battery's own).
    #[arg(long, value_name = "WHAT")]
    pub by: Option<String>,
    /// How far a counter of charge strays in a day; 1 % when left out.
    #[arg(long, value_name = "SHARE")]
    pub drift: Option<String>,
    /// How far it may be off when full; 2 % when left out.
    #[arg(long, value_name = "SHARE")]
    pub off: Option<String>,
    /// Days from one full battery to the next; one when left out.
    #[arg(long, value_name = "DAYS")]
    pub days: Option<String>,
    #[command(flatten)]
    pub told: Told,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright used-battery agm 100Ah --rested 12.4V --after 6h
  loomwright used-battery flooded 110Ah --density 1.24,1.24,1.23,1.24,1.24,1.24 --air 5C
  loomwright used-battery agm 100Ah --drawn 5A --for 15h30")]
pub struct UsedBattery {
    /// Chemistry of the battery: flooded, agm, gel, lithium-iron-phosphate (lfp), …
    pub chemistry: String,
    /// Rated capacity, from its label.
    pub capacity: String,
    /// Voltage at its posts after a rest without current.
    #[arg(long, value_name = "VOLTAGE")]
    pub rested: Option<String>,
    /// How long it has rested; four hours when left out.
    #[arg(long, value_name = "TIME")]
    pub after: Option<String>,
    /// What a hydrometer shows, cell by cell.
    #[arg(long, value_name = "DENSITY", value_delimiter = ',')]
    pub density: Vec<String>,
    /// Temperature of the battery; 25 °C when left out.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub air: Option<String>,
    /// Steady current of a discharge that began full and went on until it was
    /// empty, or until the voltage or density given here, after a rest.
    #[arg(long, value_name = "CURRENT", requires = "lasted")]
    pub drawn: Option<String>,
    /// How long that lasted.
    #[arg(long = "for", value_name = "TIME", requires = "drawn")]
    pub lasted: Option<String>,
    #[command(flatten)]
    pub form: Form,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Figures of standards, tables and data sheets, each with its source, beside what
this program makes of them. Rows of your own count: what they move is seen.

Exit status: 0 all hold, 1 one does not, 2 the catalogue cannot be read.

Examples:
  loomwright self-check
  loomwright self-check --profiles my-rows")]
pub struct SelfCheck {
    #[command(flatten)]
    pub form: Form,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Symptoms: dark, weak, flat, cut-early, no-charge, fuse-gone, warm, starter.
Each measurement has a number; give what the meter showed with --found. On a
terminal with --ask the readings are asked for one by one: type the value, ? for
what cannot be reached, or an empty line to end.

Examples:
  loomwright fault van.toml dark --load fridge
  loomwright fault van.toml dark --load fridge --read \"service battery=12.9\" --read \"rear panel=11.6\"
  loomwright fault van.toml dark --load fridge --found 41=12.71 --skip 17
  loomwright fault van.toml no-charge --ask")]
pub struct Fault {
    /// Plan file; - for standard input.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plan: PathBuf,
    /// What is seen: dark, weak, flat, cut-early, no-charge, fuse-gone, warm,
    /// starter.
    pub symptom: String,
    /// Of which load.
    #[arg(long, value_name = "LOAD")]
    pub load: Option<String>,
    /// A voltage between plus and minus at a point, the load switched on (with
    /// no load named: everything off).
    #[arg(long = "read", value_name = "POINT=VOLTS")]
    pub readings: Vec<String>,
    /// Another load that works, switched on alone.
    #[arg(long, value_name = "LOAD")]
    pub works: Vec<String>,
    /// Another load that is dim or slow too.
    #[arg(long, value_name = "LOAD")]
    pub dim: Vec<String>,
    /// Another load that does nothing either.
    #[arg(long, value_name = "LOAD")]
    pub fails: Vec<String>,
    /// What the measurement of this number showed.
    #[arg(long, value_name = "NUMBER=VALUE")]
    pub found: Vec<String>,
    /// A measurement that cannot be reached.
    #[arg(long, value_name = "NUMBER")]
    pub skip: Vec<usize>,
    /// Ask for one reading after the other.
    #[arg(long, conflicts_with = "json")]
    pub ask: bool,
    #[command(flatten)]
    pub form: Form,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Writes report, job card, connection drawing and table, cut list, parts list, labels,
test sheet, owner's card, workings, and with mains voltage a sheet for the
electrician, as one PDF to print (papers.pdf, the workings in workings.pdf), and each as
Markdown and HTML, SVG and CSV: all of them, or none where the disk is full. --replace takes stale papers of an earlier set away and leaves anything
else in the folder alone.

Exit status: 0 nothing to stop you, 1 a finding says STOP or --check found a
difference, 2 something could not be read or written.

Examples:
  loomwright papers van.toml van-papers
  loomwright papers van.toml --check van-papers
  loomwright papers van.toml --into van-papers --replace")]
pub struct Papers {
    #[command(flatten)]
    pub plan: PlanArgument,
    /// Folder to write into; the same as --into.
    #[arg(value_name = "FOLDER", conflicts_with = "into")]
    pub folder: Option<PathBuf>,
    /// Folder to write into; made when it is not there.
    #[arg(long, value_name = "FOLDER", default_value = "papers")]
    pub into: PathBuf,
    /// Write over papers that are in the folder already.
    #[arg(long)]
    pub replace: bool,
    /// Write nothing; say whether the papers in this folder are those that the plan gives now.
    #[arg(long, value_name = "FOLDER", conflicts_with_all = ["folder", "into", "replace", "json", "units"])]
    pub check: Option<PathBuf>,
    /// Sheets of the PDF.
    #[arg(long, value_enum, default_value_t, conflicts_with = "check")]
    pub page: Page,
    /// In CSV semicolons between cells, commas in numbers.
    #[arg(long, conflicts_with = "check")]
    pub decimal_comma: bool,
    /// CSV begins with a byte order mark, by which some spreadsheets know UTF-8.
    #[arg(long, conflicts_with = "check")]
    pub bom: bool,
    /// With a page of whole designs side by side: this one and those that nothing beats.
    #[arg(long, conflicts_with = "check")]
    pub rivals: bool,
    /// That page with other designs, by their numbers in `loomwright rivals`; 1 is the plan in hand.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',', conflicts_with_all = ["check", "rivals"])]
    pub beside: Vec<usize>,
    #[command(flatten)]
    pub form: Form,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright days van.toml
  loomwright days van.toml --days 90 --first-day 335 --health 80%
  loomwright days van.toml --days 7 --trials 1000")]
pub struct Days {
    #[command(flatten)]
    pub plan: PlanArgument,
    /// How many days, 1 to 3650; the first is a Monday.
    #[arg(long, value_name = "NUMBER", default_value_t = 14)]
    pub days: u32,
    /// Day of the year it begins on, 1 to 365.
    #[arg(long, value_name = "DAY", default_value_t = 105)]
    pub first_day: u32,
    /// Charge in the battery at the beginning.
    #[arg(long, value_name = "SHARE", default_value = "100%")]
    pub from: String,
    /// Share of the capacity that age has left.
    #[arg(long, value_name = "SHARE", default_value = "100%")]
    pub health: String,
    /// Repeat it so many times with use, weather and age drawn at random, and
    /// say how sure it is.
    #[arg(long, alias = "draws", value_name = "NUMBER", default_value_t = 0)]
    pub trials: u32,
    /// Beginning of the random numbers; the same gives the same result.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub seed: u64,
    #[command(flatten)]
    pub told: Told,
}
