//! The drill string, from the bit up.

/// A run of like parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// Name for print.
    pub name: String,
    /// Length; infinite for the uppermost part, which reaches to surface whatever the depth. [m]
    pub length: f64,
    /// Outside diameter of the body; the bit's diameter for a bit. [m]
    pub outer_diameter: f64,
    /// Inside diameter of the body; zero for a bit. [m]
    pub inner_diameter: f64,
    /// Weight per length in air, joints included. [kg/m]
    pub linear_mass: f64,
    /// Tool joints.
    pub joint: Option<Joint>,
    /// Yield strength of the body. [Pa]
    pub yield_strength: Option<f64>,
    /// Class of wear.
    pub class: WearClass,
    /// Number of nozzles, for a bit whose nozzles are listed.
    pub nozzles: Option<usize>,
    /// Total flow area of the nozzles, for a bit. [m²]
    pub flow_area: Option<f64>,
    /// Pressure that the tool takes at its reference flow. [Pa]
    pub tool_loss: Option<f64>,
    /// Flow at which `tool_loss` was given. [m³/s]
    pub tool_flow: Option<f64>,
    /// Mud weight at which `tool_loss` was given. [kg/m³]
    pub tool_weight: Option<f64>,
    /// Least flow with which a motor or tool works. [m³/s]
    pub flow_least: Option<f64>,
    /// Greatest flow that a motor or tool bears. [m³/s]
    pub flow_most: Option<f64>,
    /// Temperature that a motor or tool bears. [K]
    pub temperature_limit: Option<f64>,
    /// Name of its upper connection, one whose thread is known.
    pub connection: Option<String>,
    /// Pull at which a jar fires upwards. [N]
    pub trigger_up: Option<f64>,
    /// Push at which a jar fires downwards. [N]
    pub trigger_down: Option<f64>,
    /// Length of one joint. [m]
    pub joint_length: f64,
}

/// Kinds of part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// Bit; always the lowest part.
    Bit,
    /// Downhole motor.
    Motor,
    /// Measurement or other tool.
    Tool,
    /// Stabiliser.
    Stabiliser,
    /// Drill collar.
    Collar,
    /// Heavy-weight pipe.
    HeavyWeight,
    /// Drill pipe.
    DrillPipe,
}

/// Tool joint of a pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joint {
    /// Outside diameter. [m]
    pub outer_diameter: f64,
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Length, pin and box together. [m]
    pub length: f64,
    /// Make-up torque, from the maker's sheet. [N·m]
    pub make_up_torque: Option<f64>,
}

/// Wear of drill pipe: the wall that is left as a share of the new wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WearClass {
    /// New: the whole wall.
    New,
    /// Premium: 80 % of the wall.
    Premium,
    /// Class 2: 70 % of the wall.
    Class2,
}
