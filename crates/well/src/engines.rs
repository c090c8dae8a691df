//! Generator sets, what they feed, and the emergency set.

pub use rigwright_physics::power::site::Aspiration;

/// Generator sets, all alike, and what they feed.
#[derive(Clone, Debug, PartialEq)]
pub struct Sets {
    /// Number of sets.
    pub number: u32,
    /// Sets on line today.
    pub on_line: u32,
    /// Continuous electric power of one set: on its site, or at reference conditions where `aspiration` is given. [W]
    pub rating: f64,
    /// How the engines breathe; with it the rating is derated for the site.
    pub aspiration: Option<Aspiration>,
    /// Measured power factor of the whole load; without it each consumer has its own. [-]
    pub power_factor: Option<f64>,
    /// Apparent power that one generator bears. [VA as W]
    pub apparent_rating: Option<f64>,
    /// Transient reactance of a generator, per unit of its rating. [-]
    pub transient_reactance: Option<f64>,
    /// Largest dip of the voltage allowed when a motor starts. [-]
    pub voltage_dip: f64,
    /// Fuel rate of one set by load, ascending by load.
    pub fuel: Vec<FuelPoint>,
    /// Carbon dioxide per volume of fuel. [kg/m³]
    pub emission_factor: f64,
    /// Lights, camp, shakers, mixers: what runs always. [W]
    pub hotel_load: f64,
    /// Charge pumps, blowers and cooling while mud pumps run. [W]
    pub auxiliary_load: f64,
    /// What holds a floating rig over the well: thrusters in the worst weather that it drills in. [W]
    pub station_load: Option<f64>,
    /// Bus sections that the sets on line are shared over.
    pub buses: Option<u32>,
    /// Power factor of all of these. [-]
    pub hotel_power_factor: f64,
}

/// A motor that starts straight on the line or over a starter, without a drive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LargestMotor {
    /// Power at its shaft. [W]
    pub power: f64,
    /// Efficiency at its rating. [-]
    pub efficiency: f64,
    /// Power factor at its rating. [-]
    pub power_factor: f64,
    /// Starting current over rated current at full voltage. [-]
    pub current_ratio: f64,
    /// Voltage at which it starts, as a share of full voltage. [-]
    pub starting_voltage: f64,
}

/// Emergency set, and what it has to carry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emergency {
    /// Continuous power. [W]
    pub rating: Option<f64>,
    /// Pumps and panels of the preventer control. [W]
    pub preventer_control: Option<f64>,
    /// Lights, alarms, radio. [W]
    pub lights: Option<f64>,
    /// Auxiliary brake of the drawworks. [W]
    pub brake: Option<f64>,
}

/// A point of a fuel curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FuelPoint {
    /// Load as a share of the set's rating. [-]
    pub load: f64,
    /// Fuel used per time. [m³/s]
    pub rate: f64,
}
