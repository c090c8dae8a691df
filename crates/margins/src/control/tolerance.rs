//! Kick tolerance against the weakest depth of open hole.

use super::shut_in::{NOT_SHUT_IN, design_kick};
use crate::fields::influx::{formation_pressure, show_gas, strength, with_kick};
use crate::fields::open_hole::{Point, point};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::control::tolerance::{Allowed, KickWell, WeakPoint};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::Operation;

pub(crate) fn drilled<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if R::ON { tolerance(scene, design_kick, rec) } else { scene.kick_tolerance(|| tolerance(scene, design_kick, &mut Off)) }
}

pub(crate) fn swabbed<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let kick = |scene: &Scene| {
        let volume = scene.fit().well.kick.volume.ok_or(Answer::Missing(vec!["kick.volume"]))?;
        Ok((volume, 0.0))
    };
    tolerance(scene, kick, rec)
}

fn tolerance<R: Recorder>(scene: &Scene, kick: impl Fn(&Scene) -> Result<(f64, f64), Answer>, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    if scene.situation.operation != Operation::ShutIn {
        return NOT_SHUT_IN;
    }
    let (demand, intensity) = match kick(scene) {
        Ok(kick) => kick,
        Err(missing) => return missing,
    };
    show_gas(scene, rec);
    rec.heading("formation pressure of the kick");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let Some(found) = with_kick(scene, formation_pressure, |well| weakest(scene, well, rec)) else {
        return Answer::DoesNotArise("the hole climbs towards its end: a bubble does not stand at the bottom");
    };
    let Some(found) = found else { return Answer::DoesNotArise("the gas leaves the range of its correlation") };
    let Some(Weakest { capacity, at, name, source, unknown }) = found else {
        return Answer::Missing(vec!["formation[].fracture"]);
    };
    let reserve = fit.well.reserves.volume * demand;
    let judged = Judged { demand, limit: Limit { capacity, reserve, name, source }, place: Place::Depth(at), zero: 0.0 };
    // A layer whose strength nobody knows must not look as if it held.
    if unknown && judged.room() >= 0.0 {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    Answer::Judged(judged)
}

/// Name of the limit where no volume of gas breaks any depth.
pub const WHOLE_ANNULUS: &str = "whole annulus full of gas";

/// What the weakest depth allows.
struct Weakest {
    /// Volume at the bottom. [m³]
    capacity: f64,
    /// Measured depth. [m]
    at: f64,
    name: &'static str,
    source: &'static str,
    /// Whether the strength of some depth is not known.
    unknown: bool,
}

/// The depth of open hole that allows least, where the strength of any is known; `None` where the gas leaves the range of
/// its correlation.
fn weakest<R: Recorder>(scene: &Scene, well: &KickWell, rec: &mut R) -> Option<Option<Weakest>> {
    let situation = &scene.situation;
    let prepared = scene.prepared_flow().open_hole.above(situation.hole_depth);
    let bottom = point(scene.fit(), situation.hole_depth);
    let points = || prepared.iter().chain(bottom.iter());
    let unknown = points().any(|point| point.fracture.is_none());
    let known = || points().filter_map(|point| Some((*point, strength(scene, point, &mut Off)?)));
    // First the depth that mud alone brings nearest to its limit; gas adds about the same everywhere above it.
    let slack = |point: &Point, fracture: f64| {
        let below = well.path.annulus.bottom() - point.vertical_depth;
        fracture - (well.formation_pressure - well.mud_weight * well.path.gravity * below)
    };
    let nearest = known().min_by(|(a, p), (b, q)| slack(a, *p).total_cmp(&slack(b, *q)));
    let Some((first, fracture)) = nearest else { return Some(None) };
    let mut governing = (first, well.governing(weak(&first, fracture))?);
    for (other, fracture) in known() {
        let place = weak(&other, fracture);
        let least = limit(governing.1);
        if other == first || well.lets_pass(place) >= least || well.surely_passes(place, least) {
            continue;
        }
        let allowed = well.governing(place)?;
        if limit(allowed) < limit(governing.1) {
            governing = (other, allowed);
        }
    }
    let (at, allowed) = governing;
    if R::ON {
        rec.heading("the weakest depth");
        rec.given("measured depth", at.depth, Kind::Depth);
        rec.given("vertical depth", at.vertical_depth, Kind::Depth);
        let bears = strength(scene, &at, rec).unwrap_or_default();
        rec.given("pressure that it bears of mud as heavy as at surface", bears, Kind::Pressure);
        let tolerance = well.tolerance(rec, weak(&at, bears))?;
        rec.heading("volumes at the bottom that it allows, the smaller governs");
        rec.given("at the initial shut-in", tolerance.at_shut_in.volume(), Kind::Volume);
        rec.given("with the top of the gas at it", tolerance.at_weak_point.volume(), Kind::Volume);
    }
    let (capacity, name, source) = match allowed {
        // Gas from the bottom all the way up to it breaks no depth, and gas further up adds nothing there.
        Allowed::Everything(_) => (well.path.annulus.volume(), WHOLE_ANNULUS, "no depth of open hole breaks"),
        some if at.tested => (some.volume(), "kick tolerance at the shoe", "leak-off or integrity test of the shoe"),
        some => (some.volume(), "kick tolerance by fracture pressure", "formations of the well file"),
    };
    Some(Some(Weakest { capacity, at: at.depth, name, source, unknown }))
}

fn weak(point: &Point, fracture: f64) -> WeakPoint {
    WeakPoint { vertical_depth: point.vertical_depth, allowed_pressure: fracture }
}

/// A volume to compare by: a depth that sets no limit never governs. [m³]
fn limit(allowed: Allowed) -> f64 {
    match allowed {
        Allowed::Everything(_) => f64::INFINITY,
        Allowed::Nothing | Allowed::Volume(_) => allowed.volume(),
    }
}
