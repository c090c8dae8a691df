//! Figures that no limit judges: lag, samples and bit hydraulics.

use super::pumps::pump_output;
use super::weight_up::{annular_volume, string_volume};
use crate::fields::flow::{cutting, passage};
use crate::fields::rheology::mud_at;
use crate::{Answer, Figure, Scene};
use rigwright_physics::Recorder;
use rigwright_physics::circulating::bit::{
    BitPressureLoss, DISCHARGE_COEFFICIENT, HydraulicPower, HydraulicPowerPerArea, JetImpact, JetVelocity,
};
use rigwright_physics::circulating::passage::{CuttingsLag, LagStrokes, LagTime};
use rigwright_physics::circulating::slip::{Rise, SlipMethod, slip_velocity};
use rigwright_physics::circulating::viscometer::MudRheology;
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
    let (up, up_time) = bottoms_up(scene, annulus, pump_output, rec);
    rec.heading("cuttings from the bit");
    let rise = cuttings_rise(scene, rec);
    let mut figures = vec![
        figure("strokes to the bit", down, Kind::Count),
        figure("time to the bit", down_time, Kind::Time),
        figure("strokes bottoms up", up, Kind::Count),
        figure("time bottoms up", up_time, Kind::Time),
        figure("volume of the string", string, Kind::Volume),
        figure("volume of the annulus", annulus, Kind::Volume),
        figure("strokes from pump to surface", down + up, Kind::Count),
        figure("time from pump to surface", down_time + up_time, Kind::Time),
    ];
    figures.extend(rise.map(|rise| figure("time of cuttings from the bit", rise, Kind::Time)));
    Answer::Told(figures)
}

/// Strokes of the pumps on the string and time from the bit to surface: with a booster the mud is faster in the riser.
fn bottoms_up<R: Recorder>(scene: &Scene, annulus: f64, pump_output: f64, rec: &mut R) -> (f64, f64) {
    let (flow_rate, booster) = (scene.situation.flow_rate, scene.situation.booster);
    if booster <= 0.0 {
        return round(annulus, pump_output, flow_rate, rec);
    }
    let riser: f64 = scene.annuli().iter().filter(|piece| piece.riser).map(|piece| piece.capacity() * piece.length()).sum();
    rec.given("of the annulus, in the riser", riser, Kind::Volume);
    let below = rec.take(LagTime { volume: annulus - riser, flow_rate });
    let above = rec.take(LagTime { volume: riser, flow_rate: flow_rate + booster });
    rec.given("both together", below + above, Kind::Time);
    let volume = (below + above) * flow_rate;
    rec.given("pumped down the string in that time", volume, Kind::Volume);
    (rec.take(LagStrokes { volume, pump_output }), below + above)
}

/// Time in which cuttings rise from the bit to surface, each annulus with its own slip; `None` where they do not rise. [s]
pub(super) fn cuttings_rise<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<f64> {
    let section = scene.section();
    let mut time = 0.0;
    for annulus in scene.annuli().iter().rev() {
        rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.bottom);
        let passage = passage(annulus);
        let annular_velocity = passage.velocity(scene.flow_past(annulus), rec);
        let rise = Rise { annular_velocity, width: passage.width(), density: section.mud.weight };
        let mud = mud_at(scene, scene.situation, 0.5 * (annulus.top + annulus.bottom))?;
        let slip = |mud: &MudRheology, rec: &mut R| Some(slip_velocity(SlipMethod::Moore, mud, &cutting(section), &rise, rec));
        let slip = mud.velocity(slip, rec)?;
        let net_velocity = annular_velocity - slip;
        if net_velocity <= 0.0 {
            rec.note(|| "Here the cuttings sink as fast as the mud rises: they do not come up.".to_owned());
            return None;
        }
        time += rec.take(CuttingsLag { length: annulus.length(), net_velocity });
    }
    Some(time)
}

/// The depth whose sample is at the shaker now, and the next that is due.
pub(super) fn sample_depth<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    if scene.prepared_flow().mud.is_none() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    if scene.fit().open_to_sea(scene.situation.section).is_some() {
        return super::TO_SEA;
    }
    if section.progress.len() > 1 {
        return super::samples::by_progress(scene, rec);
    }
    let Some(rise) = cuttings_rise(scene, rec) else {
        return Answer::DoesNotArise("the cuttings do not rise in every annulus");
    };
    let penetration_rate = section.drilling.penetration_rate;
    rec.heading("sample at the shaker");
    rec.given("time of cuttings from the bit", rise, Kind::Time);
    rec.given("rate of penetration, steady since then", penetration_rate, Kind::DrillingRate);
    let bottom = scene.situation.hole_depth;
    let drilled = penetration_rate * rise;
    rec.given("drilled in that time", drilled, Kind::Depth);
    let here = (bottom - drilled).max(section.top);
    let mut figures = vec![figure("hole", bottom, Kind::Depth), figure("sample at the shaker is from", here, Kind::Depth)];
    if let Some(interval) = section.cleaning.sample_interval {
        let next = (here / interval).floor() * interval + interval;
        rec.given("depth from one sample to the next", interval, Kind::Depth);
        rec.given("next multiple of it below the sample at the shaker", next, Kind::Depth);
        figures.push(figure("next sample is from", next, Kind::Depth));
        if penetration_rate > 0.0 {
            figures.push(figure("it is at the shaker in", (next - here) / penetration_rate, Kind::Time));
        }
    }
    Answer::Told(figures)
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
