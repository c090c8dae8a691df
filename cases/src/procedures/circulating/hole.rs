//! Cleaning, surge and swab.

use rigwright_physics::circulating::cleaning_flow::{CleanWhen, Cleaning, cleaning_velocity};
use rigwright_physics::circulating::column::EquivalentCirculatingDensity;
use rigwright_physics::circulating::laminar::LaminarSlotVelocity;
use rigwright_physics::circulating::losses::LossMethod;
use rigwright_physics::circulating::moving_wall::MovingWall;
use rigwright_physics::circulating::passage::{AnnularCapacity, AnnularVelocity};
use rigwright_physics::circulating::rheology::HerschelBulkley;
use rigwright_physics::circulating::slip::{Cutting, Rise, SlipMethod, slip_velocity};
use rigwright_physics::circulating::surge::{ClosedPipeVelocity, EffectiveVelocity};
use rigwright_physics::circulating::trip::{Clinging, End, Trip, TripStretch, trip_pressure};
use rigwright_physics::{Formula, Off, STANDARD_GRAVITY};
use rigwright_units::Kind;

use super::mud::mud;
use crate::Given;
use crate::procedures::{Outcome, output};

fn slip_method(given: &Given) -> Result<SlipMethod, String> {
    match given.text("method")? {
        "moore" => Ok(SlipMethod::Moore),
        "chien" => Ok(SlipMethod::Chien),
        "api-1995" => Ok(SlipMethod::Api1995),
        "walker-mayes" => Ok(SlipMethod::WalkerMayes),
        other => Err(format!("there is no method `{other}`")),
    }
}

fn cutting(given: &Given) -> Result<Cutting, String> {
    let size = given.quantity("cutting_size", Kind::Diameter)?;
    let thickness = given.quantity_or("cutting_thickness", Kind::Diameter, size)?;
    Ok(Cutting { size, thickness, density: given.quantity("cutting_density", Kind::Density)? })
}

/// How fast cuttings rise: annular velocity, slip and what is left.
pub(super) fn cuttings_rise(given: &Given) -> Outcome {
    let hole_diameter = given.quantity("hole_diameter", Kind::Diameter)?;
    let pipe_diameter = given.quantity("pipe_diameter", Kind::Diameter)?;
    let flow_rate = given.quantity("flow_rate", Kind::FlowRate)?;
    let annular_velocity = AnnularVelocity { flow_rate, hole_diameter, pipe_diameter }.value();
    let density = given.quantity("density", Kind::Density)?;
    let rise = Rise { annular_velocity, width: hole_diameter - pipe_diameter, density };
    let slip = slip_velocity(slip_method(given)?, &mud(given)?, &cutting(given)?, &rise, &mut Off);
    Ok(vec![
        output("annular_velocity", Kind::Speed, annular_velocity),
        output("slip_velocity", Kind::Speed, slip),
        output("net_velocity", Kind::Speed, annular_velocity - slip),
    ])
}

/// Annular velocity and flow that clean a hole at an inclination.
pub(super) fn inclined_cleaning(given: &Given) -> Outcome {
    let hole_diameter = given.quantity("hole_diameter", Kind::Diameter)?;
    let pipe_diameter = given.quantity("pipe_diameter", Kind::Diameter)?;
    let cleaning = Cleaning {
        hole_diameter,
        pipe_diameter,
        density: given.quantity("density", Kind::Density)?,
        cutting: cutting(given)?,
        bit_diameter: hole_diameter,
        penetration_rate: given.quantity("penetration_rate", Kind::DrillingRate)?,
    };
    let wish = if given.has("transport_ratio") {
        CleanWhen::TransportRatio(given.quantity("transport_ratio", Kind::Ratio)?)
    } else {
        CleanWhen::Concentration(given.quantity_or("cuttings_concentration", Kind::Fraction, 0.05)?)
    };
    let inclination = given.quantity("inclination", Kind::Angle)?;
    let velocity = cleaning_velocity(&mud(given)?, &cleaning, (slip_method(given)?, wish), inclination, &mut Off);
    let velocity = velocity.ok_or("no velocity cleans the hole")?;
    let area = AnnularCapacity { hole_diameter, pipe_diameter }.value();
    Ok(vec![output("velocity", Kind::Speed, velocity), output("flow_rate", Kind::FlowRate, velocity * area)])
}

/// Surge of closed pipe in a hole of one size.
pub(super) fn surge(given: &Given) -> Outcome {
    let hole_diameter = given.quantity("hole_diameter", Kind::Diameter)?;
    let pipe_diameter = given.quantity("pipe_diameter", Kind::Diameter)?;
    let pipe_speed = given.quantity("pipe_speed", Kind::Speed)?;
    let density = given.quantity("density", Kind::Density)?;
    let length = given.quantity("length", Kind::Depth)?;
    let clinging = match given.text("clinging")? {
        "exact" => Clinging::Newtonian,
        "moving wall" => Clinging::MovingWall,
        "laminar line" => Clinging::LaminarLine,
        "turbulent line" => Clinging::TurbulentLine,
        "constant" => Clinging::Constant(given.quantity("clinging_constant", Kind::Ratio)?),
        other => return Err(format!("there is no clinging `{other}`")),
    };
    let method = match given.text("method")? {
        "bingham-field" => LossMethod::BinghamField,
        "power-law-1995" => LossMethod::PowerLaw1995,
        "exact" => LossMethod::Exact,
        other => return Err(format!("there is no method `{other}`")),
    };
    let trip = Trip { pipe_speed, density, end: End::Closed, pumped: 0.0, method, clinging };
    let stretch = TripStretch { length, hole_diameter, pipe_diameter, inner_diameter: 0.0 };
    let pressure = trip_pressure(&mud(given)?, &[stretch], &trip, &mut Off).pressure;
    let mud_velocity = ClosedPipeVelocity { pipe_speed, hole_diameter, pipe_diameter }.value();
    let constant = clinging.constant(hole_diameter, pipe_diameter, &mut Off);
    let effective = EffectiveVelocity { mud_velocity, clinging: constant, pipe_speed }.value();
    let gravity = given.quantity_or("gravity", Kind::Acceleration, STANDARD_GRAVITY)?;
    let emw = EquivalentCirculatingDensity { density, annular_loss: pressure, vertical_depth: length, gravity }.value();
    Ok(vec![
        output("mud_velocity", Kind::Speed, mud_velocity),
        output("clinging", Kind::Ratio, constant),
        output("effective_velocity", Kind::Speed, effective),
        output("surge", Kind::Pressure, pressure),
        output("equivalent_mud_weight", Kind::Density, emw),
    ])
}

/// Laminar flow through a slot one wall of which moves against it.
pub(super) fn moving_wall(given: &Given) -> Outcome {
    let curve = mud(given)?.curve;
    let (slot_height, wall_speed) = (given.quantity("slot_height", Kind::Diameter)?, given.quantity("wall_speed", Kind::Speed)?);
    let mud_velocity = given.quantity("mud_velocity", Kind::Speed)?;
    let fall = MovingWall { slot_height, wall_speed, mud_velocity }.stress_fall(&curve, &mut Off);
    // What would flow through the slot at rest under the same stress.
    let HerschelBulkley { yield_stress, consistency, flow_index } = curve;
    let still = LaminarSlotVelocity { wall_stress: 0.5 * fall, yield_stress, consistency, flow_index, slot_height }.value();
    Ok(vec![output("stress_fall", Kind::ShearStress, fall), output("clinging", Kind::Ratio, (still - mud_velocity) / wall_speed)])
}
