//! Figures that no limit judges: lag and bit hydraulics.

use super::pumps::pump_output;
use super::weight_up::{annular_volume, string_volume};
use crate::{Answer, Figure, Scene};
use rigwright_physics::Recorder;
use rigwright_physics::circulating::bit::{
    BitPressureLoss, DISCHARGE_COEFFICIENT, HydraulicPower, HydraulicPowerPerArea, JetImpact, JetVelocity,
};
use rigwright_physics::circulating::passage::{LagStrokes, LagTime};
use rigwright_units::Kind;

fn figure(name: &'static str, value: f64, kind: Kind) -> Figure {
    Figure { name, value, kind }
}

/// Strokes and minutes to the bit and back.
pub(super) fn lag<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let flow_rate = scene.situation.flow_rate;
    if flow_rate <= 0.0 {
        return Answer::DoesNotArise("the pumps are off");
    }
    let Some(pump_output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    rec.heading("down the string");
    let string = string_volume(scene, rec);
    let (down, down_time) = round(string, pump_output, flow_rate, rec);
    rec.heading("bottoms up");
    let annulus = annular_volume(scene, rec);
    let (up, up_time) = round(annulus, pump_output, flow_rate, rec);
    Answer::Told(vec![
        figure("strokes to the bit", down, Kind::Count),
        figure("time to the bit", down_time, Kind::Time),
        figure("strokes bottoms up", up, Kind::Count),
        figure("time bottoms up", up_time, Kind::Time),
        figure("volume of the string", string, Kind::Volume),
        figure("volume of the annulus", annulus, Kind::Volume),
    ])
}

fn round<R: Recorder>(volume: f64, pump_output: f64, flow_rate: f64, rec: &mut R) -> (f64, f64) {
    (rec.take(LagStrokes { volume, pump_output }), rec.take(LagTime { volume, flow_rate }))
}

/// What the nozzles give.
pub(super) fn bit<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    let Some(flow_area) = section.string.first().and_then(|bit| bit.flow_area) else {
        return Answer::Missing(vec!["section[].string[].nozzles"]);
    };
    let (density, flow_rate) = (section.mud.weight, scene.situation.flow_rate);
    if flow_rate <= 0.0 {
        return Answer::DoesNotArise("the pumps are off");
    }
    let discharge_coefficient = DISCHARGE_COEFFICIENT;
    let pressure = rec.take(BitPressureLoss { density, flow_rate, flow_area, discharge_coefficient });
    let power = rec.take(HydraulicPower { pressure, flow_rate });
    let bit_diameter = section.hole_diameter;
    let per_area = rec.take(HydraulicPowerPerArea { bit_pressure_loss: pressure, flow_rate, bit_diameter });
    let jet_velocity = rec.take(JetVelocity { flow_rate, flow_area });
    let impact = rec.take(JetImpact { density, flow_rate, jet_velocity });
    Answer::Told(vec![
        figure("pressure at the bit", pressure, Kind::Pressure),
        figure("hydraulic power at the bit", power, Kind::Power),
        figure("hydraulic power per area", per_area, Kind::PowerPerArea),
        figure("jet velocity", jet_velocity, Kind::JetSpeed),
        figure("impact of the jets", impact, Kind::Force),
        figure("flow area", flow_area, Kind::Area),
    ])
}
