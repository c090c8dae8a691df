//! What the mud report says of a mud beside weight and viscometer: retort, salt, filtrate and cake.

use crate::{MudKind, Rheogram};
use rigwright_physics::circulating::density::salts::Salt;

/// What the retort gave back, and what the solids are reckoned with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Retort {
    /// Share of oil. [-]
    pub oil: f64,
    /// Share of fresh water. [-]
    pub water: f64,
    /// Chlorides in the filtrate. [kg/m³]
    pub chlorides: Option<f64>,
    /// Salt of the water phase.
    pub salt: Salt,
    /// Share of salt in the mass of the water phase. [-]
    pub salt_fraction: Option<f64>,
    /// Density of the oil. [kg/m³]
    pub oil_density: f64,
    /// Density of light solids. [kg/m³]
    pub light_density: f64,
    /// Density of the weighting material. [kg/m³]
    pub heavy_density: f64,
    /// Largest share of light solids wanted. [-]
    pub most_light: f64,
}

/// A reading of the filter press.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filtrate {
    /// Time since the pressure was put on. [s]
    pub time: f64,
    /// Filtrate by then. [m³]
    pub volume: f64,
}

/// What sticking by differential pressure rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sticking {
    /// Thickness of the mud cake. [m]
    pub cake: Option<f64>,
    /// Friction between pipe and cake. [-]
    pub cake_friction: Option<f64>,
    /// Length of pipe that lies in the cake at once. [m]
    pub contact_length: Option<f64>,
    /// Time that the pipe may lie still. [s]
    pub still: f64,
    /// Largest pressure of the mud over that of permeable rock that the crew allows. [Pa]
    pub most_overbalance: Option<f64>,
}

/// A mud that could be used instead. Flow model and method for losses are those of the mud in use.
#[derive(Clone, Debug, PartialEq)]
pub struct CandidateMud {
    /// Name for print.
    pub name: String,
    /// What it is made of.
    pub kind: MudKind,
    /// Mud weight at surface. [kg/m³]
    pub weight: f64,
    /// What the viscometer read.
    pub rheogram: Rheogram,
    /// Gel strength after ten seconds and ten minutes. [Pa]
    pub gels: Option<[f64; 2]>,
    /// Price. [1/m³]
    pub price: Option<f64>,
    /// What the user says of its discharge.
    pub discharge: Option<String>,
}

/// What material costs, in the user's currency.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Prices {
    /// Weighting material. [1/kg]
    pub barite: Option<f64>,
    /// Base oil. [1/m³]
    pub base_oil: Option<f64>,
    /// Water. [1/m³]
    pub water: Option<f64>,
}
