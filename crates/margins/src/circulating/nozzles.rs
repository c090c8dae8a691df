//! Which nozzles make the most of the pump: the largest hydraulic power or impact at the bit within what liners, lines and pumps allow.

use super::pumps::pump_output;
use crate::{Answer, Figure, Scene};
use rigwright_physics::circulating::bit::{
    BitPressureLoss, DISCHARGE_COEFFICIENT, FlowExponent, HydraulicPowerPerArea, JetImpact, JetVelocity, NozzleArea,
    NozzleAreaForPressure, NozzleSet, choose_nozzles,
};
use rigwright_physics::circulating::optimum::{Aim, Bounds, Parasitic, optimum};
use rigwright_physics::circulating::pumps::PumpFlow;
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::Situation;

/// The second flow that the exponent of the parasitic loss is taken from, as a share of the planned one. [-]
const SECOND_FLOW: f64 = 0.8;
/// Diameter of a nozzle of size 1. [m]
const THIRTY_SECOND: f64 = 0.0254 / 32.0;

/// The names of the figures of one choice.
struct Names {
    aim: Option<Aim>,
    heading: &'static str,
    flow: &'static str,
    area: &'static str,
    smaller: &'static str,
    size: &'static str,
    larger: &'static str,
    gain: &'static str,
}

const PLANNED: Names = Names {
    aim: None,
    heading: "all pressure used at the planned flow",
    flow: "planned flow",
    area: "at the planned flow: flow area",
    smaller: "at the planned flow: nozzles of the smaller size",
    size: "at the planned flow: smaller size",
    larger: "at the planned flow: nozzles one 32nd larger",
    gain: "at the planned flow: hydraulic power per area",
};
const POWER: Names = Names {
    aim: Some(Aim::Power),
    heading: "largest hydraulic power",
    flow: "for power: flow",
    area: "for power: flow area",
    smaller: "for power: nozzles of the smaller size",
    size: "for power: smaller size",
    larger: "for power: nozzles one 32nd larger",
    gain: "for power: hydraulic power per area",
};
const IMPACT: Names = Names {
    aim: Some(Aim::Impact),
    heading: "largest impact",
    flow: "for impact: flow",
    area: "for impact: flow area",
    smaller: "for impact: nozzles of the smaller size",
    size: "for impact: smaller size",
    larger: "for impact: nozzles one 32nd larger",
    gain: "for impact: impact of the jets",
};

/// The best nozzles.
pub(super) fn best_nozzles<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing {
        return Answer::Missing(vec![entry]);
    }
    let (fit, section) = (scene.fit(), scene.section());
    let Some(nozzles) = section.string.first().and_then(|bit| bit.nozzles) else {
        return Answer::DoesNotArise("the bit is given by its flow area, not by its nozzles");
    };
    let (pump, flow_rate) = (&fit.rig.pump, scene.situation.flow_rate);
    let Some(output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    let Some(liner) = pump.liner(section.drilling.liner) else { return Answer::Missing(vec!["rig.pump.liners"]) };
    let Some(lines) = fit.rig.surface_lines.rating else { return Answer::Missing(vec!["rig.surface_lines.rating"]) };
    let reserves = &fit.well.reserves;
    let pressure = liner.rating.min(lines) * (1.0 - reserves.pressure);
    let pumps = section.drilling.pumps_on as f64;
    rec.heading("what pumps and hole allow");
    rec.given("liners or surface lines, the weaker, less the wanted reserve", pressure, Kind::Pressure);
    let pump_speed = pump.speed * (1.0 - reserves.machinery);
    let most_flow = rec.take(PumpFlow { pumps, pump_output: output, pump_speed });
    let power = pumps * pump.power * pump.mechanical_efficiency * (1.0 - reserves.machinery);
    rec.given("hydraulic power of the pumps on, less the wanted reserve", power, Kind::Power);
    let least_flow = scene.cleaning().map_or(0.0, |wanted| wanted.flow_rate).min(most_flow);
    rec.given("flow that cleans", least_flow, Kind::FlowRate);
    rec.heading("loss outside the bit at two flows");
    let second = parasitic(scene, SECOND_FLOW * flow_rate);
    let loss = flow.standpipe - flow.bit_loss;
    rec.given("at the planned flow", loss, Kind::Pressure);
    rec.given("at four fifths of it", second, Kind::Pressure);
    if !(loss > second && second > 0.0) {
        return Answer::DoesNotArise("the loss outside the bit does not rise with the flow");
    }
    let flow_exponent = rec.take(FlowExponent {
        pressure_1: loss,
        pressure_2: second,
        flow_rate_1: flow_rate,
        flow_rate_2: SECOND_FLOW * flow_rate,
    });
    let density = section.mud.weight;
    let outside = Parasitic { flow_rate, loss, flow_exponent: flow_exponent.clamp(0.5, 3.0) };
    let mut figures = vec![Figure { name: PLANNED.flow, value: flow_rate, kind: Kind::FlowRate }];
    let choice = Choice { scene, nozzles: u32::try_from(nozzles).unwrap_or(u32::MAX) };
    rec.heading(PLANNED.heading);
    let left = pressure.min(power / flow_rate) - loss;
    rec.given("pressure left for the bit", left.max(0.0), Kind::Pressure);
    if left > 0.0 {
        let discharge_coefficient = DISCHARGE_COEFFICIENT;
        let area = rec.take(NozzleAreaForPressure { density, flow_rate, bit_pressure_loss: left, discharge_coefficient });
        choice.tell(&PLANNED, (flow_rate, area), &mut figures, rec);
    }
    let bounds = Bounds { pressure, power, least_flow, most_flow };
    for names in [&POWER, &IMPACT] {
        let Some(aim) = names.aim else { continue };
        rec.heading(names.heading);
        match optimum(aim, &outside, &bounds, (density, DISCHARGE_COEFFICIENT), rec) {
            Some(best) => {
                figures.push(Figure { name: names.flow, value: best.flow_rate, kind: Kind::FlowRate });
                choice.tell(names, (best.flow_rate, best.flow_area), &mut figures, rec);
            }
            None => rec.note(|| "Nothing is left for the bit.".to_owned()),
        }
    }
    Answer::Told(figures)
}

/// Standpipe pressure less that of the bit at another flow. [Pa]
fn parasitic(scene: &Scene, flow_rate: f64) -> f64 {
    let other = scene.with_same_pipe(Situation { flow_rate, ..scene.situation });
    let flow = other.flow(&mut Off);
    flow.standpipe - flow.bit_loss
}

/// A bit whose nozzles are chosen.
struct Choice<'a, 'b> {
    scene: &'a Scene<'b>,
    nozzles: u32,
}

impl Choice<'_, '_> {
    /// The real set of nozzles nearest to an area, and what it gives.
    fn tell<R: Recorder>(&self, names: &Names, (flow_rate, wanted): (f64, f64), figures: &mut Vec<Figure>, rec: &mut R) {
        let Some(NozzleSet { size, smaller, larger }) = choose_nozzles(self.nozzles, wanted) else { return };
        let area = |count: u32, size: u32, rec: &mut R| {
            rec.take(NozzleArea { nozzles: f64::from(count), nozzle_diameter: f64::from(size) * THIRTY_SECOND })
        };
        let mut flow_area = area(smaller, size, rec);
        if larger > 0 {
            flow_area += area(larger, size + 1, rec);
        }
        rec.given("flow area of the nearest set of nozzles", flow_area, Kind::Area);
        let (density, discharge_coefficient) = (self.scene.section().mud.weight, DISCHARGE_COEFFICIENT);
        let bit_pressure_loss = rec.take(BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient });
        let mut push = |name, value, kind| figures.push(Figure { name, value, kind });
        push(names.area, flow_area, Kind::Area);
        push(names.smaller, f64::from(smaller), Kind::Count);
        push(names.size, f64::from(size) * THIRTY_SECOND, Kind::Diameter);
        push(names.larger, f64::from(larger), Kind::Count);
        if names.aim == Some(Aim::Impact) {
            let jet_velocity = rec.take(JetVelocity { flow_rate, flow_area });
            push(names.gain, rec.take(JetImpact { density, flow_rate, jet_velocity }), Kind::Force);
        } else {
            let bit_diameter = self.scene.section().hole_diameter;
            push(names.gain, rec.take(HydraulicPowerPerArea { bit_pressure_loss, flow_rate, bit_diameter }), Kind::PowerPerArea);
        }
    }
}
