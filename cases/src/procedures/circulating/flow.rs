//! Friction in pipe and annulus.

use rigwright_physics::circulating::annulus::annulus_gradient;
use rigwright_physics::circulating::friction::{Blasius, FrictionGradient, FrictionLoss, Reynolds};
use rigwright_physics::circulating::generalised::*;
use rigwright_physics::circulating::laminar::{LaminarPipeVelocity, LaminarSlotVelocity, WallStressGradient, wall_stress};
use rigwright_physics::circulating::losses::{Flow, LossMethod, Regime, Stream, Stretch, friction, stretch_loss};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::rheology::HerschelBulkley;
use rigwright_physics::{Formula, Off};
use rigwright_units::Kind;

use super::mud::{mud, rheology};
use crate::Given;
use crate::procedures::{Outcome, output};

/// A pipe with `inner_diameter`, or an annulus with `hole_diameter` and `pipe_diameter`.
fn passage(given: &Given) -> Result<Passage, String> {
    if given.has("inner_diameter") {
        return Ok(Passage::Bore { inner_diameter: given.quantity("inner_diameter", Kind::Diameter)? });
    }
    let hole_diameter = given.quantity("hole_diameter", Kind::Diameter)?;
    Ok(Passage::Annulus { hole_diameter, pipe_diameter: given.quantity("pipe_diameter", Kind::Diameter)? })
}

fn method(given: &Given) -> Result<LossMethod, String> {
    match given.text("method")? {
        "generalised" => Ok(LossMethod::Generalised),
        "exact" => Ok(LossMethod::Exact),
        "power-law-1995" => Ok(LossMethod::PowerLaw1995),
        "bingham-field" => Ok(LossMethod::BinghamField),
        other => Err(format!("there is no method `{other}`")),
    }
}

/// A velocity, or the flow that makes it.
fn velocity(given: &Given, passage: &Passage) -> Result<f64, String> {
    if given.has("velocity") {
        return given.quantity("velocity", Kind::Speed);
    }
    Ok(passage.velocity(given.quantity("flow_rate", Kind::FlowRate)?, &mut Off))
}

/// Exact laminar flow: the stress at the wall and the gradient.
pub(super) fn laminar_flow(given: &Given) -> Outcome {
    let (passage, curve) = (passage(given)?, rheology(given)?.herschel_bulkley());
    let stress = wall_stress(&curve, &passage, velocity(given, &passage)?, &mut Off);
    let gradient = WallStressGradient { wall_stress: stress, width: passage.width() }.value();
    let length = given.quantity_or("length", Kind::Depth, 0.0)?;
    Ok(vec![
        output("wall_stress", Kind::ShearStress, stress),
        output("gradient", Kind::PressureGradient, gradient),
        output("loss", Kind::Pressure, FrictionLoss { gradient, length }.value()),
    ])
}

/// Exact laminar flow in a concentric annulus.
pub(super) fn concentric_annulus(given: &Given) -> Outcome {
    let passage = passage(given)?;
    let Passage::Annulus { hole_diameter, pipe_diameter } = passage else { return Err("a pipe is no annulus".into()) };
    let (curve, velocity) = (rheology(given)?.herschel_bulkley(), velocity(given, &passage)?);
    let gradient = annulus_gradient(&curve, hole_diameter, pipe_diameter, velocity, &mut Off);
    Ok(vec![output("gradient", Kind::PressureGradient, gradient.ok_or("no gradient was found")?)])
}

/// Error of the generalised wall stress against the exact one, where the yield stress is a given share of it.
pub(super) fn wall_stress_error(given: &Given) -> Outcome {
    let yield_stress = given.quantity("yield_ratio", Kind::Ratio)?;
    let flow_index = given.quantity("flow_index", Kind::Ratio)?;
    // The error depends on neither size nor consistency: stress at the wall 1 Pa, consistency 1, width 1 m.
    let (wall_stress, consistency, inner_diameter, slot_height) = (1.0, 1.0, 1.0, 0.5);
    let pipe = LaminarPipeVelocity { wall_stress, yield_stress, consistency, flow_index, inner_diameter };
    let slot = LaminarSlotVelocity { wall_stress, yield_stress, consistency, flow_index, slot_height };
    let error = |velocity: f64, geometry: f64| {
        let shear_rate = WallShearRate { velocity, width: 1.0, flow_index, geometry }.value();
        GeneralisedWallStress { yield_stress, consistency, flow_index, shear_rate, geometry }.value() / wall_stress - 1.0
    };
    Ok(vec![
        output("pipe_error", Kind::Fraction, error(pipe.value(), 0.0)),
        output("slot_error", Kind::Fraction, error(slot.value(), 1.0)),
    ])
}

/// One stretch by a named method.
pub(super) fn friction_of_method(given: &Given) -> Outcome {
    let (passage, mud) = (passage(given)?, mud(given)?);
    let density = given.quantity("density", Kind::Density)?;
    let stream = Stream { velocity: velocity(given, &passage)?, density };
    let found = friction(method(given)?, &mud, &passage, stream, &mut Off);
    let mut outputs = vec![
        output("gradient", Kind::PressureGradient, found.gradient),
        output("reynolds", Kind::Ratio, found.reynolds),
        output("turbulent", Kind::Count, f64::from(u8::from(found.regime == Regime::Turbulent))),
    ];
    if given.has("length") {
        let length = given.quantity("length", Kind::Depth)?;
        outputs.push(output("loss", Kind::Pressure, FrictionLoss { gradient: found.gradient, length }.value()));
    }
    Ok(outputs)
}

/// Names of the losses of the stretches, in order.
const STRETCHES: [&str; 8] =
    ["stretch_1", "stretch_2", "stretch_3", "stretch_4", "stretch_5", "stretch_6", "stretch_7", "stretch_8"];

/// Every stretch of a circuit by a named method, and their sum.
pub(super) fn circuit(given: &Given) -> Outcome {
    let (method, mud) = (method(given)?, mud(given)?);
    let flow = Flow { rate: given.quantity("flow_rate", Kind::FlowRate)?, density: given.quantity("density", Kind::Density)? };
    let mut outputs = Vec::new();
    let mut total = 0.0;
    for (row, name) in given.rows("stretches")?.iter().zip(STRETCHES) {
        let stretch = Stretch { passage: passage(row)?, length: row.quantity("length", Kind::Depth)? };
        let loss = stretch_loss(method, &mud, &stretch, flow, &mut Off);
        outputs.push(output(name, Kind::Pressure, loss));
        total += loss;
    }
    outputs.push(output("total", Kind::Pressure, total));
    Ok(outputs)
}

/// The field method with a power law: Reynolds number with the slot's equivalent diameter, Blasius' factor.
pub(super) fn power_law_field(given: &Given) -> Outcome {
    let (passage, curve) = (passage(given)?, rheology(given)?.herschel_bulkley());
    let HerschelBulkley { consistency, flow_index, .. } = curve;
    let velocity = velocity(given, &passage)?;
    let (width, geometry) = (passage.width(), geometry_factor(&passage));
    let viscosity = EffectiveViscosity { consistency, flow_index, velocity, width, geometry }.value();
    let width = match passage {
        Passage::Bore { .. } => width,
        Passage::Annulus { .. } => SlotEquivalentDiameter { width }.value(),
    };
    let density = given.quantity("density", Kind::Density)?;
    let reynolds = Reynolds { density, velocity, width, viscosity }.value();
    let mut outputs = vec![output("reynolds", Kind::Ratio, reynolds)];
    if given.has("length") {
        let friction_factor = Blasius { reynolds }.value();
        let gradient = FrictionGradient { friction_factor, density, velocity, width }.value();
        let length = given.quantity("length", Kind::Depth)?;
        outputs.push(output("loss", Kind::Pressure, FrictionLoss { gradient, length }.value()));
    }
    Ok(outputs)
}
