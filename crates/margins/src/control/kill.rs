//! Killing the design kick: weight, pressures, strokes.

use super::shut_in::{NOT_SHUT_IN, design_kick, shut_in};
use crate::circulating::pumps::{against_ratings, pump_output};
use crate::circulating::{annular_volume, place_of, string_volume};
use crate::fields::influx::{self, formation_pressure, with_kick};
use crate::fields::open_hole::{self, Point, point};
use crate::{Answer, Figure, Judged, Limit, Place, Scene, geometry};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::circulating::passage::{AnnularCapacity, BoreCapacity};
use rigwright_physics::control::circulate::{Circulation, KillMethod};
use rigwright_physics::control::kill::{
    FinalCirculatingPressure, InitialCirculatingPressure, KillMudWeight, KillStrokes, PumpingTime,
};
use rigwright_physics::control::subsea::{CasingPressureOnRate, FrictionWithWeight};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Operation, SlowRate};

/// Even steps of the march that the working shows.
const STEPS: u32 = 40;
const CLIMBS: Answer = Answer::DoesNotArise("the design kick is not one bubble at the bottom of this hole");

/// Weight that kills the design kick of an intensity, unrounded. [kg/m³]
pub(super) fn kill_mud_weight<R: Recorder>(scene: &Scene, intensity: f64, rec: &mut R) -> f64 {
    rec.heading("kill mud weight");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let drill_pipe_pressure = drill_pipe_pressure(scene, formation_pressure, rec);
    weight(scene, drill_pipe_pressure, rec)
}

/// Shut-in drill pipe pressure: what the mud leaves of formation pressure. [Pa]
fn drill_pipe_pressure<R: Recorder>(scene: &Scene, formation_pressure: f64, rec: &mut R) -> f64 {
    let vertical_depth = scene.vertical_depth(scene.situation.hole_depth);
    let column = rigwright_physics::circulating::column::Hydrostatic {
        density: scene.section().mud.weight,
        vertical_depth,
        gravity: scene.gravity(),
    };
    let pressure = (formation_pressure - rec.take(column)).max(0.0);
    rec.given("shut-in drill pipe pressure: formation pressure less the mud", pressure, Kind::Pressure);
    pressure
}

/// Kill mud weight without rounding. [kg/m³]
fn weight<R: Recorder>(scene: &Scene, drill_pipe_pressure: f64, rec: &mut R) -> f64 {
    rec.take(KillMudWeight {
        mud_weight: scene.section().mud.weight,
        drill_pipe_pressure,
        vertical_depth: scene.vertical_depth(scene.situation.hole_depth),
        gravity: scene.gravity(),
    })
}

pub(super) fn kill_weight<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    if scene.situation.operation != Operation::ShutIn {
        return NOT_SHUT_IN;
    }
    let Some(intensity) = fit.well.kick.intensity else { return Answer::Missing(vec!["kick.intensity"]) };
    let demand = kill_mud_weight(scene, intensity, rec);

    let points: Vec<Point> = match scene.at {
        Some(at) => open_hole::only(scene, at),
        None => {
            let prepared = scene.prepared_flow().open_hole.above(scene.situation.hole_depth);
            prepared.iter().copied().chain(point(fit, scene.situation.hole_depth)).collect()
        }
    };
    let strength = |point: &Point| {
        let pressure = influx::strength(scene, point, &mut Off)?;
        Some(EquivalentMudWeight { pressure, vertical_depth: point.vertical_depth, gravity: scene.gravity() })
    };
    let mut unknown = false;
    let judgements = points.iter().filter_map(|point| {
        let Some(strength) = strength(point) else {
            unknown = true;
            return None;
        };
        let (name, source) = place_of(point);
        let limit = Limit { capacity: strength.value(), reserve: fit.well.margins.fracture, name, source };
        Some((Judged { demand, limit, place: Place::Depth(point.depth), zero: 0.0 }, *point))
    });
    let governing = judgements.reduce(|worst, next| if next.0.room() < worst.0.room() { next } else { worst });
    match governing {
        Some((judged, point)) if !unknown || judged.room() < 0.0 => {
            rec.heading("the weakest depth, as a mud weight");
            rec.given("measured depth", point.depth, Kind::Depth);
            if let Some(weight) = strength(&point) {
                influx::strength(scene, &point, rec);
                rec.take(weight);
            }
            Answer::Judged(judged)
        }
        None if !unknown => Answer::DoesNotArise("no open hole"),
        _ => Answer::Missing(vec!["formation[].fracture"]),
    }
}

/// The deepest slow rate of the section.
pub(super) fn deepest_reading<'a>(scene: &'a Scene) -> Option<&'a SlowRate> {
    scene.section().slow_rates.iter().max_by(|a, b| a.depth.total_cmp(&b.depth))
}

/// Slow rate pressure with the mud in the hole, from the deepest reading; `None` for no reading. [Pa]
fn slow_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<f64> {
    let deepest = deepest_reading(scene)?;
    rec.given("slow rate pressure, deepest reading", deepest.pressure, Kind::Pressure);
    rec.given("read at measured depth", deepest.depth, Kind::Depth);
    let mud_weight = scene.section().mud.weight;
    if (deepest.weight - mud_weight).abs() < 1e-6 {
        return Some(deepest.pressure);
    }
    rec.note(|| "Read with another mud: a new reading is due.".to_owned());
    Some(rec.take(FrictionWithWeight { loss: deepest.pressure, mud_weight: deepest.weight, other_weight: mud_weight }))
}

pub(super) fn kill_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    let Some(intensity) = fit.well.kick.intensity else { return Answer::Missing(vec!["kick.intensity"]) };
    let Some(slow_pressure) = slow_pressure(scene, rec) else { return Answer::Missing(vec!["section[].slow_rate[]"]) };
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let drill_pipe_pressure = drill_pipe_pressure(scene, formation_pressure, rec);
    let demand = rec.take(InitialCirculatingPressure { drill_pipe_pressure, slow_pressure });
    against_ratings(scene, rec, demand)
}

pub(super) fn figures<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    let (volume, intensity) = match design_kick(scene) {
        Ok(kick) => kick,
        Err(missing) => return missing,
    };
    rec.heading("shut in on the design kick");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let drill_pipe_pressure = drill_pipe_pressure(scene, formation_pressure, rec);
    let Some(shut_in) = shut_in(scene, formation_pressure, volume, rec) else { return CLIMBS };
    rec.heading("weight and pressures");
    let kill_weight = weight(scene, drill_pipe_pressure, rec);
    let mut figures = vec![
        figure("kill mud weight, unrounded", kill_weight, Kind::Density),
        figure("shut-in drill pipe pressure", drill_pipe_pressure, Kind::Pressure),
        figure("shut-in casing pressure", shut_in.casing_pressure, Kind::Pressure),
    ];
    if let Some(slow_pressure) = slow_pressure(scene, rec) {
        let initial = rec.take(InitialCirculatingPressure { drill_pipe_pressure, slow_pressure });
        let mud_weight = scene.section().mud.weight;
        let last = rec.take(FinalCirculatingPressure { slow_pressure, kill_weight, mud_weight });
        figures.push(figure("initial circulating pressure", initial, Kind::Pressure));
        figures.push(figure("final circulating pressure", last, Kind::Pressure));
    }
    if let Some(loss) = super::subsea::slow_rate_loss(scene, scene.section().mud.weight, rec) {
        let (casing_pressure, choke_line_friction) = (shut_in.casing_pressure, loss);
        figures.push(figure("loss in the choke line at the slow rate", loss, Kind::Pressure));
        let hold = rec.take(CasingPressureOnRate { casing_pressure, choke_line_friction });
        figures.push(figure("casing pressure to hold with the pump on rate", hold, Kind::Pressure));
    }
    if let Some(pump_output) = pump_output(scene, rec) {
        rec.heading("strokes to the bit");
        let down = string_volume(scene, rec);
        figures.push(figure("strokes to the bit", rec.take(KillStrokes { volume: down, pump_output }), Kind::Count));
        rec.heading("strokes from the bit to surface");
        let up = kill_path(scene, rec);
        let strokes = rec.take(KillStrokes { volume: up, pump_output });
        figures.push(figure("strokes from bit to surface", strokes, Kind::Count));
        if let Some(slow) = deepest_reading(scene) {
            rec.heading("time for one circulation");
            let strokes = rec.take(KillStrokes { volume: down + up, pump_output });
            let time = rec.take(PumpingTime { strokes, pump_speed: slow.pump_speed });
            figures.push(figure("time for one circulation", time, Kind::Time));
        }
        let shoe = scene.vertical_depth(geometry::open_from(fit, scene.situation.section));
        if let Some(annulus) = scene.kick_annulus() {
            rec.heading("strokes from the bit to the shoe");
            let strokes = rec.take(KillStrokes { volume: annulus.volume_below(shoe), pump_output });
            figures.push(figure("strokes from bit to shoe", strokes, Kind::Count));
        }
    }
    let at_surface = with_kick(scene, formation_pressure, |well| {
        let circulation = Circulation {
            well: *well,
            influx: volume,
            method: KillMethod::Driller,
            overbalance: 0.0,
            weak_depth: scene.vertical_depth(geometry::open_from(fit, scene.situation.section)),
            steps: STEPS,
        };
        if R::ON {
            rec.heading("driller's method, the whole first circulation");
            circulation.march(rec);
        }
        let pumped = circulation.pumped_when_top_at(well.path.annulus.vertical_depth(well.path.annulus.volume()))?;
        circulation.instant(&mut rigwright_physics::Off, pumped)
    });
    if let Some(instant) = at_surface.flatten() {
        figures.push(figure("casing pressure with gas at surface, driller's method", instant.choke_pressure, Kind::Pressure));
        figures.push(figure("pit gain then", instant.gas_volume, Kind::Volume));
    }
    Answer::Told(figures)
}

/// Volume of the way from the bit to the choke: the annulus, with the choke line instead of a riser. [m³]
fn kill_path<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let Some((riser, length)) = scene.fit().riser(scene.situation.section).zip(scene.fit().well.sea_bed()) else {
        return annular_volume(scene, rec);
    };
    let mut volume = 0.0;
    for piece in scene.annuli().iter().rev().filter(|piece| !piece.riser) {
        rec.stretch(|| "annulus".to_owned(), piece.top, piece.bottom);
        let (hole_diameter, pipe_diameter) = (piece.hole_diameter, piece.pipe_diameter);
        volume += rec.take(AnnularCapacity { hole_diameter, pipe_diameter }) * piece.length();
    }
    rec.stretch(|| "choke line".to_owned(), 0.0, length);
    volume += rec.take(BoreCapacity { inner_diameter: riser.choke_line }) * length;
    rec.given("volume of the way", volume, Kind::Volume);
    volume
}

/// Casing pressure of the design kick, shut in and with its gas at surface by driller's method; `None` where it is not one
/// bubble. [Pa]
pub(super) fn peak(scene: &Scene) -> Option<[f64; 2]> {
    let (volume, intensity) = design_kick(scene).ok()?;
    let formation_pressure = formation_pressure(scene, intensity, &mut Off);
    let shut_in = shut_in(scene, formation_pressure, volume, &mut Off)?;
    let at_surface = with_kick(scene, formation_pressure, |well| {
        let circulation = Circulation {
            well: *well,
            influx: volume,
            method: KillMethod::Driller,
            overbalance: 0.0,
            weak_depth: scene.vertical_depth(geometry::open_from(scene.fit(), scene.situation.section)),
            steps: STEPS,
        };
        let pumped = circulation.pumped_when_top_at(well.path.annulus.vertical_depth(well.path.annulus.volume()))?;
        circulation.instant(&mut Off, pumped)
    });
    Some([shut_in.casing_pressure, at_surface??.choke_pressure])
}

fn figure(name: &'static str, value: f64, kind: Kind) -> Figure {
    Figure { name, value, kind }
}
