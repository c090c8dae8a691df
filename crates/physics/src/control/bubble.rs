//! One bubble of gas that fills the annulus over its length: the pressure at its top from the pressure at its
//! bottom, and the amount of gas in it, which stays what it is while the bubble moves.
//!
//! No solubility, no slip, no dispersion: on the safe side for surface pressure in water-based mud; not for the
//! time of arrival, and not in oil-based mud, where gas dissolves and comes out late and at once.

use super::annulus::Annulus;
use super::gas::{Gas, GasState, ZMethod};
use crate::{Kind, Off, Recorder};

/// How the gas answers to pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GasLaw {
    /// A real gas at the temperature of each depth; its column is integrated.
    Real {
        /// The gas.
        gas: Gas,
        /// Correlation for the compressibility factor.
        method: ZMethod,
        /// Atmospheric pressure, which gauge pressures leave out. [Pa]
        atmosphere: f64,
    },
    /// Boyle's law at one temperature with the gauge pressure at the top of the bubble, as in the closed forms of textbooks:
    /// the density is the same all along the bubble, so its weight stays what it is in an even annulus.
    BoyleAtTop {
        /// Density at the reference pressure. [kg/m³]
        density: f64,
        /// Reference pressure at the top of the bubble. [Pa]
        pressure: f64,
    },
    /// A fixed density whatever the pressure, and Boyle's law with the gauge pressure in the middle: hand sheets.
    FixedDensity {
        /// Density. [kg/m³]
        density: f64,
    },
}

/// Where gas stands: surroundings that do not change while it moves.
#[derive(Clone, Copy)]
pub struct GasPath<'a> {
    /// The annulus.
    pub annulus: &'a Annulus,
    /// How the gas answers to pressure.
    pub law: GasLaw,
    /// Temperature at a vertical depth. [m] to [K]
    pub temperature: &'a dyn Fn(f64) -> f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
}

/// A bubble: its lower end as the volume of annulus below it, its own volume, and the pressure under it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bubble {
    /// Volume of annulus below it. [m³]
    pub below: f64,
    /// Its volume. [m³]
    pub volume: f64,
    /// Gauge pressure at its lower end. [Pa]
    pub bottom_pressure: f64,
}

/// What a bubble amounts to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BubbleState {
    /// Gauge pressure at its upper end. [Pa]
    pub top_pressure: f64,
    /// Amount of gas: a mass for a real gas, pressure times volume by Boyle's law. [kg or J]
    pub amount: f64,
}

/// Longest step of the integration through a bubble: the midpoint rule is off by 1 part in 100,000 of the gas column at most. [m]
const TALLEST_STEP: f64 = 250.0;

/// A difference, or nought where it is too small to mean anything: a root finder that chases it through the noise of
/// the sums would take five times as long for nothing.
pub(super) fn settled(difference: f64, enough: f64) -> f64 {
    if difference.abs() < enough { 0.0 } else { difference }
}

/// Pressures closer than this are one. [Pa]
pub(super) const SAME_PRESSURE: f64 = 0.1;
/// Amounts of gas closer than this share of them are one. [-]
pub(super) const SAME_AMOUNT: f64 = 1e-10;

impl GasPath<'_> {
    /// Top pressure and amount of a bubble; `None` where the gas leaves the range of its correlation.
    pub fn state(&self, bubble: Bubble) -> Option<BubbleState> {
        let Bubble { below, volume, bottom_pressure } = bubble;
        let height = self.annulus.height(below + volume) - self.annulus.height(below);
        let state = match self.law {
            GasLaw::Real { gas, method, atmosphere } => return self.real(gas, method, atmosphere, bubble),
            GasLaw::BoyleAtTop { density, pressure } => {
                let top_pressure = bottom_pressure / (1.0 + density * self.gravity * height / pressure);
                BubbleState { top_pressure, amount: top_pressure * volume }
            }
            GasLaw::FixedDensity { density } => {
                let top_pressure = bottom_pressure - density * self.gravity * height;
                BubbleState { top_pressure, amount: 0.5 * (bottom_pressure + top_pressure) * volume }
            }
        };
        Some(state)
    }

    /// Notes a bubble so that its weight can be followed: pressures at both ends, and the density half-way up, which is
    /// the mean of the integrated column but for a hair.
    pub fn show<R: Recorder>(&self, rec: &mut R, bubble: Bubble) {
        if !R::ON {
            return;
        }
        let Some(state) = self.state(bubble) else { return };
        rec.given("pressure at the lower end of the gas", bubble.bottom_pressure, Kind::Pressure);
        rec.given("pressure at its upper end, by integration", state.top_pressure, Kind::Pressure);
        if let GasLaw::Real { gas, method, atmosphere } = self.law {
            let middle = bubble.below + 0.5 * bubble.volume;
            let pressure = 0.5 * (bubble.bottom_pressure + state.top_pressure) + atmosphere;
            let temperature = (self.temperature)(self.annulus.vertical_depth(middle));
            rec.note(|| "density of the gas half-way up".into());
            gas.density(rec, method, GasState { pressure, temperature });
        }
    }

    /// The pressure inside a bubble at the place with this volume of annulus below it. [Pa]
    pub fn pressure_within(&self, bubble: Bubble, place: f64) -> Option<f64> {
        let lower = Bubble { volume: (place - bubble.below).clamp(0.0, bubble.volume), ..bubble };
        match self.law {
            GasLaw::Real { .. } | GasLaw::FixedDensity { .. } => self.state(lower).map(|state| state.top_pressure),
            GasLaw::BoyleAtTop { .. } => {
                // One density all along: the pressure falls evenly with height.
                let rise = |volume: f64| self.annulus.height(bubble.below + volume) - self.annulus.height(bubble.below);
                let (part, whole) = (rise(lower.volume), rise(bubble.volume));
                let top_pressure = self.state(bubble)?.top_pressure;
                let share = if whole > 0.0 { part / whole } else { 0.0 };
                Some(bubble.bottom_pressure + (top_pressure - bubble.bottom_pressure) * share)
            }
        }
    }

    /// Midpoint rule upward, section by section: density half a step ahead carries pressure and mass.
    fn real(&self, gas: Gas, method: ZMethod, atmosphere: f64, bubble: Bubble) -> Option<BubbleState> {
        let mut pressure = bubble.bottom_pressure + atmosphere;
        let mut mass = 0.0;
        let density = |pressure: f64, vertical_depth: f64| {
            gas.density(&mut Off, method, GasState { pressure, temperature: (self.temperature)(vertical_depth) })
        };
        for piece in self.annulus.pieces(bubble.below, bubble.below + bubble.volume, TALLEST_STEP) {
            let here = density(pressure, piece.vertical_depth)?;
            let middle = pressure - 0.5 * here * self.gravity * piece.height;
            let mean = density(middle, piece.vertical_depth - 0.5 * piece.height)?;
            pressure -= mean * self.gravity * piece.height;
            mass += mean * piece.volume;
        }
        Some(BubbleState { top_pressure: pressure - atmosphere, amount: mass })
    }
}

#[cfg(test)]
mod tests {
    use super::super::annulus::AnnulusSection;
    use super::super::gas_column::{ColumnPoint, GasColumn};
    use super::*;
    use crate::{STANDARD_ATMOSPHERE, STANDARD_GRAVITY};

    fn geotherm(vertical_depth: f64) -> f64 {
        288.15 + 0.03 * vertical_depth
    }

    const METHANE: GasLaw = GasLaw::Real { gas: Gas::METHANE, method: ZMethod::Tabulated, atmosphere: STANDARD_ATMOSPHERE };

    fn even(parts: u32) -> Annulus {
        let length = 3000.0 / f64::from(parts);
        let sections = (0..parts).map(|_| AnnulusSection { capacity: 0.0414, length, height: length }).collect();
        Annulus::new(sections, 3000.0).unwrap()
    }

    #[test]
    fn law_splitting_a_section_changes_nothing() {
        let bubble = Bubble { below: 10.0, volume: 30.0, bottom_pressure: 3.5e7 };
        for law in [METHANE, GasLaw::FixedDensity { density: 200.0 }, GasLaw::BoyleAtTop { density: 200.0, pressure: 3e7 }] {
            let state = |parts| {
                let annulus = even(parts);
                GasPath { annulus: &annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY }.state(bubble).unwrap()
            };
            let (one, many) = (state(1), state(7));
            assert!((one.top_pressure / many.top_pressure - 1.0).abs() < 1e-6, "{law:?}");
            assert!((one.amount / many.amount - 1.0).abs() < 1e-5, "{law:?}");
        }
    }

    #[test]
    fn law_a_bubble_weighs_what_its_column_weighs() {
        let annulus = even(3);
        let path = GasPath { annulus: &annulus, law: METHANE, temperature: &geotherm, gravity: STANDARD_GRAVITY };
        let bottom_pressure = 4e7;
        let state = path.state(Bubble { below: 0.0, volume: annulus.volume(), bottom_pressure }).unwrap();
        let column = GasColumn {
            gas: Gas::METHANE,
            method: ZMethod::Tabulated,
            temperature: &geotherm,
            gravity: STANDARD_GRAVITY,
            steps: 60,
        };
        let start = ColumnPoint { vertical_depth: 3000.0, pressure: bottom_pressure + STANDARD_ATMOSPHERE };
        let top = column.pressure_at(&mut Off, start, 0.0).unwrap() - STANDARD_ATMOSPHERE;
        assert!((state.top_pressure / top - 1.0).abs() < 1e-5, "{} {top}", state.top_pressure);
        // In an even annulus the pressure difference is the weight over the cross-section.
        let weight = state.amount * STANDARD_GRAVITY / 0.0414;
        assert!(((bottom_pressure - state.top_pressure) / weight - 1.0).abs() < 1e-9);
    }

    #[test]
    fn law_pressure_within_meets_both_ends() {
        let annulus = even(2);
        let bubble = Bubble { below: 5.0, volume: 20.0, bottom_pressure: 3e7 };
        for law in [METHANE, GasLaw::FixedDensity { density: 200.0 }, GasLaw::BoyleAtTop { density: 200.0, pressure: 3e7 }] {
            let path = GasPath { annulus: &annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY };
            let top = path.state(bubble).unwrap().top_pressure;
            assert!((path.pressure_within(bubble, 5.0).unwrap() - 3e7).abs() < 1e-3);
            assert!((path.pressure_within(bubble, 25.0).unwrap() - top).abs() < 1e-3);
            let middle = path.pressure_within(bubble, 15.0).unwrap();
            assert!(top < middle && middle < 3e7);
        }
    }
}
