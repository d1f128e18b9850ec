//! Findings: what the user should know, worst first, each with numbers and a remedy.
//!
//! All kinds stand in [`Kind::ALL`]; a test checks that each has one test that
//! raises it and one that does not.

use crate::engine::installation::subject::Subject;
use crate::engine::judge::demand::{Demand, fits};
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::plan::{Place, Value};

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// Do not build this.
    Stop,
    /// Think about this before building.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// The word shown: `STOP`, `caution`, `note`.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Stop => "STOP",
            Severity::Caution => "caution",
            Severity::Note => "note",
        }
    }
}

/// What is found, and how grave it is, without its words.
pub type Grade = (Kind, Severity);

/// Something the user should know.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which kind; its `key` is stable.
    pub kind: Kind,
    /// How bad.
    pub severity: Severity,
    /// What it is about.
    pub subject: Subject,
    /// One sentence with the numbers, without a full stop.
    pub text: String,
    /// The rule and its source.
    pub rule: String,
    /// At least one, with a number where there is one to give.
    pub remedies: Vec<Remedy>,
    /// The field that mends it.
    pub place: Option<Place>,
    /// Where nothing keeps them all: the two demands that exclude each other.
    pub excludes: Option<[Demand; 2]>,
}

impl Finding {
    /// A finding of this kind with the kind's usual severity.
    pub fn new(kind: Kind, subject: Subject, text: impl Into<String>) -> Self {
        Finding {
            kind,
            severity: kind.severity(),
            subject,
            text: text.into(),
            rule: String::new(),
            remedies: Vec::new(),
            place: None,
            excludes: None,
        }
    }

    /// With the two demands that exclude each other, said in its text too.
    pub fn between(mut self, demands: [Demand; 2]) -> Self {
        self.text = format!("{}; {} and {} exclude each other", self.text, demands[0].words, demands[1].words);
        self.excludes = Some(demands);
        self
    }

    /// With another severity than usual.
    pub fn as_severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    /// With its rule and source.
    pub fn rule(mut self, rule: impl Into<String>) -> Self {
        self.rule = rule.into();
        self
    }

    /// With the field that mends it.
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// With a remedy in words.
    pub fn remedy(mut self, words: impl Into<String>) -> Self {
        self.remedies.push(Remedy::words(words));
        self
    }

    /// With a remedy that putting a number into one field does; only in words where the field does not take it.
    pub fn remedy_number(self, words: impl Into<String>, place: Place, number: f64) -> Self {
        // Settings are read off devices and tapes, so no more digits than those show.
        let number = (number * 1000.0).round() / 1000.0;
        self.remedy_edit(words, place, Some(Value::Number(number)))
    }

    /// With a remedy that one edit does; only in words where the field does not take the number.
    pub fn remedy_edit(self, words: impl Into<String>, place: Place, value: Option<Value>) -> Self {
        self.remedy_edits(words, vec![Edit { place, value }])
    }

    /// With a remedy that several edits together do; only in words where a field does not take its number.
    pub fn remedy_edits(mut self, words: impl Into<String>, edits: Vec<Edit>) -> Self {
        let taken = edits.iter().all(|e| !matches!(e.value, Some(Value::Number(n)) if !fits(e.place, n)));
        self.remedies.push(Remedy { edits: if taken { edits } else { Vec::new() }, ..Remedy::words(words) });
        self
    }
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident = $key:literal, $severity:ident;)*) => {
        /// The kinds of findings.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Kind { $($(#[$doc])* $name,)* }

        impl Kind {
            /// Every kind there is.
            pub const ALL: &'static [Kind] = &[$(Kind::$name,)*];
            /// Stable name, for scripts.
            pub fn key(self) -> &'static str { match self { $(Kind::$name => $key,)* } }
            /// Usual severity.
            pub fn severity(self) -> Severity { match self { $(Kind::$name => Severity::$severity,)* } }
        }
    };
}

kinds! {
    // The plan as a graph.
    /// A run has no end point, or both ends are the same.
    RunNowhere = "run-nowhere", Stop;
    /// A run cannot be reached from any battery.
    RunLoose = "run-loose", Stop;
    /// A run closes a loop, so a point is fed twice.
    RunLoop = "run-loop", Stop;
    /// A load hangs on a point that no run reaches.
    LoadLoose = "load-loose", Stop;
    /// A load has neither power nor current.
    LoadEmpty = "load-empty", Caution;
    /// A load has a power and a current that do not agree.
    LoadContradicts = "load-contradicts", Caution;
    /// There is nothing to feed.
    NoLoads = "no-loads", Note;
    /// The charger is not connected on one of its sides.
    ChargerLoose = "charger-loose", Stop;
    /// The sensing point of the cut-off is no point of the plan.
    SensingLoose = "sensing-loose", Caution;
    /// A run feeds nothing, and nothing feeds it.
    RunIdle = "run-idle", Caution;
    /// No run leads to the cut-off.
    CutOffLoose = "cut-off-loose", Caution;
    /// Coldest, mean and hottest air contradict each other.
    AirContradicts = "air-contradicts", Stop;
    // Duty.
    /// A load is on for longer than its times allow.
    DutyTooLong = "duty-too-long", Caution;
    /// A load runs only while driving, but no driving is planned.
    DutyNever = "duty-never", Caution;
    /// Loads need an inverter and none is planned.
    InverterMissing = "inverter-missing", Stop;
    /// AC loads exceed the inverter's rating.
    InverterSmall = "inverter-small", Stop;
    /// The start of an AC load is more than an inverter gives for a moment.
    InverterSurge = "inverter-surge", Caution;
    // Battery.
    /// A given capacity is less than what is needed.
    BatterySmall = "battery-small", Stop;
    /// Nothing in the list of blocks is big enough.
    BatteryNone = "battery-none", Stop;
    /// Tried with its own settings, the design does not last the days without charge.
    PromiseBroken = "promise-broken", Stop;
    /// In the plan's own usual weeks something stands without power.
    UsualWeeks = "usual-weeks", Caution;
    /// On the hottest days it lasts less long than wanted.
    HotDays = "hot-days", Caution;
    /// The planned depth is deeper than the chemistry likes.
    DepthDeep = "depth-deep", Caution;
    /// What it holds is given twice.
    FoundTwice = "found-twice", Note;
    /// More blocks in parallel than is wise.
    ParallelMany = "parallel-many", Caution;
    /// Blocks of lead-acid in parallel must be alike.
    ParallelAlike = "parallel-alike", Caution;
    /// Blocks in parallel differ in kind, size or age.
    BlocksMixed = "blocks-mixed", Caution;
    /// Each block of a large bank in parallel wants a fuse of its own.
    BlockFuses = "block-fuses", Caution;
    /// Too cold to charge.
    ColdCharge = "cold-charge", Stop;
    /// The heater pad's own draw is to be planned.
    HeaterDraw = "heater-draw", Note;
    /// Too cold or too hot to use.
    TemperatureLimit = "temperature-limit", Stop;
    /// It gives off gas where that gathers, or where somebody sleeps.
    BatteryGas = "battery-gas", Stop;
    /// It stands outside, or beside the engine, without what guards it there.
    BatteryExposed = "battery-exposed", Caution;
    /// Its own protection opens under charge, and what charges it does not hear of it.
    ProtectionOpens = "protection-opens", Caution;
    /// Nothing in the plan wakes it once its own protection has opened.
    WakeUp = "wake-up", Caution;
    /// It may freeze at the lowest charge.
    Freezing = "freezing", Caution;
    /// A short load pulls the voltage below the cut-off.
    SurgeDeep = "surge-deep", Caution;
    /// More current than the chemistry gives.
    BatteryRate = "battery-rate", Stop;
    /// A 12 V system cannot use this chemistry without a converter.
    VoltageMisfit = "voltage-misfit", Stop;
    // Charging.
    /// Nothing charges it.
    NoCharge = "no-charge", Stop;
    /// A mains charger is never plugged in.
    MainsNever = "mains-never", Caution;
    /// A day's driving does not put back a day's draw.
    ChargerSlow = "charger-slow", Caution;
    /// Less charge current than is usual for lead-acid, which then takes long.
    ChargerGentle = "charger-gentle", Note;
    /// More charge current than the chemistry takes.
    ChargerFast = "charger-fast", Stop;
    /// The charge voltage is above what the chemistry stands.
    ChargeVoltage = "charge-voltage", Stop;
    /// The charge voltage is below what fills the battery.
    ChargeVoltageLow = "charge-voltage-low", Caution;
    /// Over a week less comes in than is used.
    ChargeShort = "charge-short", Caution;
    /// More than the alternator has to give.
    AlternatorShort = "alternator-short", Caution;
    /// No standard charger fits between the bounds.
    ChargerNone = "charger-none", Caution;
    /// A variable alternator needs a boosting charger and an enable wire.
    VariableAlternator = "variable-alternator", Stop;
    /// A relay joins batteries that must not be joined.
    RelayMisfit = "relay-misfit", Stop;
    /// The charger's input voltage falls below what it works with.
    ChargerInputLow = "charger-input-low", Stop;
    /// The charger feeds the load side of the cut-off.
    ChargerBehindCutOff = "charger-behind-cut-off", Caution;
    /// Sun or mains join at a point that no run joins to the service battery.
    SourceLoose = "source-loose", Stop;
    /// Sun or mains feed the load side of the cut-off.
    SourceBehindCutOff = "source-behind-cut-off", Caution;
    /// The array's voltage is more than its controller stands.
    ArrayVoltage = "array-voltage", Stop;
    /// A controller without tracking passes on little of the array's power.
    PanelMisfit = "panel-misfit", Caution;
    /// The other strings can drive more back into a panel than it stands.
    StringFuses = "string-fuses", Caution;
    /// The panels' own cable does not bear full sun, or not its device.
    ArrayCable = "array-cable", Stop;
    /// The device in the panels' cable opens in full sun, or none is made.
    ArrayDevice = "array-device", Stop;
    /// The panels' own cable loses much.
    ArrayDrop = "array-drop", Caution;
    // Runs.
    /// More voltage is lost on the way to a load than its class allows.
    DropHigh = "drop-high", Stop;
    /// A load gets less voltage than it works with.
    VoltageLow = "voltage-low", Stop;
    /// A load gets more voltage than 12 V equipment stands.
    VoltageHigh = "voltage-high", Caution;
    /// The cable carries more than its ampacity.
    AmpacityLow = "ampacity-low", Stop;
    /// No size of the catalogue is enough.
    SizeNone = "size-none", Stop;
    /// The air is hotter than the insulation stands.
    InsulationHot = "insulation-hot", Stop;
    /// The cables cannot feed this load at all.
    Collapse = "collapse", Stop;
    /// A run is to be sized for less than its loads may draw.
    RunCurrentLow = "run-current-low", Caution;
    /// A load that comes and goes burns its cable if it stays on, before its device opens.
    RunsOn = "runs-on", Caution;
    /// A label that misleads about the copper.
    LabelTrap = "label-trap", Caution;
    /// Thinner than is mechanically sensible.
    SizeThin = "size-thin", Caution;
    /// More different sizes than wanted.
    SizesMany = "sizes-many", Note;
    /// A cable passes what could harm it, or what it could harm.
    RunPasses = "run-passes", Caution;
    /// A plug's contacts take less than the cable or the fuse that is planned.
    PlugSmall = "plug-small", Stop;
    /// A plug is at no point that a run reaches.
    PlugLoose = "plug-loose", Stop;
    /// The trailer's half of a plug is live when it is pulled.
    PlugLive = "plug-live", Caution;
    // The minus side.
    /// The bond to the body does not bear a fault or the load.
    BondThin = "bond-thin", Stop;
    /// The starter battery's minus carries a sensor, and something is added there.
    MinusSensor = "minus-sensor", Note;
    /// What opens sits in the minus alone.
    DeviceInMinus = "device-in-minus", Stop;
    /// The main switch carries less than what flows.
    MainSwitchSmall = "main-switch-small", Stop;
    /// Opening the main switch parts what must stay together.
    MainSwitchParts = "main-switch-parts", Stop;
    /// What stays live when the main switch is open.
    MainSwitchLive = "main-switch-live", Note;
    // Fuses.
    /// No fuse rating fits between load and cable.
    FuseNone = "fuse-none", Stop;
    /// A given rating is made in no style of the catalogue.
    FuseUnmade = "fuse-unmade", Stop;
    /// A given fuse is too big for the cable.
    FuseBig = "fuse-big", Stop;
    /// A given fuse is too small for the load.
    FuseSmall = "fuse-small", Stop;
    /// The fuse cannot break the fault current at its place.
    FuseBreaking = "fuse-breaking", Stop;
    /// A breaker that closes again by itself is all that guards a cable.
    BreakerAlone = "breaker-alone", Stop;
    /// A breaker marked with a polarity stands where current runs both ways.
    BreakerPolarity = "breaker-polarity", Stop;
    /// A fault at the far end may not open the fuse in time.
    FuseFarFault = "fuse-far-fault", Caution;
    /// The start surge may open the fuse.
    FuseSurge = "fuse-surge", Caution;
    /// The fuse upstream may open too.
    FuseSelective = "fuse-selective", Caution;
    /// The cable is not protected by any fuse.
    FuseMissing = "fuse-missing", Stop;
    /// A load's own cable is not planned, and the device before it is more than such a cable bears.
    PanelFuses = "panel-fuses", Caution;
    /// More circuits begin at a board than it has ways.
    BoardWays = "board-ways", Stop;
    /// A board's bar carries more than it is rated for, or nothing opens before it does.
    BoardRating = "board-rating", Stop;
    /// Loads that share a way ask for different fuses in it.
    WayFuses = "way-fuses", Caution;
    /// No run leads to a board.
    BoardLoose = "board-loose", Caution;
    /// Something hangs on the battery's posts without a run, so without a fuse.
    LeadsUnplanned = "leads-unplanned", Stop;
    /// The fuse in an appliance's own leads is not known to guard them.
    TailFuse = "tail-fuse", Caution;
    /// The fuse sits too far from its source.
    FuseFar = "fuse-far", Stop;
    /// The let-through energy is more than the cable stands.
    LetThrough = "let-through", Stop;
    /// A choice rests on gates from memory.
    GateMemory = "gate-memory", Note;
    // Cut-off.
    /// The cut-off closes onto an inverter whose capacitors nothing has filled.
    PreCharge = "pre-charge", Caution;
    /// The cut-off carries more than its rating.
    CutOffRating = "cut-off-rating", Stop;
    /// There is a battery but loads are not behind the cut-off.
    CutOffMissing = "cut-off-missing", Stop;
    /// A load is said to stay connected, and is wired behind the cut-off.
    StaysOnBehind = "stays-on-behind", Caution;
    /// The voltage wanted is outside what the device can be set to.
    CutOffRange = "cut-off-range", Caution;
    /// Cut-off at or below where harm begins.
    CutOffLow = "cut-off-low", Stop;
    /// A heavy current trips it long before the reserve.
    CutOffEarly = "cut-off-early", Note;
    /// A surge trips it.
    CutOffSurge = "cut-off-surge", Caution;
    /// It would reconnect at once, and cut again.
    CutOffChatter = "cut-off-chatter", Stop;
    /// Charging does not reach the reconnect voltage.
    ReconnectHigh = "reconnect-high", Caution;
    /// Something else acts before the cut-off.
    CutOffOrder = "cut-off-order", Caution;
    /// A counter of charge is not set right, or set too low for what it may be off.
    CutOffCounter = "cut-off-counter", Caution;
    /// It is to act by a signal that the battery does not give, or that leaves nothing.
    CutOffSignal = "cut-off-signal", Stop;
    /// Voltage says little about charge here.
    CutOffFlat = "cut-off-flat", Note;
    /// Days until harm after the cut-off are few.
    StandingDraw = "standing-draw", Caution;
    /// Left without use it ends, freezes or ages.
    LeftStanding = "left-standing", Caution;
    /// The starter battery may not start the engine.
    StarterLow = "starter-low", Stop;
    /// In the plan's own days the starter battery falls below what starting needs.
    StartLost = "start-lost", Stop;
    // Days of use.
    /// Loads are cut off within the days simulated.
    EnduranceCut = "endurance-cut", Caution;
    /// The charge drifts down over weeks.
    EnduranceDrift = "endurance-drift", Caution;
    // Vehicle.
    /// The body carries a large return current.
    ChassisReturn = "chassis-return", Caution;
    /// A place with its own caution.
    PlaceCaution = "place-caution", Note;
    // Hold-down.
    /// The battery's mass is not known.
    CarrierNoMass = "hold-down-no-mass", Caution;
    /// Neither inside nor battery dimensions are known.
    CarrierNoSize = "hold-down-no-size", Caution;
    /// The battery does not go in, or with less clearance than wanted.
    CarrierTight = "hold-down-tight", Stop;
    /// The battery can move too far.
    CarrierLoose = "hold-down-loose", Caution;
    /// It is higher than the room.
    HeightShort = "height-short", Stop;
    /// The bends take more than a straight part has.
    BendShort = "bend-short", Stop;
    /// A bend is tighter than the steel likes.
    BendTight = "bend-tight", Caution;
    /// The studs have no width in a direction.
    StudPattern = "stud-pattern", Caution;
    /// The studs do not stand the shock.
    StudWeak = "stud-weak", Stop;
    /// The strip does not stand the shock.
    StripWeak = "strip-weak", Stop;
    /// A link of the carrier between the studs does not stand the shock.
    LinkWeak = "link-weak", Stop;
    /// A weld is longer than there is room for, too short to count, or thicker than its metal.
    WeldUnmade = "weld-unmade", Stop;
    /// A spacer is as long as the floor is deep or longer, so nothing grips the floor.
    SpacerLoose = "spacer-loose", Caution;
    /// Tightening bends the faces of a hollow floor for good.
    FloorCrushed = "floor-crushed", Stop;
    /// Nothing holds the battery down, or too little.
    HoldDownWeak = "hold-down-weak", Stop;
    /// It comes near the ground, or touches it, with the springs on their stops.
    GroundNear = "ground-near", Caution;
    /// It takes from the departure angle.
    DepartureLost = "departure-lost", Caution;
    /// Exhaust, shaft, tyre or a line is nearer than it should be.
    TooNear = "too-near", Caution;
    /// Steel and aluminium touch where it is wet.
    MetalsMeet = "metals-meet", Caution;
    /// A charger or cut-off by the carrier stands no jet of water, or nobody knows whether it does.
    MountedWet = "mounted-wet", Caution;
    /// A charger or cut-off by the carrier gives too little in the air there, or warms the battery.
    MountedHot = "mounted-hot", Caution;
    /// As built the battery does not go in, or a stud not through its hole.
    BuiltOff = "built-off", Stop;
    /// More torque than the stud stands.
    TorqueHigh = "torque-high", Caution;
    /// Too little preload to keep the joint closed.
    TorqueLow = "torque-low", Caution;
    /// Friction alone does not hold it sideways.
    CarrierSlips = "hold-down-slips", Note;
    /// Nothing keeps the nuts on.
    NutUnlocked = "nut-unlocked", Caution;
    /// Too heavy for one person.
    Lifting = "lifting", Caution;
    // The catalogue.
    /// A row in use says what can hardly be.
    RowDoubtful = "row-doubtful", Caution;
    // Test sheet.
    /// A reading is at no point of the plan, or with nothing that draws.
    ReadingLoose = "reading-loose", Caution;
    /// Readings are compared with sizes that the program may still change.
    ReadingUnbuilt = "reading-unbuilt", Note;
    /// A value of a reading is still to be filled in.
    ReadingIncomplete = "reading-incomplete", Note;
    /// With all loads on, a point has less voltage than it should.
    ReadingOutside = "reading-outside", Caution;
    /// A run has more resistance than it should.
    JointBad = "joint-bad", Stop;
    /// Something is bad, and the readings do not tell which run.
    JointUnclear = "joint-unclear", Caution;
    /// No bad joint explains the readings.
    ReadingsContradict = "readings-contradict", Caution;
}
