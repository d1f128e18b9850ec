//! Which words of a plan are names that read like a value, and stay as they are in any units?

use super::Plan;
use crate::quantity::Names;

impl Plan {
    /// Names of loads, runs, points and boards, and what else the user writes in words.
    pub fn names(&self) -> Names {
        let mut all: Vec<&str> = vec![&self.job.title, &self.solar.at, &self.mains.at, &self.inverter.at];
        for load in &self.loads {
            all.extend([load.name.as_str(), &load.at]);
            all.extend(load.way.as_deref().into_iter().chain(load.not_with.as_deref()));
        }
        for run in &self.runs {
            all.extend([run.name.as_str(), &run.from, &run.to, &run.note]);
        }
        all.extend(self.boards.iter().map(|board| board.name.as_str()));
        all.extend(self.plugs.iter().map(|plug| plug.name.as_str()));
        all.extend(self.job.notes.lines());
        Names::of(all)
    }
}
