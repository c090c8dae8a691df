//! Examples of real gas, and the gas and temperatures that other examples of pressure control name.

use rigwright_physics::control::criticals::NaturalGas;
use rigwright_physics::control::gas::{Gas, GasState, ZMethod};
use rigwright_physics::control::gas_column::{ColumnPoint, GasColumn};
use rigwright_physics::{Kind, Off, STANDARD_GRAVITY};

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "real-gas", system: "control", run: real_gas },
    Procedure { name: "gas-column", system: "control", run: gas_column },
];

/// A pure gas by its name, or a natural gas by its gravity and impurities.
pub(super) fn gas(given: &Given) -> Result<Gas, String> {
    if given.has("fluid") {
        return match given.text("fluid")? {
            "methane" => Ok(Gas::METHANE),
            "nitrogen" => Ok(Gas::NITROGEN),
            other => Err(format!("no critical point for {other}")),
        };
    }
    let fraction = |key| given.quantity_or(key, Kind::Fraction, 0.0);
    let natural = NaturalGas {
        gas_gravity: given.quantity("gas_gravity", Kind::Ratio)?,
        nitrogen: fraction("nitrogen")?,
        carbon_dioxide: fraction("carbon_dioxide")?,
        hydrogen_sulphide: fraction("hydrogen_sulphide")?,
    };
    Ok(natural.resolve(&mut Off))
}

/// The correlation for the compressibility factor; the tabulated one when none is named.
pub(super) fn method(given: &Given) -> Result<ZMethod, String> {
    if !given.has("method") {
        return Ok(ZMethod::Tabulated);
    }
    match given.text("method")? {
        "dranchuk-abou-kassem" => Ok(ZMethod::DranchukAbouKassem),
        "hall-yarborough" => Ok(ZMethod::HallYarborough),
        "tabulated" => Ok(ZMethod::Tabulated),
        other => Err(format!("no correlation {other}")),
    }
}

/// Temperature against vertical depth, straight; what does not need one gets 60 °F.
pub(super) fn geotherm(given: &Given) -> Result<impl Fn(f64) -> f64, String> {
    let surface = given.quantity_or("surface_temperature", Kind::Temperature, 288.705)?;
    let gradient = given.quantity_or("temperature_gradient", Kind::TemperatureGradient, 0.0)?;
    Ok(move |vertical_depth: f64| surface + gradient * vertical_depth)
}

fn real_gas(given: &Given) -> Outcome {
    let state = GasState {
        pressure: given.quantity("pressure", Kind::AbsolutePressure)?,
        temperature: given.quantity("temperature", Kind::Temperature)?,
    };
    let (gas, method) = (gas(given)?, method(given)?);
    let refused = "the state is outside the range of the correlation";
    Ok(vec![
        output("factor", Kind::Ratio, gas.factor(&mut Off, method, state).ok_or(refused)?),
        output("density", Kind::Density, gas.density(&mut Off, method, state).ok_or(refused)?),
    ])
}

fn gas_column(given: &Given) -> Outcome {
    let temperature = geotherm(given)?;
    let column = GasColumn {
        gas: gas(given)?,
        method: method(given)?,
        temperature: &temperature,
        gravity: given.quantity_or("gravity", Kind::Acceleration, STANDARD_GRAVITY)?,
        steps: 40,
    };
    let start = ColumnPoint {
        vertical_depth: given.quantity("vertical_depth", Kind::Depth)?,
        pressure: given.quantity("bottom_pressure", Kind::AbsolutePressure)?,
    };
    let top = column.pressure_at(&mut Off, start, 0.0).ok_or("the gas leaves the range of the correlation")?;
    Ok(vec![output("top_pressure", Kind::AbsolutePressure, top)])
}
