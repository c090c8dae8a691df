//! Temperature of the undisturbed rock and of the sea above it.

use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[GeothermalTemperature::RECORD, MeanTemperature::RECORD];

formula! {
    /// Temperature of the rock at a depth, from that at the top of a layer.
    pub struct GeothermalTemperature;
    slug "geothermal-temperature";
    equation "T = T0 + G h";
    law Homogeneous;
    source "definition of the geothermal gradient; 25 to 30 °C/km is usual (common practice)";
    given {
        /// temperature at the top of the layer
        top_temperature "T0" Temperature must NON_NEGATIVE;
        /// growth of temperature with vertical depth
        temperature_gradient "G" TemperatureGradient must ANY valid between(0.0, 0.1);
        /// vertical height below the top of the layer
        height "h" Depth must NON_NEGATIVE;
    }
    /// temperature of the rock
    gives "T" Temperature;
    value |f| f.top_temperature + f.temperature_gradient * f.height
}

formula! {
    /// Mean of two temperatures, which is the mean over a length on which temperature runs straight.
    pub struct MeanTemperature;
    slug "mean-temperature";
    equation "Tm = (T1 + T2)/2";
    law Homogeneous;
    source "arithmetic; Lyons, Guo & Seidel, Air and Gas Drilling Manual, p. 8-11";
    given {
        /// temperature at the top
        top_temperature "T1" Temperature must NON_NEGATIVE;
        /// temperature at the bottom
        bottom_temperature "T2" Temperature must NON_NEGATIVE;
    }
    /// mean temperature
    gives "Tm" Temperature;
    value |f| 0.5 * (f.top_temperature + f.bottom_temperature)
}

/// A layer of rock with one geothermal gradient.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GeothermLayer {
    /// Vertical depth of its bottom. [m]
    pub bottom: f64,
    /// Growth of temperature with vertical depth. [K/m]
    pub gradient: f64,
}

/// The sea above the rock: its temperature runs straight from its surface to its bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sea {
    /// Vertical depth of its surface. [m]
    pub surface: f64,
    /// Temperature at its surface; 3 to 4 °C at a deep bed is common practice. [K]
    pub surface_temperature: f64,
}

/// Temperature of the undisturbed rock by layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geotherm<'a> {
    /// Vertical depth of the ground or sea bed. [m]
    pub start: f64,
    /// Temperature there. [K]
    pub start_temperature: f64,
    /// Layers from the top down; the last one goes on below its bottom.
    pub layers: &'a [GeothermLayer],
    /// The sea above, if any.
    pub sea: Option<Sea>,
}

impl Geotherm<'_> {
    /// Temperature at a vertical depth. [K]
    ///
    /// Above the ground it is that of the ground, above the sea that of its surface.
    pub fn at<R: Recorder>(&self, vertical_depth: f64, rec: &mut R) -> f64 {
        if vertical_depth <= self.start {
            return self.above_rock(vertical_depth);
        }
        let (mut top, mut top_temperature) = (self.start, self.start_temperature);
        for (at, layer) in self.layers.iter().enumerate() {
            let last = at + 1 == self.layers.len();
            let bottom = if last { vertical_depth } else { layer.bottom.min(vertical_depth) };
            let height = (bottom - top).max(0.0);
            top_temperature = rec.take(GeothermalTemperature { top_temperature, temperature_gradient: layer.gradient, height });
            top = top.max(bottom);
            if vertical_depth <= bottom {
                break;
            }
        }
        top_temperature
    }

    fn above_rock(&self, vertical_depth: f64) -> f64 {
        let Some(sea) = self.sea.filter(|sea| sea.surface < self.start) else { return self.start_temperature };
        let share = ((vertical_depth - sea.surface) / (self.start - sea.surface)).max(0.0);
        sea.surface_temperature + share * (self.start_temperature - sea.surface_temperature)
    }
}
