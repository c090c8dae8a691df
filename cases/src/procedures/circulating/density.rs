//! Brines, muds and still columns.

use rigwright_physics::circulating::density::brine::surface_brine_density;
use rigwright_physics::circulating::density::mud::{Composition, Part};
use rigwright_physics::circulating::density::salts::Salt;
use rigwright_physics::circulating::density::still::{ColumnTop, DepthTemperature, still_column};
use rigwright_physics::circulating::density::{Liquid, State};
use rigwright_physics::{Off, STANDARD_ATMOSPHERE, STANDARD_GRAVITY};
use rigwright_units::Kind;

use crate::Given;
use crate::procedures::{Outcome, output};

fn salt(name: &str) -> Result<Salt, String> {
    Salt::ALL.into_iter().find(|salt| salt.name() == name).ok_or_else(|| format!("there is no salt `{name}`"))
}

/// An oil by its name.
fn oil(given: &Given) -> Result<Liquid, String> {
    match given.text("oil")? {
        "dodecane" => Ok(Liquid::Dodecane),
        "decane" => Ok(Liquid::Decane),
        name => Err(format!("there is no oil `{name}`")),
    }
}

fn state(given: &Given) -> Result<State, String> {
    let pressure = given.quantity_or("absolute_pressure", Kind::AbsolutePressure, STANDARD_ATMOSPHERE)?;
    let temperature = given.quantity("temperature", Kind::Temperature)?;
    State::new(pressure, temperature).ok_or_else(|| "no density is reckoned at this state".to_owned())
}

/// Density of a brine without pressure, by the model for one atmosphere.
pub(super) fn surface_brine(given: &Given) -> Outcome {
    let salt_fraction = given.quantity("salt_fraction", Kind::Fraction)?;
    let temperature = given.quantity("temperature", Kind::Temperature)?;
    let density = surface_brine_density(salt(given.text("salt")?)?, salt_fraction, temperature, &mut Off);
    Ok(vec![output("density", Kind::Density, density)])
}

/// A mud of oil, water and solids from their shares; its weight follows from its parts.
fn mud(given: &Given) -> Result<Composition, String> {
    let reference = State::at_surface(given.quantity("surface_temperature", Kind::Temperature)?).ok_or("too cold or too hot")?;
    let share = |key: &str| given.quantity_or(key, Kind::Fraction, 0.0);
    let [oil_fraction, water_fraction] = [share("oil_fraction")?, share("water_fraction")?];
    let oil = if oil_fraction > 0.0 { oil(given)? } else { Liquid::FreshWater };
    let water = Liquid::FreshWater;
    let solids_fraction = (1.0 - oil_fraction - water_fraction).max(0.0);
    let solids_density = if solids_fraction > 0.0 { given.quantity("solids_density", Kind::Density)? } else { 0.0 };
    let density = oil_fraction * oil.density(reference, &mut Off)
        + water_fraction * water.density(reference, &mut Off)
        + solids_fraction * solids_density;
    let part = |liquid, fraction| Part { liquid, fraction };
    Composition::new(density, reference, part(oil, oil_fraction), part(water, water_fraction)).ok_or_else(|| "no mud".to_owned())
}

/// Weight of a mud where it was weighed and at a state.
pub(super) fn mud_density(given: &Given) -> Outcome {
    let mud = mud(given)?;
    Ok(vec![
        output("surface_density", Kind::Density, mud.reference_density()),
        output("density", Kind::Density, mud.density(state(given)?, &mut Off)),
    ])
}

/// Still mud in warm rock: pressure at the bottom and the density that stands for it.
pub(super) fn warm_column(given: &Given) -> Outcome {
    let vertical_depth = given.quantity("vertical_depth", Kind::Depth)?;
    let surface = given.quantity("surface_temperature", Kind::Temperature)?;
    let gradient = given.quantity("temperature_gradient", Kind::TemperatureGradient)?;
    let point = |vertical_depth: f64| DepthTemperature { vertical_depth, temperature: surface + gradient * vertical_depth };
    let top = ColumnTop { pressure: 0.0, gravity: STANDARD_GRAVITY };
    let points = still_column(&mud(given)?, &[point(0.0), point(vertical_depth)], top, &mut Off).ok_or("no column")?;
    let bottom = points.last().ok_or("no bottom")?;
    Ok(vec![
        output("bottom_pressure", Kind::AbsolutePressure, bottom.pressure + STANDARD_ATMOSPHERE),
        output("equivalent_static_density", Kind::Density, bottom.equivalent_density),
    ])
}
