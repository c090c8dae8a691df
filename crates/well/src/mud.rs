//! The drilling fluid.

use crate::{Filtrate, Retort};
use jiff::civil::Date;

/// A mud as the mud report gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mud {
    /// What it is made of.
    pub kind: MudKind,
    /// Mud weight at surface. [kg/m³]
    pub weight: f64,
    /// What the viscometer read.
    pub rheogram: Rheogram,
    /// What the viscometer read at other temperatures, coldest first; each has its temperature.
    pub other_rheograms: Vec<Rheogram>,
    /// Flow model chosen for it.
    pub model: Model,
    /// Method chosen for pressure losses.
    pub losses: LossMethod,
    /// Roughness of the walls, for a clear fluid that feels it; nought for mud. [m]
    pub roughness: f64,
    /// Temperature at which it was weighed. [K]
    pub weighed_at: f64,
    /// Specific heat, where it was measured. [J/(kg·K)]
    pub specific_heat: Option<f64>,
    /// Thermal conductivity. [W/(m·K)]
    pub conductivity: f64,
    /// Temperature that it bears. [K]
    pub temperature_limit: Option<f64>,
    /// Gel strength after ten seconds and ten minutes. [Pa]
    pub gels: Option<[f64; 2]>,
    /// Share of its volume that it gives way to pressure. [1/Pa]
    pub compressibility: f64,
    /// Price of mud of this kind, made up. [1/m³]
    pub price: Option<f64>,
    /// What the retort gave back.
    pub retort: Option<Retort>,
    /// Readings of the filter press, the earliest first.
    pub filtrate: Vec<Filtrate>,
}

/// The continuous phase.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MudKind {
    /// Water-based.
    Water,
    /// Oil-based.
    Oil,
    /// Synthetic-based.
    Synthetic,
}

/// Readings of the viscometer, slowest speed first; at least those at 300 and 600 rpm.
#[derive(Clone, Debug, PartialEq)]
pub struct Rheogram {
    /// The readings.
    pub readings: Vec<Reading>,
    /// Temperature of the reading. [K]
    pub temperature: Option<f64>,
    /// Day of the reading.
    pub date: Option<Date>,
}

impl Rheogram {
    /// The dial reading at this speed in revolutions per minute, where it was taken.
    pub fn dial(&self, speed_rpm: f64) -> Option<f64> {
        self.readings.iter().find(|reading| (reading.speed_rpm - speed_rpm).abs() < 1e-6).map(|reading| reading.dial)
    }
}

/// One reading. The speed keeps the unit of the instrument, since the method is defined by it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Speed of the sleeve. [rpm]
    pub speed_rpm: f64,
    /// Dial reading. [degree of the dial]
    pub dial: f64,
}

/// Flow model of a mud.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Model {
    /// Plastic viscosity and yield point from the readings at 600 and 300 rpm.
    Bingham,
    /// Two-reading power law.
    PowerLaw,
    /// Power law in two regions: one for pipe, one for the annulus.
    PowerLawInTwo,
    /// Yield, consistency and index from all readings.
    HerschelBulkley,
    /// Roots of stress and shear rate in a line, through all readings.
    Casson,
    /// Whichever of these misses the readings least.
    BestFit,
}

/// Named methods for friction losses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LossMethod {
    /// API RP 13D, generalised method of 2006 and later.
    Generalised,
    /// Exact laminar flow in pipe and slot, Dodge-Metzner for turbulence.
    Exact,
    /// API RP 13D of June 1995: power law in two regions.
    PowerLaw1995,
    /// The Bingham method of the field.
    BinghamField,
}
