//! What pressure control needs beside the preventers: back pressure and what holds it, the separator, valves for the string,
//! sour gas, and when what was last tested.

use jiff::civil::Date;

/// Back pressure held at surface.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ManagedPressure {
    /// While pumping. [Pa]
    pub flowing: f64,
    /// With pumps off, at a connection or a trip. [Pa]
    pub still: f64,
    /// Measured depth whose pressure is held through a connection; the bottom of the hole where nobody chose one. [m]
    pub anchor: Option<f64>,
    /// Highest back pressure that the crew allows itself. [Pa]
    pub pressure_limit: Option<f64>,
    /// Influx up to which drilling goes on while the back pressure is put up. [m³]
    pub influx_operating: Option<f64>,
    /// Influx up to which it is still circulated out through the managed choke. [m³]
    pub influx_planned: Option<f64>,
    /// Flow that gets out of the annulus when the seal or the choke fails. [m³/s]
    pub leak_rate: Option<f64>,
    /// Time in which the pumps run down when power is lost. [s]
    pub run_down: Option<f64>,
    /// Time in which the crew has the well closed in on a preventer. [s]
    pub response_time: Option<f64>,
}

/// Rotating seal on top of the stack: what it bears.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RotatingSeal {
    /// While the string turns in it. [Pa]
    pub turning: Option<f64>,
    /// With the string still. [Pa]
    pub still: Option<f64>,
}

/// Separator of mud and gas. What nobody gave is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Separator {
    /// Height of the leg of mud that seals it. [m]
    pub leg: Option<f64>,
    /// Lightest fluid that may fill the leg. [kg/m³]
    pub leg_weight: Option<f64>,
    /// Length of the vent line with its bends as length. [m]
    pub vent_length: Option<f64>,
    /// Inside diameter of the vent line. [m]
    pub vent_inside: Option<f64>,
    /// Roughness of the vent line. [m]
    pub vent_roughness: f64,
}

/// Diverter for shallow gas, with the line that it opens. What nobody gave is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Diverter {
    /// Lowest working pressure of packer, housing and valves. [Pa]
    pub rating: Option<f64>,
    /// Inside diameter of the line. [m]
    pub line_inside: Option<f64>,
    /// Length of the line. [m]
    pub line_length: Option<f64>,
    /// Resistance coefficients of entrance, valve and bends, added up. [-]
    pub line_fittings: Option<f64>,
    /// Roughness of the line. [m]
    pub line_roughness: f64,
}

/// Shallow gas that a section may meet while it is drilled on the diverter. What nobody gave is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShallowGas {
    /// Gas rate to be prepared for, at standard conditions. [m³/s]
    pub rate: Option<f64>,
    /// Measured depth of the conductor's shoe, where no casing of the file stands above the section. [m]
    pub conductor: Option<f64>,
}

/// Pipe that a shear ram cut in a test, and the control pressure that it took without pressure in the well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShearTest {
    /// Outside diameter of the pipe. [m]
    pub outer_diameter: f64,
    /// Weight per length of the pipe. [kg/m]
    pub linear_mass: f64,
    /// Control pressure. [Pa]
    pub pressure: f64,
}

/// A valve that closes the bore of the string at the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct SafetyValve {
    /// Its lower connection.
    pub connection: String,
    /// Working pressure. [Pa]
    pub rating: Option<f64>,
}

/// A sub from one connection to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossover {
    /// Connection that goes into the string.
    pub below: String,
    /// Connection that takes the valve.
    pub above: String,
}

/// The day on which something was last tested or drilled for.
#[derive(Clone, Debug, PartialEq)]
pub struct LastDone {
    /// Which: one of the words of the entry table.
    pub what: String,
    /// The day.
    pub date: Date,
}

/// Riser of a floating rig, from the preventers on the sea bed to the floor, with the lines along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Riser {
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Inside diameter of the choke line. [m]
    pub choke_line: f64,
    /// Inside diameter of the kill line. [m]
    pub kill_line: f64,
    /// Inside diameter of the line through which mud is pumped into the riser above the preventers. [m]
    pub booster_line: Option<f64>,
    /// Space between the closed preventer and the outlet of the choke line under it. [m³]
    pub trapped_volume: Option<f64>,
    /// Weight per length in sea water, lines and buoyancy included. [kg/m]
    pub linear_mass: Option<f64>,
    /// Weight of the stack in sea water, with all that goes down with it. [N]
    pub stack_weight: Option<f64>,
}
