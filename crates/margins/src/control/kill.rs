//! Killing the design kick: weight, pressures and strokes.

use crate::circulating::pumps;
use crate::{Answer, Figure, Judged, Limit, Place, Scene, geometry, worst};
use rigwright_physics::circulating::column::{EquivalentMudWeight, Hydrostatic};
use rigwright_physics::control::kill::{
    FinalCirculatingPressure, InitialCirculatingPressure, KillMudWeight, KillStrokes, PumpingTime,
};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::SlowRate;
use std::f64::consts::FRAC_PI_4;

/// Kill mud weight of the design kick and the shut-in drill pipe pressure that it would show. [kg/m³, Pa]
struct Kick {
    kill_weight: f64,
    drill_pipe_pressure: f64,
}

fn kick<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Kick, Answer> {
    if scene.fit().well.casing_above(scene.situation.section).is_none() {
        return Err(super::DIVERTED);
    }
    let Some(intensity) = scene.fit().well.kick.intensity else { return Err(Answer::Missing(vec!["kick.intensity"])) };
    let vertical_depth = scene.vertical_depth(scene.situation.bit_depth);
    rec.heading("the design kick");
    rec.given("intensity: pore pressure above the mud weight", intensity, Kind::Density);
    let (gravity, mud_weight) = (scene.gravity(), scene.section().mud.weight);
    let drill_pipe_pressure = rec.take(Hydrostatic { density: intensity, vertical_depth, gravity });
    let kill_weight = rec.take(KillMudWeight { mud_weight, drill_pipe_pressure, vertical_depth, gravity });
    Ok(Kick { kill_weight, drill_pipe_pressure })
}

pub(super) fn kill_weight<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let kick = match kick(scene, rec) {
        Ok(kick) => kick,
        Err(answer) => return answer,
    };
    let fit = scene.fit();
    let (top, bottom) = (geometry::open_from(fit, scene.situation.section), scene.situation.hole_depth);
    // As an equivalent mud weight fracture pressure is not straight within a layer, so every stand is looked at.
    let stands = (1..).map(|count| top + f64::from(count) * fit.rig.mast.stand).take_while(|depth| *depth < bottom);
    let ends = crate::sweep::layer_tops(fit).flat_map(|end| [end - 1e-3, end + 1e-3]);
    let mut judgements = Vec::new();
    for depth in ends.chain(stands).chain([top, bottom]).filter(|depth| *depth > 0.0 && (top..=bottom).contains(depth)) {
        let vertical_depth = scene.vertical_depth(depth);
        let Some(fracture) = fit.well.formation_at(vertical_depth).fracture_at(vertical_depth) else {
            return Answer::Missing(vec!["formation[].fracture"]);
        };
        let capacity = fracture / (scene.gravity() * vertical_depth);
        let limit = Limit {
            capacity,
            reserve: fit.well.margins.fracture,
            name: "fracture pressure at the weakest depth",
            source: "formation table of the well file",
        };
        judgements.push(Judged { demand: kick.kill_weight, limit, place: Place::Depth(depth), zero: 0.0 });
    }
    let Some(judged) = worst(judgements) else { return Answer::DoesNotArise("no open hole") };
    rec.heading("the weakest depth");
    if let Some(depth) = judged.place.depth() {
        let vertical_depth = scene.vertical_depth(depth);
        rec.given("measured depth", depth, Kind::Depth);
        if let Some(pressure) = fit.well.formation_at(vertical_depth).fracture_at(vertical_depth) {
            rec.take(EquivalentMudWeight { pressure, vertical_depth, gravity: scene.gravity() });
        }
    }
    Answer::Judged(judged)
}

/// The latest slow rate of the section: the deepest.
fn slow_rate(scene: &Scene) -> Result<SlowRate, Answer> {
    let deepest = scene.section().slow_rates.iter().copied().reduce(|a, b| if b.depth >= a.depth { b } else { a });
    deepest.ok_or(Answer::Missing(vec!["section[].slow_rate[]"]))
}

pub(super) fn kill_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (kick, slow) = match kick(scene, rec).and_then(|kick| Ok((kick, slow_rate(scene)?))) {
        Ok(both) => both,
        Err(answer) => return answer,
    };
    let demand =
        rec.take(InitialCirculatingPressure { drill_pipe_pressure: kick.drill_pipe_pressure, slow_pressure: slow.pressure });
    pumps::against_ratings(scene, rec, demand)
}

pub(super) fn kill<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (kick, slow) = match kick(scene, rec).and_then(|kick| Ok((kick, slow_rate(scene)?))) {
        Ok(both) => both,
        Err(answer) => return answer,
    };
    let mud_weight = scene.section().mud.weight;
    let Kick { kill_weight, drill_pipe_pressure } = kick;
    let initial = rec.take(InitialCirculatingPressure { drill_pipe_pressure, slow_pressure: slow.pressure });
    let last = rec.take(FinalCirculatingPressure { slow_pressure: slow.pressure, kill_weight, mud_weight });
    rec.heading("volumes and strokes");
    let bore = |diameter: f64| FRAC_PI_4 * diameter * diameter;
    let string: f64 = scene.string().iter().map(|piece| bore(piece.pipe.inner_diameter()) * (piece.bottom - piece.top)).sum();
    let annulus: f64 = scene.annuli().iter().map(|annulus| annulus.capacity() * annulus.length()).sum();
    rec.given("volume of the string", string, Kind::Volume);
    rec.given("volume of the annulus", annulus, Kind::Volume);
    let Some(pump_output) = pumps::pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    let to_bit = rec.take(KillStrokes { volume: string, pump_output });
    let to_surface = rec.take(KillStrokes { volume: annulus, pump_output });
    let minutes = rec.take(PumpingTime { strokes: to_bit + to_surface, pump_speed: slow.pump_speed });
    let figure = |name, value, kind| Figure { name, value, kind };
    Answer::Told(vec![
        figure("kill mud weight, unrounded", kill_weight, Kind::Density),
        figure("initial circulating pressure", initial, Kind::Pressure),
        figure("final circulating pressure", last, Kind::Pressure),
        figure("strokes to bit", to_bit, Kind::Count),
        figure("strokes from bit to surface", to_surface, Kind::Count),
        figure("time for one circulation", minutes, Kind::Time),
    ])
}
