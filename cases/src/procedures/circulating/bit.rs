//! Bit and pumps.

use rigwright_physics::Formula;
use rigwright_physics::circulating::bit::*;
use rigwright_physics::circulating::pumps::{PumpSpeed, SingleActingOutput};
use rigwright_units::Kind;

use crate::Given;
use crate::procedures::{Outcome, output};

/// Pressure lost at the bit over the kinetic energy of the jets.
pub(super) fn kinetic_share(given: &Given) -> Outcome {
    let density = given.quantity("density", Kind::Density)?;
    let flow_rate = given.quantity("flow_rate", Kind::FlowRate)?;
    let flow_area = given.quantity("flow_area", Kind::Area)?;
    let discharge_coefficient = given.quantity("discharge_coefficient", Kind::Ratio)?;
    let loss = |discharge_coefficient| BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient }.value();
    Ok(vec![output("share", Kind::Fraction, loss(discharge_coefficient) / loss(1.0))])
}

/// Total flow area of nozzles of several sizes, and the nearest set of as many nozzles.
pub(super) fn nozzles(given: &Given) -> Outcome {
    let sizes = given.list("nozzles", Kind::Diameter)?;
    let area: f64 = sizes.iter().map(|&nozzle_diameter| NozzleArea { nozzles: 1.0, nozzle_diameter }.value()).sum();
    let set = choose_nozzles(u32::try_from(sizes.len()).unwrap_or_default(), area).ok_or("no nozzles")?;
    Ok(vec![
        output("flow_area", Kind::Area, area),
        output("nearest_size", Kind::Count, f64::from(set.size)),
        output("nearest_larger", Kind::Count, f64::from(set.larger)),
    ])
}

/// Best flow and nozzle area from two rates with one bit.
pub(super) fn nozzle_optimum(given: &Given) -> Outcome {
    let density = given.quantity("density", Kind::Density)?;
    let flow_area = given.quantity("flow_area", Kind::Area)?;
    let pressure = given.quantity("pressure", Kind::Pressure)?;
    let discharge_coefficient = DISCHARGE_COEFFICIENT;
    let flow = [given.quantity("flow_rate_1", Kind::FlowRate)?, given.quantity("flow_rate_2", Kind::FlowRate)?];
    let pump = [given.quantity("pressure_1", Kind::Pressure)?, given.quantity("pressure_2", Kind::Pressure)?];
    let bit = flow.map(|flow_rate| BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient }.value());
    let parasitic = [pump[0] - bit[0], pump[1] - bit[1]];
    let flow_exponent =
        FlowExponent { pressure_1: parasitic[0], pressure_2: parasitic[1], flow_rate_1: flow[0], flow_rate_2: flow[1] }.value();
    let aim = |wanted_loss: f64| {
        let known_loss = parasitic[0];
        let flow_rate = FlowAtParasitic { flow_rate: flow[0], known_loss, wanted_loss, flow_exponent }.value();
        let bit_pressure_loss = pressure - wanted_loss;
        (flow_rate, NozzleAreaForPressure { density, flow_rate, bit_pressure_loss, discharge_coefficient }.value())
    };
    let for_impact = ParasiticForImpact { pressure, flow_exponent }.value();
    let for_power = ParasiticForPower { pressure, flow_exponent }.value();
    let (impact, power) = (aim(for_impact), aim(for_power));
    Ok(vec![
        output("bit_1", Kind::Pressure, bit[0]),
        output("bit_2", Kind::Pressure, bit[1]),
        output("parasitic_1", Kind::Pressure, parasitic[0]),
        output("parasitic_2", Kind::Pressure, parasitic[1]),
        output("flow_exponent", Kind::Ratio, flow_exponent),
        output("parasitic_for_impact", Kind::Pressure, for_impact),
        output("parasitic_for_power", Kind::Pressure, for_power),
        output("flow_for_impact", Kind::FlowRate, impact.0),
        output("flow_for_power", Kind::FlowRate, power.0),
        output("area_for_impact", Kind::Area, impact.1),
        output("area_for_power", Kind::Area, power.1),
    ])
}

/// Share of the pump pressure that goes to the bit.
pub(super) fn optimum_split(given: &Given) -> Outcome {
    let flow_exponent = given.quantity("flow_exponent", Kind::Ratio)?;
    let pressure = 1e7;
    let power = ParasiticForPower { pressure, flow_exponent }.value();
    let impact = ParasiticForImpact { pressure, flow_exponent }.value();
    Ok(vec![
        output("bit_share_for_power", Kind::Fraction, 1.0 - power / pressure),
        output("bit_share_for_impact", Kind::Fraction, 1.0 - impact / pressure),
    ])
}

/// Speed of triplex pumps that share a flow.
pub(super) fn pump_speed_for_flow(given: &Given) -> Outcome {
    let pump_output = SingleActingOutput {
        cylinders: 3.0,
        liner_diameter: given.quantity("liner_diameter", Kind::Diameter)?,
        stroke: given.quantity("stroke", Kind::Diameter)?,
        volumetric_efficiency: given.quantity("volumetric_efficiency", Kind::Fraction)?,
    }
    .value();
    let flow_rate = given.quantity("flow_rate", Kind::FlowRate)?;
    let pumps = given.quantity("pumps", Kind::Count)?;
    Ok(vec![output("pump_speed", Kind::StrokeRate, PumpSpeed { flow_rate, pumps, pump_output }.value())])
}
