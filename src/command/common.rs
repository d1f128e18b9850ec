//! What is asked of every command: profiles, colour, letters, units?

use super::table_arguments::Units;
use crate::papers::Look;
use crate::plan::{self, Plan};
use crate::quantity::Names;
use clap::{Args, ValueEnum, ValueHint};
use std::path::PathBuf;

/// Options of every command.
#[derive(Args, Clone, Debug, Default)]
pub struct Common {
    /// Folder of your own profiles, laid over the built-in ones; may be given
    /// more than once, later ones win.
    #[arg(long, value_name = "FOLDER", global = true, value_hint = ValueHint::DirPath)]
    pub profiles: Vec<PathBuf>,

    /// When to use colour.
    #[arg(long, value_name = "WHEN", global = true, default_value = "auto")]
    pub color: Color,

    /// Only ASCII characters, for terminals without others.
    #[arg(long, global = true)]
    pub ascii: bool,

    /// Units of lengths, masses, temperatures and torques; those of the plan
    /// when left out, metric without one. CSV and JSON, workings and marking out stay metric.
    #[arg(long, value_enum, global = true)]
    pub units: Option<Units>,

    /// What the plan says of it: its units, and its names that read like values.
    #[arg(skip)]
    pub plan: OfPlan,
}

/// What a plan says of how it is told.
#[derive(Clone, Debug, Default)]
pub struct OfPlan {
    units: plan::Units,
    names: Names,
}

impl Common {
    /// How text for people looks.
    pub fn look(&self) -> Look {
        let units = self.units.map_or(self.plan.units, Units::of_plan);
        Look { ascii: self.ascii, system: units.system(), names: self.plan.names.clone(), ..Look::default() }
    }

    /// The same for what is told of a plan: in its units.
    pub fn of(&self, plan: &Plan) -> Common {
        Common { plan: OfPlan { units: plan.job.units, names: plan.names() }, ..self.clone() }
    }
}

/// When to use colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal, unless `NO_COLOR` is set.
    #[default]
    Auto,
    /// Also into files and pipes.
    Always,
    /// Not at all.
    Never,
}
