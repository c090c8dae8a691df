//! Density of muds and of what they are made of, under pressure and temperature.
//!
//! Pressures are absolute where the key says so. Solids do not give way. A liquid colder than ice or hotter than 500 K is
//! refused at the door, by [`State::new`]; whatever passes it has a finite density.

pub mod brine;
pub mod mud;
pub mod oil;
pub mod salts;
pub mod still;
pub mod water;

use crate::{Recorder, STANDARD_ATMOSPHERE};
use brine::{HeavyBrine, SaltBrineDensity};
use oil::{BaseOilDensity, DecaneDensity, DodecaneDensity, SixCoefficients};
use salts::Salt;
use water::FreshWaterDensity;

/// Coldest state whose density is reckoned. [K]
pub const COLDEST: f64 = 273.15;
/// Hottest state whose density is reckoned. [K]
pub const HOTTEST: f64 = 500.0;

/// A pressure and a temperature that every liquid here has a density at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    absolute_pressure: f64,
    temperature: f64,
}

impl State {
    /// The state, when it lies between a vacuum and 500 MPa and between 273.15 and 500 K. [Pa], [K]
    pub fn new(absolute_pressure: f64, temperature: f64) -> Option<State> {
        let inside = (0.0..=water::HIGHEST_PRESSURE).contains(&absolute_pressure) && (COLDEST..=HOTTEST).contains(&temperature);
        inside.then_some(State { absolute_pressure, temperature })
    }

    /// The state at one atmosphere. [K]
    pub fn at_surface(temperature: f64) -> Option<State> {
        State::new(STANDARD_ATMOSPHERE, temperature)
    }

    /// Absolute pressure. [Pa]
    pub fn absolute_pressure(self) -> f64 {
        self.absolute_pressure
    }

    /// Pressure over one atmosphere. [Pa]
    pub fn pressure(self) -> f64 {
        self.absolute_pressure - STANDARD_ATMOSPHERE
    }

    /// Temperature. [K]
    pub fn temperature(self) -> f64 {
        self.temperature
    }
}

/// A liquid that muds are made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Liquid {
    /// Fresh water.
    FreshWater,
    /// A brine of one salt.
    Brine {
        /// The salt.
        salt: Salt,
        /// Its share of the mass of brine. [-]
        salt_fraction: f64,
    },
    /// Sodium chloride brine by the polynomial of Batzle & Wang.
    BatzleWang {
        /// Share of salt in the mass of brine. [-]
        salt_fraction: f64,
    },
    /// A heavy brine by its measured expansion and compressibility.
    HeavyBrine(HeavyBrine),
    /// A base oil by its density at 60 °F. [kg/m³]
    BaseOil(f64),
    /// n-dodecane.
    Dodecane,
    /// n-decane.
    Decane,
    /// A base fluid by six coefficients.
    SixCoefficients(SixCoefficients),
}

impl Liquid {
    /// Whether the figures of the liquid make sense: no more salt than dissolves, a base oil that is one.
    pub fn is_sane(self) -> bool {
        match self {
            Liquid::Brine { salt, salt_fraction } => (0.0..=salt.most()).contains(&salt_fraction),
            Liquid::BatzleWang { salt_fraction } => (0.0..=Salt::SodiumChloride.most()).contains(&salt_fraction),
            Liquid::HeavyBrine(brine) => brine.is_sane() && brine.density > 0.0,
            Liquid::BaseOil(density) => (650.0..=1000.0).contains(&density),
            Liquid::FreshWater | Liquid::Dodecane | Liquid::Decane | Liquid::SixCoefficients(_) => true,
        }
    }

    /// Density at a state, of a liquid that is sane. [kg/m³]
    pub fn density<R: Recorder>(self, state: State, rec: &mut R) -> f64 {
        let State { absolute_pressure, temperature } = state;
        match self {
            Liquid::FreshWater => rec.take(FreshWaterDensity { absolute_pressure, temperature }),
            Liquid::Brine { salt, salt_fraction } => brine::brine_density(salt, salt_fraction, state, rec),
            Liquid::BatzleWang { salt_fraction } => {
                rec.take(SaltBrineDensity { salt_fraction, pressure: state.pressure(), temperature })
            }
            Liquid::HeavyBrine(brine) => brine.density(state, rec),
            Liquid::BaseOil(density_60) => rec.take(BaseOilDensity { density_60, pressure: state.pressure(), temperature }),
            Liquid::Dodecane => rec.take(DodecaneDensity { absolute_pressure, temperature }),
            Liquid::Decane => rec.take(DecaneDensity { absolute_pressure, temperature }),
            Liquid::SixCoefficients(coefficients) => coefficients.density(state, rec),
        }
    }
}

#[cfg(test)]
mod tests;
