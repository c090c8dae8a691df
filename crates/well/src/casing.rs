//! Casing and liners.

use jiff::civil::Date;

/// A string that is cemented at the end of a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Casing {
    /// Name, such as "9 5/8 in production casing".
    pub name: String,
    /// Measured depth of the upper end: zero for casing, the hanger for a liner. [m]
    pub top: f64,
    /// Measured depth of the shoe. [m]
    pub shoe: f64,
    /// Outside diameter. [m]
    pub outer_diameter: f64,
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Drift diameter: the largest tool that is sure to pass. [m]
    pub drift: f64,
    /// Weight per length with couplings. [kg/m]
    pub linear_mass: f64,
    /// Grade as the user writes it.
    pub grade: String,
    /// Yield strength. [Pa]
    pub yield_strength: f64,
    /// Diameter of the couplings. [m]
    pub coupling_diameter: Option<f64>,
    /// Tension that the connection bears, from the maker's sheet. [N]
    pub connection_tension: Option<f64>,
    /// Pressure inside that the connection bears, from the maker's sheet. [Pa]
    pub connection_burst: Option<f64>,
    /// Make-up torque of the connection, from the maker's sheet. [N·m]
    pub make_up_torque: Option<f64>,
    /// Pressure at surface that the string is tested to before the next section. [Pa]
    pub test_pressure: Option<f64>,
    /// Weight of the cement slurry. [kg/m³]
    pub cement_weight: Option<f64>,
    /// Flow at which the slurry is displaced. [m³/s]
    pub cement_rate: Option<f64>,
    /// Pressure at surface when the plug is bumped. [Pa]
    pub bump_pressure: Option<f64>,
    /// Measured depth of the top of cement. [m]
    pub cement_top: Option<f64>,
    /// Waiting on cement.
    pub cement_wait: CementWait,
    /// Share of the yield strength that is left in the heat at the shoe. [-]
    pub hot_yield: f64,
    /// Measured depth down to which the string is to stand empty once; `None` for the level that losses leave. [m]
    pub empty_to: Option<f64>,
    /// Share of burst strength that may be used. [-]
    pub burst_fraction: Option<f64>,
    /// Whether it is made for sour service.
    pub sour: Option<bool>,
    /// Shoe test, planned or measured.
    pub leak_off: Option<LeakOff>,
    /// Length from the shoe up that is run empty inside, on its floats. [m]
    pub floated: f64,
    /// Lines strung between the blocks for its run; `None` for those of the rig.
    pub lines: Option<u32>,
    /// Mean speed of a joint while it is run. [m/s]
    pub running_speed: f64,
    /// Length of a joint. [m]
    pub joint_length: f64,
    /// Time to stab, make up and fill a joint. [s]
    pub joint_time: f64,
    /// Time from the shoe on bottom to drilling on: cement, waiting, preventers, test. [s]
    pub flat_time: f64,
}

/// What the plan waits for while cement sets, and the strength that a laboratory's report gives. What nobody gave is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CementWait {
    /// Compressive strength by time in place, both rising: (time, strength). [s, Pa]
    pub strengths: Vec<(f64, f64)>,
    /// From cement in place to drilling out the shoe. [s]
    pub drill_out: Option<f64>,
    /// To nippling down the preventers; `None` where they stay. [s]
    pub nipple_down: Option<f64>,
    /// To testing the casing; `None` where it is tested before the cement sets. [s]
    pub test: Option<f64>,
    /// Strength asked for to drill out. [Pa]
    pub drill_out_strength: f64,
    /// Strength asked for to nipple down. [Pa]
    pub nipple_down_strength: f64,
    /// Strength asked for to test. [Pa]
    pub test_strength: Option<f64>,
}

/// A leak-off or integrity test at the shoe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakOff {
    /// Result as an equivalent mud weight at the shoe. [kg/m³]
    pub weight: f64,
    /// Whether it was measured; otherwise it is what the plan hopes for.
    pub measured: bool,
    /// Whether pumping stopped before leak-off: an integrity test is not a fracture pressure.
    pub integrity_only: bool,
    /// Day of the test.
    pub date: Option<Date>,
}
