//! Pumps and surface lines: pressure, power, speed.

use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::losses::{Flow, Stretch, stretch_loss};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::circulating::pumps::{DoubleActingOutput, PumpInputPower, PumpSpeed, SingleActingOutput};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::PumpKind;

const PUMPS_OFF: Answer = Answer::DoesNotArise("the pumps are off");

/// Liners and surface lines bear the standpipe pressure.
pub(super) fn standpipe_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.flow_rate <= 0.0 {
        return PUMPS_OFF;
    }
    let flow = scene.flow(rec);
    if let Some(entry) = flow.missing {
        return Answer::Missing(vec![entry]);
    }
    against_ratings(scene, rec, flow.standpipe)
}

/// A pressure at the standpipe against liners and surface lines.
pub(crate) fn against_ratings<R: Recorder>(scene: &Scene, rec: &mut R, demand: f64) -> Answer {
    let rig = &scene.fit().rig;
    let share = scene.fit().well.reserves.pressure;
    let judge = |capacity: f64, name: &'static str| {
        let limit = Limit { capacity, reserve: share * capacity, name, source: "nameplate" };
        Judged { demand, limit, place: Place::Surface, zero: 0.0 }
    };
    let liner = rig.pump.liner(scene.section().drilling.liner).map(|liner| judge(liner.rating, "rating of the liners fitted"));
    let lines = rig.surface_lines.rating.map(|rating| judge(rating, "rating of the surface lines"));
    for judged in liner.iter().chain(&lines) {
        rec.given(judged.limit.name, judged.limit.capacity, Kind::Pressure);
    }
    let worst = crate::worst(liner.into_iter().chain(lines));
    let mut missing = Vec::new();
    if liner.is_none() {
        missing.push("rig.pump.liners");
    }
    if lines.is_none() {
        missing.push("rig.surface_lines.rating");
    }
    match worst {
        // An unknown rating must not look as if it held; one that is passed is short whatever the other is.
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}

/// The pumps have the power.
pub(super) fn pump_power<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.flow_rate <= 0.0 {
        return PUMPS_OFF;
    }
    let flow = scene.flow(rec);
    if let Some(entry) = flow.missing {
        return Answer::Missing(vec![entry]);
    }
    let pump = &scene.fit().rig.pump;
    let pumps = scene.section().drilling.pumps_on as f64;
    rec.heading("power of one pump");
    rec.given("pumps that share the flow", pumps, Kind::Count);
    let demand = rec.take(PumpInputPower {
        pressure: flow.standpipe.max(0.0),
        flow_rate: scene.situation.flow_rate / pumps,
        mechanical_efficiency: pump.mechanical_efficiency,
    });
    let reserve = scene.fit().well.reserves.machinery * pump.power;
    let limit = Limit { capacity: pump.power, reserve, name: "input power of one pump", source: "nameplate" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// The pumps have the speed.
pub(super) fn pump_speed<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let pump = &scene.fit().rig.pump;
    let drilling = &scene.section().drilling;
    let Some(pump_output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    let mut demand = rec.take(PumpSpeed { flow_rate: drilling.flow_rate, pumps: drilling.pumps_on as f64, pump_output });
    let booster = scene.situation.booster;
    if booster > 0.0 {
        rec.heading("the pump on the booster line");
        demand = demand.max(rec.take(PumpSpeed { flow_rate: booster, pumps: 1.0, pump_output }));
    }
    let reserve = scene.fit().well.reserves.machinery * pump.speed;
    let limit = Limit { capacity: pump.speed, reserve, name: "largest pump speed", source: "nameplate" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// Pressure that the pump on the booster line makes; `Ok(None)` without booster, or the entry that is missing. [Pa]
pub(crate) fn booster_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Option<f64>, &'static str> {
    let (fit, rate) = (scene.fit(), scene.situation.booster);
    let Some((riser, bed)) = fit.riser(scene.situation.section).zip(fit.well.sea_bed()).filter(|_| rate > 0.0) else {
        return Ok(None);
    };
    let Some(inner_diameter) = riser.booster_line else { return Err("rig.riser.booster_line") };
    let prepared = scene.prepared_flow();
    let Some(mud) = &prepared.mud else { return Err("section[].mud.readings") };
    rec.heading("booster line");
    let density = scene.section().mud.weight;
    let line = Stretch { passage: Passage::Bore { inner_diameter }, length: bed };
    let loss = stretch_loss(prepared.method, mud, &line, Flow { rate, density }, rec);
    let below = scene.flow(&mut Off).pressure_at(bed, bed);
    rec.given("pressure in the riser at the sea bed, with cuttings and friction above", below, Kind::Pressure);
    let column = rec.take(Hydrostatic { density, vertical_depth: bed, gravity: scene.gravity() });
    rec.given("booster pressure: the two less the mud in the line", below + loss - column, Kind::Pressure);
    Ok(Some((below + loss - column).max(0.0)))
}

/// Pumps, liners and surface lines bear the pressure of the booster line.
pub(super) fn booster<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match booster_pressure(scene, rec) {
        Ok(Some(demand)) => against_ratings(scene, rec, demand),
        Ok(None) => Answer::DoesNotArise("no booster flow"),
        Err(entry) => Answer::Missing(vec![entry]),
    }
}

/// Output per stroke of one pump with the section's liner; `None` for a duplex whose rod nobody gave. [m³]
pub(crate) fn pump_output<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<f64> {
    output_with(scene, scene.section().drilling.liner, rec)
}

/// Output per stroke of one pump with a liner; `None` for a duplex whose rod nobody gave. [m³]
pub(crate) fn output_with<R: Recorder>(scene: &Scene, liner_diameter: f64, rec: &mut R) -> Option<f64> {
    let pump = &scene.fit().rig.pump;
    let stroke = pump.stroke;
    let volumetric_efficiency = pump.volumetric_efficiency;
    match pump.kind {
        PumpKind::Triplex => Some(rec.take(SingleActingOutput { cylinders: 3.0, liner_diameter, stroke, volumetric_efficiency })),
        PumpKind::Duplex => {
            let rod_diameter = pump.rod?;
            let output = DoubleActingOutput { cylinders: 2.0, liner_diameter, rod_diameter, stroke, volumetric_efficiency };
            Some(rec.take(output)).filter(|output| *output > 0.0)
        }
    }
}
