//! What does not fit into the trees of runs?

/// One thing that does not hang together. Runs and loads by their index.
#[derive(Clone, Debug, PartialEq)]
pub enum Misfit {
    /// A run has no end point.
    Nowhere {
        /// The run.
        run: usize,
    },
    /// A run begins and ends at the same point.
    SameEnds {
        /// The run.
        run: usize,
    },
    /// A run is a second way to a point.
    SecondWay {
        /// The run.
        run: usize,
        /// The point.
        to: String,
    },
    /// A run joins both batteries without the charger between them.
    JoinsBatteries {
        /// The run.
        run: usize,
    },
    /// A run hangs together with neither battery.
    Loose {
        /// The run.
        run: usize,
    },
    /// No run leads to the cut-off, where this one begins.
    CutOffAtPosts {
        /// The run.
        run: usize,
    },
    /// There is no load.
    NoLoads,
    /// A load is at a point that no run reaches, or at none.
    LoadLoose {
        /// The load.
        load: usize,
        /// The point with the name most like it, if any is.
        near: Option<String>,
    },
    /// The inverter is at a point that no run reaches.
    InverterLoose,
    /// Nothing is at or beyond the far end of a run.
    Idle {
        /// The run.
        run: usize,
        /// Its far end.
        far: String,
    },
    /// No run joins the charger's input to the starter battery.
    ChargerInputLoose,
    /// No run joins the charger's output to the service battery.
    ChargerOutputLoose,
    /// No run reaches the point that the cut-off watches.
    SensingLoose,
}
