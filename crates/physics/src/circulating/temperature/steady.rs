//! Steady circulation in a straight hole of one size: closed form.
//!
//! Mud down the pipe and up the annulus, rock whose temperature runs straight with depth and which takes no notice of
//! the mud. Lengths are along the hole; in an inclined hole the gradient is that along the hole. Heat of friction may be added,
//! evenly along each way and at the bit. The hottest mud is in the annulus some way above the bottom.

use super::transfer::{FrictionHeating, FrictionHeatingAlong};
use crate::{Formula, FormulaRecord, Kind, Off, Recorder, Root, formula, numerics};
use std::f64::consts::PI;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] =
    &[HeatExchangeLength::RECORD, HeatExchangeRatio::RECORD, PipeMudTemperature::RECORD, AnnulusMudTemperature::RECORD];

formula! {
    /// Length on which mud in the pipe would take the temperature of the annulus.
    pub struct HeatExchangeLength;
    slug "heat-exchange-length";
    equation "A = m c / (π d U)";
    law Homogeneous;
    source "Holmes & Swift, J. Pet. Tech. June 1970, 670, re-derived from the heat balance";
    given {
        /// mass flow of mud
        mass_rate "m" MassFlow must POSITIVE;
        /// specific heat of the mud
        specific_heat "c" SpecificHeat must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must POSITIVE;
        /// heat transfer from the mud in the pipe to that around it, on the outside area
        pipe_transfer "U" HeatTransfer must POSITIVE;
    }
    /// heat exchange length
    gives "A" Depth;
    value |f| f.mass_rate * f.specific_heat / (PI * f.pipe_diameter * f.pipe_transfer)
}

formula! {
    /// Heat transfer to the rock over that through the pipe.
    pub struct HeatExchangeRatio;
    slug "heat-exchange-ratio";
    equation "B = D h / (d U)";
    law Homogeneous;
    source "Holmes & Swift, J. Pet. Tech. June 1970, 670, re-derived from the heat balance";
    given {
        /// diameter of the hole
        hole_diameter "D" Diameter must POSITIVE;
        /// heat transfer from the mud in the annulus to the rock, on the area of the hole
        wall_transfer "h" HeatTransfer must POSITIVE;
        /// outside diameter of the pipe
        pipe_diameter "d" Diameter must POSITIVE;
        /// heat transfer from the mud in the pipe to that around it, on the outside area
        pipe_transfer "U" HeatTransfer must POSITIVE;
    }
    /// heat exchange ratio
    gives "B" Ratio;
    value |f| f.hole_diameter * f.wall_transfer / (f.pipe_diameter * f.pipe_transfer)
}

/// What the closed form needs, by either of its two formulas.
struct Exchange {
    length: f64,
    ratio: f64,
    inlet: f64,
    top: f64,
    gradient: f64,
    pipe_heating: f64,
    annulus_heating: f64,
    bit_heating: f64,
}

/// Temperatures of the mud in pipe and annulus. [K]
///
/// A Tp' = Ta - Tp + A sp and A Ta' = (Ta - Tp) - B (Tf - Ta) - A sa with Tf = T0 + G z, Tp(0) = Ti and
/// Ta(H) = Tp(H) + ΔTb. The growing exponential is counted from the bottom and the falling one from the top, so that neither
/// overflows.
fn temperatures(e: &Exchange, depth: f64, to_bottom: f64) -> [f64; 2] {
    let (a, b) = (e.length, e.ratio);
    let root = (1.0 + 4.0 / b).sqrt();
    // C1 = (B/2A)(1 + √(1+4/B)); C2 = (B/2A)(1 - √(1+4/B)), written without the difference.
    let growing = 0.5 * b / a * (1.0 + root);
    let falling = -2.0 / (a * (1.0 + root));
    let annulus_offset = a * (e.pipe_heating + e.annulus_heating) / b;
    let pipe_offset = annulus_offset + a * (e.pipe_heating - e.gradient);
    let whole = depth + to_bottom;
    let at_inlet = e.inlet - e.top - pipe_offset;
    let at_bit = e.pipe_heating + e.bit_heating / a - e.gradient;
    let k1 =
        (at_bit - falling * (falling * whole).exp() * at_inlet) / (growing - falling * (falling * whole - growing * whole).exp());
    let k2 = at_inlet - k1 * (-growing * whole).exp();
    let first = k1 * (-growing * to_bottom).exp();
    let second = k2 * (falling * depth).exp();
    let rock = e.top + e.gradient * depth;
    [
        first + second + rock + pipe_offset,
        // 1 + A C of each root.
        first * (1.0 + a * growing) + second * (root - 1.0) / (root + 1.0) + rock + annulus_offset,
    ]
}

formula! {
    /// Temperature of mud going down the pipe, in steady circulation.
    pub struct PipeMudTemperature;
    slug "pipe-mud-temperature";
    equation "T = K1 exp(-C1 x) + K2 exp(C2 z) + T0 + G z + A (sp - G) + A (sp + sa)/B; C1, C2 = (B/2A)(1 ± √(1 + 4/B)); K1 and K2 from Ti at the top and ΔTb at the bit";
    law Homogeneous;
    source "Holmes & Swift, J. Pet. Tech. June 1970, 670, re-derived; heat of friction added";
    given {
        /// temperature of the mud pumped in
        inlet_temperature "Ti" Temperature must NON_NEGATIVE;
        /// temperature of the rock at the top
        top_temperature "T0" Temperature must NON_NEGATIVE;
        /// growth of the rock temperature along the hole
        temperature_gradient "G" TemperatureGradient must ANY valid between(0.0, 0.1);
        /// heat exchange length
        exchange_length "A" Depth must POSITIVE;
        /// heat exchange ratio
        exchange_ratio "B" Ratio must POSITIVE;
        /// length of hole above the point
        depth "z" Depth must NON_NEGATIVE;
        /// length of hole below the point, down to the bit
        to_bottom "x" Depth must NON_NEGATIVE;
        /// warming by friction along the pipe
        pipe_heating "sp" TemperatureGradient must ANY default 0.0;
        /// warming by friction along the annulus
        annulus_heating "sa" TemperatureGradient must ANY default 0.0;
        /// warming at the bit
        bit_heating "ΔTb" TemperatureChange must ANY default 0.0;
    }
    /// temperature in the pipe
    gives "T" Temperature;
    value |f| temperatures(&f.exchange(), f.depth, f.to_bottom)[0]
}

formula! {
    /// Temperature of mud coming up the annulus, in steady circulation.
    pub struct AnnulusMudTemperature;
    slug "annulus-mud-temperature";
    equation "T = (1 + A C1) K1 exp(-C1 x) + (1 + A C2) K2 exp(C2 z) + T0 + G z + A (sp + sa)/B; C1, C2 = (B/2A)(1 ± √(1 + 4/B)); K1 and K2 from Ti at the top and ΔTb at the bit";
    law Homogeneous;
    source "Holmes & Swift, J. Pet. Tech. June 1970, 670, re-derived; heat of friction added";
    given {
        /// temperature of the mud pumped in
        inlet_temperature "Ti" Temperature must NON_NEGATIVE;
        /// temperature of the rock at the top
        top_temperature "T0" Temperature must NON_NEGATIVE;
        /// growth of the rock temperature along the hole
        temperature_gradient "G" TemperatureGradient must ANY valid between(0.0, 0.1);
        /// heat exchange length
        exchange_length "A" Depth must POSITIVE;
        /// heat exchange ratio
        exchange_ratio "B" Ratio must POSITIVE;
        /// length of hole above the point
        depth "z" Depth must NON_NEGATIVE;
        /// length of hole below the point, down to the bit
        to_bottom "x" Depth must NON_NEGATIVE;
        /// warming by friction along the pipe
        pipe_heating "sp" TemperatureGradient must ANY default 0.0;
        /// warming by friction along the annulus
        annulus_heating "sa" TemperatureGradient must ANY default 0.0;
        /// warming at the bit
        bit_heating "ΔTb" TemperatureChange must ANY default 0.0;
    }
    /// temperature in the annulus
    gives "T" Temperature;
    value |f| temperatures(&f.exchange(), f.depth, f.to_bottom)[1]
}

impl PipeMudTemperature {
    fn exchange(&self) -> Exchange {
        Exchange {
            length: self.exchange_length,
            ratio: self.exchange_ratio,
            inlet: self.inlet_temperature,
            top: self.top_temperature,
            gradient: self.temperature_gradient,
            pipe_heating: self.pipe_heating,
            annulus_heating: self.annulus_heating,
            bit_heating: self.bit_heating,
        }
    }

    /// The same point in the annulus.
    pub fn beside(&self) -> AnnulusMudTemperature {
        AnnulusMudTemperature {
            inlet_temperature: self.inlet_temperature,
            top_temperature: self.top_temperature,
            temperature_gradient: self.temperature_gradient,
            exchange_length: self.exchange_length,
            exchange_ratio: self.exchange_ratio,
            depth: self.depth,
            to_bottom: self.to_bottom,
            pipe_heating: self.pipe_heating,
            annulus_heating: self.annulus_heating,
            bit_heating: self.bit_heating,
        }
    }
}

impl AnnulusMudTemperature {
    fn exchange(&self) -> Exchange {
        Exchange {
            length: self.exchange_length,
            ratio: self.exchange_ratio,
            inlet: self.inlet_temperature,
            top: self.top_temperature,
            gradient: self.temperature_gradient,
            pipe_heating: self.pipe_heating,
            annulus_heating: self.annulus_heating,
            bit_heating: self.bit_heating,
        }
    }
}

/// A well that circulates steadily.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteadyCirculation {
    /// Length of the hole. [m]
    pub length: f64,
    /// Diameter of the hole. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe. [m]
    pub pipe_diameter: f64,
    /// Flow rate. [m³/s]
    pub flow_rate: f64,
    /// Mud weight. [kg/m³]
    pub density: f64,
    /// Specific heat of the mud. [J/(kg·K)]
    pub specific_heat: f64,
    /// Temperature of the mud pumped in. [K]
    pub inlet_temperature: f64,
    /// Temperature of the rock at the top. [K]
    pub top_temperature: f64,
    /// Growth of the rock temperature along the hole. [K/m]
    pub temperature_gradient: f64,
    /// Heat transfer through the pipe, on its outside area. [W/(m²·K)]
    pub pipe_transfer: f64,
    /// Heat transfer to the rock, on the area of the hole; see [`RockHeatTransfer`](super::transfer::RockHeatTransfer). [W/(m²·K)]
    pub wall_transfer: f64,
    /// Pressure lost along the pipe, along the annulus and at the bit; all nought to leave friction out. [Pa]
    pub losses: [f64; 3],
}

/// Temperatures at a depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MudTemperatures {
    /// Length of hole above. [m]
    pub depth: f64,
    /// In the pipe. [K]
    pub pipe: f64,
    /// In the annulus. [K]
    pub annulus: f64,
}

const PROFILE: &[(&str, Kind)] =
    &[("depth", Kind::Depth), ("in the pipe", Kind::Temperature), ("in the annulus", Kind::Temperature)];

impl SteadyCirculation {
    /// The formula for the pipe at a depth, with its coefficients worked out.
    fn at<R: Recorder>(&self, depth: f64, rec: &mut R) -> PipeMudTemperature {
        let SteadyCirculation { hole_diameter, pipe_diameter, density, specific_heat, pipe_transfer, wall_transfer, .. } = *self;
        let mass_rate = self.flow_rate * density;
        let exchange_length = rec.take(HeatExchangeLength { mass_rate, specific_heat, pipe_diameter, pipe_transfer });
        let exchange_ratio = rec.take(HeatExchangeRatio { hole_diameter, wall_transfer, pipe_diameter, pipe_transfer });
        let [pipe_loss, annulus_loss, bit_loss] = self.losses;
        let along = |loss: f64| FrictionHeatingAlong { gradient: loss / self.length, density, specific_heat };
        let depth = depth.clamp(0.0, self.length);
        PipeMudTemperature {
            inlet_temperature: self.inlet_temperature,
            top_temperature: self.top_temperature,
            temperature_gradient: self.temperature_gradient,
            exchange_length,
            exchange_ratio,
            depth,
            to_bottom: self.length - depth,
            pipe_heating: rec.take(along(pipe_loss)),
            annulus_heating: rec.take(along(annulus_loss)),
            bit_heating: rec.take(FrictionHeating { pressure_loss: bit_loss, density, specific_heat }),
        }
    }

    /// Temperatures at depths, which count from the top and end at the bit.
    pub fn profile<R: Recorder>(&self, depths: &[f64], rec: &mut R) -> Vec<MudTemperatures> {
        let bottom = self.at(self.length, rec);
        rec.take(bottom);
        let top = self.at(0.0, &mut Off);
        rec.take(top.beside());
        let row = |depth: &f64| {
            let point = self.at(*depth, &mut Off);
            MudTemperatures { depth: point.depth, pipe: point.value(), annulus: point.beside().value() }
        };
        let rows: Vec<MudTemperatures> = depths.iter().map(row).collect();
        rec.table("temperatures in steady circulation", PROFILE, || {
            rows.iter().map(|row| vec![row.depth, row.pipe, row.annulus]).collect()
        });
        rows
    }

    /// The hottest mud: in the annulus, where it stops taking heat from the rock and begins to give it to the pipe.
    pub fn hottest<R: Recorder>(&self, rec: &mut R) -> MudTemperatures {
        let slope = |depth: f64| {
            let point = self.at(depth, &mut Off);
            let (pipe, annulus) = (point.value(), point.beside().value());
            let rock = point.top_temperature + point.temperature_gradient * point.depth;
            // A Ta' = (Ta - Tp) - B (Tf - Ta) - A sa
            annulus - pipe - point.exchange_ratio * (rock - annulus) - point.exchange_length * point.annulus_heating
        };
        let depth = numerics::root(slope, 0.0, self.length);
        if let Some(depth) = depth {
            rec.root(Root {
                equation: "(Ta - Tp) - B (Tf - Ta) - A sa = 0",
                sign: "z",
                meaning: "depth at which the mud in the annulus is hottest",
                kind: Kind::Depth,
                value: depth,
                residual: slope(depth),
                residual_kind: Kind::TemperatureChange,
            });
        }
        let row = |depth: f64| {
            let point = self.at(depth, &mut Off);
            MudTemperatures { depth: point.depth, pipe: point.value(), annulus: point.beside().value() }
        };
        // Without a turning point the hottest mud is at one of the ends.
        let ends = [row(0.0), row(self.length)];
        let hottest = if ends[0].annulus > ends[1].annulus { ends[0] } else { ends[1] };
        depth.map_or(hottest, row)
    }
}
