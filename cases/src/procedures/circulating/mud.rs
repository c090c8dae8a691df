//! Columns and rheology.

use rigwright_physics::circulating::column::{GradientPressure, Hydrostatic, LevelDrop};
use rigwright_physics::circulating::rheology::{DialConvention, Rheology};
use rigwright_physics::circulating::viscometer::{FlowModel, MudRheology, Reading};
use rigwright_physics::{Formula, Off, STANDARD_GRAVITY};
use rigwright_units::Kind;

use crate::Given;
use crate::procedures::{Outcome, output};

/// Columns of known gradient, one below the other; a column above the point has a negative height.
pub(super) fn gradient_column(given: &Given) -> Outcome {
    let mut pressure = 0.0;
    for row in given.rows("columns")? {
        let gradient = row.quantity("gradient", Kind::PressureGradient)?;
        let vertical_depth = row.quantity("vertical_depth", Kind::Depth)?;
        pressure += GradientPressure { gradient, vertical_depth }.value();
    }
    Ok(vec![output("pressure", Kind::Pressure, pressure)])
}

/// Pressure lost when a lost volume is not filled.
pub(super) fn fill_loss(given: &Given) -> Outcome {
    let volume = given.quantity("loss_rate", Kind::FlowRate)? * given.quantity("duration", Kind::Time)?;
    let capacity = given.quantity("capacity", Kind::VolumePerLength)?;
    let level_drop = LevelDrop { volume, capacity }.value();
    let density = given.quantity("density", Kind::Density)?;
    let gravity = given.quantity_or("gravity", Kind::Acceleration, STANDARD_GRAVITY)?;
    let pressure_loss = Hydrostatic { density, vertical_depth: level_drop, gravity }.value();
    Ok(vec![output("level_drop", Kind::Depth, level_drop), output("pressure_loss", Kind::Pressure, pressure_loss)])
}

/// The readings of the viscometer that are given.
fn readings(given: &Given) -> Result<Vec<Reading>, String> {
    let mut readings = Vec::new();
    for (key, speed_rpm) in
        [("dial_600", 600.0), ("dial_300", 300.0), ("dial_200", 200.0), ("dial_100", 100.0), ("dial_6", 6.0), ("dial_3", 3.0)]
    {
        if given.has(key) {
            readings.push(Reading { speed_rpm, dial: given.quantity(key, Kind::Dial)? });
        }
    }
    Ok(readings)
}

/// The mud of an example: readings and a model, or the numbers of a model.
pub(super) fn mud(given: &Given) -> Result<MudRheology, String> {
    if given.has("dial_600") {
        let model = match given.text("model")? {
            "bingham" => FlowModel::Bingham,
            "power-law" => FlowModel::PowerLaw,
            "estimate" => FlowModel::HerschelBulkleyEstimate,
            "fit" => FlowModel::HerschelBulkley,
            other => return Err(format!("there is no model `{other}`")),
        };
        let made = MudRheology::from_readings(&readings(given)?, model, DialConvention::Trade, &mut Off);
        return made.map(|(mud, _)| mud).map_err(|error| error.to_string());
    }
    Ok(MudRheology::of(rheology(given)?))
}

/// The flow model whose numbers are given.
pub(super) fn rheology(given: &Given) -> Result<Rheology, String> {
    if given.has("viscosity") {
        return Ok(Rheology::Newtonian { viscosity: given.quantity("viscosity", Kind::Viscosity)? });
    }
    if given.has("plastic_viscosity") {
        let plastic_viscosity = given.quantity("plastic_viscosity", Kind::Viscosity)?;
        return Ok(Rheology::Bingham { plastic_viscosity, yield_point: given.quantity("yield_point", Kind::ShearStress)? });
    }
    let yield_stress = given.quantity_or("yield_stress", Kind::ShearStress, 0.0)?;
    let consistency = given.quantity("consistency", Kind::Consistency)?;
    let flow_index = given.quantity("flow_index", Kind::Ratio)?;
    Ok(Rheology::HerschelBulkley { yield_stress, consistency, flow_index })
}

/// What readings say by the estimate made by hand.
pub(super) fn rheology_by_hand(given: &Given) -> Outcome {
    let made = MudRheology::from_readings(&readings(given)?, FlowModel::HerschelBulkleyEstimate, DialConvention::Trade, &mut Off);
    let (mud, _) = made.map_err(|error| error.to_string())?;
    Ok(vec![
        output("yield_stress", Kind::ShearStress, mud.curve.yield_stress),
        output("flow_index", Kind::Ratio, mud.curve.flow_index),
        output("consistency", Kind::Consistency, mud.curve.consistency),
        output("turbulent_index", Kind::Ratio, mud.turbulent_index),
        output("plastic_viscosity", Kind::Viscosity, mud.plastic_viscosity),
        output("yield_point", Kind::ShearStress, mud.yield_point),
    ])
}

/// The curve by least squares over all readings.
pub(super) fn herschel_bulkley_fit(given: &Given) -> Outcome {
    let made = MudRheology::from_readings(&readings(given)?, FlowModel::HerschelBulkley, DialConvention::Trade, &mut Off);
    let (_, fit) = made.map_err(|error| error.to_string())?;
    let fit = fit.ok_or("no fit was made")?;
    Ok(vec![
        output("yield_stress", Kind::ShearStress, fit.curve.yield_stress),
        output("flow_index", Kind::Ratio, fit.curve.flow_index),
        output("consistency", Kind::Consistency, fit.curve.consistency),
        output("mean_error", Kind::Fraction, fit.mean_error),
    ])
}
