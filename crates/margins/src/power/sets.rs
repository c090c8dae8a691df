//! Sets against the load, with all that are on line and with one lost: steady loads and peaks.

use super::load::Load;
use super::trace::{self, PowerTrace, TracePoint};
use super::{NOTHING_DRAWN, site};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::power::sets::{SetApparentLoad, SetLoad};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

pub(super) fn on_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    steady(scene, scene.fit().rig.sets.on_line, rec)
}

pub(super) fn one_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    rec.note(|| "The worst single failure looked at is the loss of one set.".to_owned());
    steady(scene, scene.fit().rig.sets.on_line.saturating_sub(1), rec)
}

/// Sets left when the fullest bus section is lost.
fn left_by_bus<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<u32, Answer> {
    let sets = &scene.fit().rig.sets;
    let Some(buses) = sets.buses else { return Err(Answer::Missing(vec!["rig.sets.buses"])) };
    rec.given("sets on line", f64::from(sets.on_line), Kind::Count);
    rec.given("bus sections that they are shared over", f64::from(buses), Kind::Count);
    Ok(sets.on_line - sets.on_line.div_ceil(buses.max(1)))
}

pub(super) fn bus_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.fit().rig.sets.buses == Some(1) {
        return Answer::DoesNotArise("all sets hang on one bus: its loss is a blackout, see power/emergency");
    }
    match left_by_bus(scene, rec) {
        Ok(sets) => steady(scene, sets, rec),
        Err(missing) => missing,
    }
}

/// Thrusters and hotel load on what the loss of a section leaves; no section holds less than a set.
pub(super) fn station_keeping<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.sea_bed().is_none() {
        return Answer::DoesNotArise("the rig does not float");
    }
    match fit.rig.sets.station_load {
        None => return Answer::Missing(vec!["rig.sets.station_load"]),
        Some(power) if power <= 0.0 => return Answer::DoesNotArise("moorings alone hold the rig"),
        Some(_) => {}
    }
    let sets = match left_by_bus(scene, rec) {
        Ok(sets) => sets,
        Err(missing) => return missing,
    };
    if fit.rig.sets.buses == Some(1) {
        rec.note(|| "All sets hang on one bus: its loss is a blackout, and nothing is left that holds the rig.".to_owned());
    }
    let load = Load::idle(fit);
    load.show(rec);
    against(scene, &load, sets, rec)
}

pub(super) fn peak<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    at_peak(scene, scene.fit().rig.sets.on_line, rec)
}

pub(super) fn peak_one_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    rec.note(|| "The worst single failure looked at is the loss of one set.".to_owned());
    at_peak(scene, scene.fit().rig.sets.on_line.saturating_sub(1), rec)
}

fn steady<R: Recorder>(scene: &Scene, sets: u32, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return Answer::DoesNotArise("nothing turns but the hotel load");
    }
    match Load::of(scene, rec) {
        Ok(load) => against(scene, &load, sets, rec),
        Err(entry) => Answer::Missing(vec![entry]),
    }
}

fn at_peak<R: Recorder>(scene: &Scene, sets: u32, rec: &mut R) -> Answer {
    if R::ON {
        // Once more, to write it down.
        trace::cycle(scene, rec);
    }
    let trace: &PowerTrace = match scene.power_cycle() {
        Some(Ok(trace)) => trace,
        Some(Err(entry)) => return Answer::Missing(vec![entry]),
        None => return Answer::DoesNotArise("the load is steady: see power/sets-on-line"),
    };
    trace.show(rec);
    let mut judge = |point: &TracePoint| {
        rec.heading("at the peak");
        rec.note(|| format!("The peak comes while {}.", point.phase.words()));
        point.load.show(rec);
        against(scene, &point.load, sets, rec)
    };
    let (Some(peak), Some(apparent)) = (trace.peak(), trace.apparent_peak(scene.fit())) else { return NOTHING_DRAWN };
    let by_power = judge(peak);
    // With direct current the generators may be asked most at another moment than the engines.
    let one_moment = (peak.time - apparent.time).abs() < 1e-9 && peak.phase == apparent.phase;
    let by_apparent = if one_moment { by_power.clone() } else { judge(apparent) };
    if by_apparent.rank(&by_power).is_lt() { by_apparent } else { by_power }
}

/// Holds a load against so many sets: their engines in power, their generators in apparent power.
fn against<R: Recorder>(scene: &Scene, load: &Load, sets: u32, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let bus = load.at_bus(fit, rec);
    if bus.power <= 0.0 {
        return NOTHING_DRAWN;
    }
    rec.heading("sets");
    rec.given("sets that carry it", f64::from(sets), Kind::Count);
    let rating = match site::rating(scene, rec) {
        Ok(rating) => rating,
        Err(missing) => return Answer::Missing(missing),
    };
    let count = f64::from(sets);
    let share = fit.well.reserves.power;
    // The reserve is a share of one set where none is left, so that it stays above nought; so it does for sets that a site
    // leaves nothing of.
    let judge = |capacity: f64, one: f64, name, source| {
        let limit = Limit { capacity, reserve: (share * one * count.max(1.0)).max(1.0), name, source };
        Judged { demand: bus.power, limit, place: Place::Surface, zero: 0.0 }
    };
    let (name, source) = match fit.rig.sets.aspiration {
        None => ("engines of the sets", "nameplate of the sets"),
        Some(_) => ("engines of the sets on this site", "nameplate of the sets, derated by ISO 3046-1"),
    };
    let engines = judge(count * rating, rating, name, source);
    if sets > 0 && rating > 0.0 {
        rec.take(SetLoad { electric_power: bus.power, sets: count, rated_power: rating });
    }
    let Some(rated_apparent_power) = fit.rig.sets.apparent_rating else {
        // A generator that nobody knows may be the weaker half of its set.
        return if engines.room() < 0.0 { Answer::Judged(engines) } else { Answer::Missing(vec!["rig.sets.apparent_rating"]) };
    };
    if sets > 0 {
        rec.take(SetApparentLoad { apparent_power: bus.apparent_power, sets: count, rated_apparent_power });
    }
    // The question is asked in power: a generator bears its apparent rating times the power factor of the load.
    let bears = rated_apparent_power * bus.power_factor;
    let generators = judge(count * bears, bears, "generators of the sets, at this power factor", "nameplate of the sets");
    worst([engines, generators]).map_or(Answer::Judged(engines), Answer::Judged)
}
