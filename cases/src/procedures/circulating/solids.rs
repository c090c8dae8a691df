//! Solids of a mud and what the bit makes.

use rigwright_physics::Formula;
use rigwright_physics::circulating::balances::{
    Concentration, CuttingsVolume, SaltWaterDensity, SaltWaterFraction, SuspendedSolids,
};
use rigwright_physics::circulating::mixing::{HeavySolids, RetortSolidsDensity};
use rigwright_units::Kind;

use crate::Given;
use crate::procedures::{Outcome, output};

/// Solids of a salt mud from the retort: correction for salt, mean density, light and heavy solids.
pub(super) fn salt_mud_solids(given: &Given) -> Outcome {
    let chlorides = given.quantity("chlorides", Kind::Density)?;
    let oil_fraction = given.quantity("oil_fraction", Kind::Fraction)?;
    let water_fraction = given.quantity("water_fraction", Kind::Fraction)?;
    let salt_water = SaltWaterFraction { water_fraction, chlorides }.value();
    let water_density = SaltWaterDensity { chlorides }.value();
    let solids_fraction = SuspendedSolids { oil_fraction, salt_water_fraction: salt_water }.value();
    let solids_density = RetortSolidsDensity {
        density: given.quantity("density", Kind::Density)?,
        oil_fraction,
        oil_density: given.quantity("oil_density", Kind::Density)?,
        water_fraction: salt_water,
        water_density,
        solids_fraction,
    }
    .value();
    let light_density = given.quantity("light_density", Kind::Density)?;
    let heavy_density = given.quantity("heavy_density", Kind::Density)?;
    let heavy = HeavySolids { solids_fraction, solids_density, light_density, heavy_density }.value();
    Ok(vec![
        output("salt_water", Kind::Fraction, salt_water),
        output("water_density", Kind::Density, water_density),
        output("solids", Kind::Fraction, solids_fraction),
        output("solids_density", Kind::Density, solids_density),
        output("light_solids", Kind::Fraction, solids_fraction - heavy),
        output("heavy_solids", Kind::Fraction, heavy),
        output("barite", Kind::Density, Concentration { share: heavy, density: heavy_density }.value()),
    ])
}

/// Rock that a length of hole brings up.
pub(super) fn cuttings(given: &Given) -> Outcome {
    let volume = CuttingsVolume {
        hole_diameter: given.quantity("hole_diameter", Kind::Diameter)?,
        length: given.quantity("length", Kind::Depth)?,
        porosity: given.quantity("porosity", Kind::Fraction)?,
    }
    .value();
    let density = given.quantity("cuttings_density", Kind::Density)?;
    Ok(vec![output("mass", Kind::Mass, volume * density)])
}
