//! What pressure control needs beside the preventers: back pressure and what holds it.

/// Back pressure held at surface.
#[derive(Clone, Copy, Debug, Default)]
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
#[derive(Clone, Copy, Debug, Default)]
pub struct RotatingSeal {
    /// While the string turns in it. [Pa]
    pub turning: Option<f64>,
    /// With the string still. [Pa]
    pub still: Option<f64>,
}
