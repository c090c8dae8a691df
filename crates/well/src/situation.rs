//! One instant of the job. Planning derives situations from the well; a live rig will supply the present one.

/// What the crew is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Operation {
    /// On bottom, rotating and pumping.
    Drilling,
    /// Pumps off, string in the slips or hung still.
    Connection,
    /// Off bottom, rotating and pumping, to clean the hole.
    Circulating,
    /// Pulling out, pumps off.
    PullingOut,
    /// Running in, pumps off.
    RunningIn,
    /// Running casing or liner, closed end.
    RunningCasing,
    /// Well shut in on the design kick.
    ShutIn,
}

impl Operation {
    /// Every operation in the order in which a section meets them.
    pub const ALL: [Operation; 7] = [
        Operation::Drilling,
        Operation::Connection,
        Operation::Circulating,
        Operation::PullingOut,
        Operation::RunningIn,
        Operation::RunningCasing,
        Operation::ShutIn,
    ];

    /// In plain words, lower case.
    pub const fn name(self) -> &'static str {
        match self {
            Operation::Drilling => "drilling",
            Operation::Connection => "connection",
            Operation::Circulating => "circulating",
            Operation::PullingOut => "pulling out",
            Operation::RunningIn => "running in",
            Operation::RunningCasing => "running casing",
            Operation::ShutIn => "shut in",
        }
    }

    /// As an address on the command line and in JSON: kebab case.
    pub const fn slug(self) -> &'static str {
        match self {
            Operation::Drilling => "drilling",
            Operation::Connection => "connection",
            Operation::Circulating => "circulating",
            Operation::PullingOut => "pulling-out",
            Operation::RunningIn => "running-in",
            Operation::RunningCasing => "running-casing",
            Operation::ShutIn => "shut-in",
        }
    }

    /// How the string moves along the hole.
    pub const fn motion(self) -> Motion {
        match self {
            Operation::PullingOut => Motion::Up,
            Operation::RunningIn | Operation::RunningCasing => Motion::Down,
            Operation::Drilling | Operation::Connection | Operation::Circulating | Operation::ShutIn => Motion::Still,
        }
    }
}

/// Axial motion of the string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Motion {
    /// Towards surface.
    Up,
    /// Into the hole.
    Down,
    /// Neither; it may still turn.
    Still,
}

/// What hangs in the hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hung {
    /// The section's drill string.
    DrillString,
    /// The casing or liner that ends the section.
    Casing,
}

/// One instant of the job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation {
    /// Index of the section.
    pub section: usize,
    /// What the crew is doing.
    pub operation: Operation,
    /// What hangs in the hole.
    pub hung: Hung,
    /// Measured depth of the hole. [m]
    pub hole_depth: f64,
    /// Measured depth of the bit or shoe. [m]
    pub bit_depth: f64,
    /// Flow down the string. [m³/s]
    pub flow_rate: f64,
    /// Flow through the booster line into the riser. [m³/s]
    pub booster: f64,
    /// Rotary speed. [rad/s]
    pub rotary_speed: f64,
    /// Speed of the pipe along the hole, without sign. [m/s]
    pub pipe_speed: f64,
    /// Whether the pipe moves because the rig heaves: its speed is then the largest, not the mean over a stand.
    pub heaves: bool,
    /// Weight on bit. [N]
    pub weight_on_bit: f64,
    /// Pressure held at surface on the annulus. [Pa]
    pub back_pressure: f64,
}

impl Situation {
    /// Whether the bit stands on the bottom of the hole.
    pub fn on_bottom(&self) -> bool {
        self.hole_depth - self.bit_depth < 1e-6
    }
}
